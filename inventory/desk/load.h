#pragma once
#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// A delivery in the book, a row a board in tally order: what it is, billed and measured feet,
/// price, landed cost where it is on the rack still, and where it is or went, credits of boards
/// sent back among them. `boards` names each row's board. Throws Refusal when there is no such
/// delivery.
[[nodiscard]] Table loadTable(const store::Snapshot& snapshot, DeliveryId delivery, Unit unit,
                              std::string_view sign);

}  // namespace flitch::desk
