#pragma once
#include <vector>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// The demand table as readDemands() takes it: a row a demand, a column a kind of mark of the book.
[[nodiscard]] Table demandTable(const ShopProfile& shop, const std::vector<DefectKind>& kinds);

/// New settings with this demand table. Throws Refusal ("demand-used") when a part of a job asks
/// for a row that would be gone, naming it.
EntryId setDemands(store::Book& book, const std::vector<Demand>& demands, const store::Hand& hand);

}  // namespace flitch::desk
