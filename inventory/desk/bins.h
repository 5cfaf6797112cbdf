#pragma once
#include <optional>
#include <string>

#include "inventory/records/stock_events.h"
#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// Board feet of untagged wood, as its volume says: 144 in³ a foot.
[[nodiscard]] Feet estimatedFeet(CubicMillimetres wood);

/// The bin of a species. Throws Refusal when there is none.
[[nodiscard]] Bin binOf(const store::Snapshot& snapshot, const std::string& species);
/// By its name or by its species, case folded. Throws Refusal naming the bins there are.
[[nodiscard]] Bin binNamed(const store::Snapshot& snapshot, const std::string& name);

/// A bin for untagged shorts of one species. Throws Refusal: no name, a name taken, a species that
/// the book does not know or that has a bin.
EntryId addBin(Book& book, const Bin& bin, const Hand& hand);

/// What is done with a bin: shorts found put in, used by hand, thrown away, or all of it estimated
/// anew.
enum class BinWork { put, used, thrown, holds };
/// Moves so many board feet, by estimate: from `found`, to `by hand` or `retired`; or, estimated
/// anew, what differs from or to `remeasured`. Throws Refusal for nothing, for more than lies
/// there, and for an estimate as it stands.
EntryId changeBin(Book& book, BinId bin, BinWork work, Feet feet, std::optional<JobId> job,
                  const std::string& why, const Hand& hand);

/// A row per bin: name, species, board feet by estimate, volume, note.
[[nodiscard]] Table binTable(const store::Snapshot& snapshot);

}  // namespace flitch::desk
