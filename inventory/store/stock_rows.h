#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/stock_events.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Rows of what happens to boards besides sawing. The inserts return the new row's id.
ReturnId insertReturn(Database& database, BoardId board, const std::string& reason, Money expected,
                      EntryId entry);
std::int64_t insertCredit(Database& database, ReturnId returned, Money amount,
                          const std::string& receivedOn, EntryId entry);
std::int64_t insertCount(Database& database, const BayCount& count, EntryId entry);
/// The bay becomes known if it was not.
std::int64_t insertBayTag(Database& database, const std::string& bay, EntryId entry);

/// With its account.
BinId insertBin(Database& database, const Bin& bin, EntryId entry);
/// Bins that stand, by name.
[[nodiscard]] std::vector<Bin> readBins(Database& database);

std::int64_t insertSetAside(Database& database, const SetAside& wood, EntryId entry);
/// What is set aside for each job that stands, by job, species and thickness; nothing that is 0.
[[nodiscard]] std::vector<SetAside> readSetAside(Database& database);

/// Returns that stand, oldest first.
[[nodiscard]] std::vector<BoardReturn> readReturns(Database& database);
/// The last move out of a board's account that stands.
[[nodiscard]] std::optional<LeftRack> readLeftRack(Database& database, BoardId board);

}  // namespace flitch::store
