#pragma once
#include <map>
#include <optional>
#include <vector>

#include "inventory/store/database.h"
#include "inventory/store/snapshot.h"

namespace flitch::store {

/// What stood on every board's account once `until` was sealed, boards without wood left out:
/// replayed from the moves. O(moves).
[[nodiscard]] std::map<BoardId, Balance> readBalances(Database& database, EntryId until);

/// What left each board by sawing that stands, by cause, as it was posted.
[[nodiscard]] std::map<CuttingId, std::vector<LedgerSum>> readCuttingSums(Database& database);

/// The newest entry that took a board's wood without a cutting; none when there is none.
[[nodiscard]] std::optional<Leaving> readLeaving(Database& database, BoardId board);

}  // namespace flitch::store
