#pragma once
#include <map>
#include <optional>
#include <vector>

#include "inventory/store/database.h"
#include "inventory/store/snapshot.h"

namespace flitch::store {

/// Opens an entry: the next number, time, hand, event. Throws std::logic_error for an event that
/// the table `events` does not have.
[[nodiscard]] EntryId openEntry(Database& database, const Event& event, const Hand& hand);

/// Writes moves of an open entry, in order; `cuttings` tells which done cutting a move out of a
/// board belongs to. A move of nothing is left out.
void insertMoves(Database& database, EntryId entry, const std::vector<Move>& moves,
                 const std::map<BoardId, CuttingId>& cuttings);
/// Posts the moves to the accounts and closes the entry for good.
void seal(Database& database, EntryId entry);

/// Moves of an entry as they were posted, in order.
[[nodiscard]] std::vector<Move> readMoves(Database& database, EntryId entry);
/// The newest entries, newest first.
[[nodiscard]] std::vector<EntryLine> readEntries(Database& database, int newest);
[[nodiscard]] std::optional<EntryLine> readEntry(Database& database, EntryId id);
/// The entry that `entry` reverses, if it is an undo.
[[nodiscard]] std::optional<EntryId> undoneBy(Database& database, EntryId entry);
/// The newest entry before `entry` that changed a record (a table's name and the row's key).
[[nodiscard]] EntryId changeBefore(Database& database, const std::string& record, std::int64_t id,
                                   EntryId entry);
[[nodiscard]] std::vector<LedgerSum> readSawnSums(Database& database, std::optional<JobId> job);

}  // namespace flitch::store
