#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/desk/sawn_boards.h"
#include "inventory/records/table.h"

/// Reports on what was sawn, kept and bought. Volume and money are the ledger's own; every total is
/// the sum of its rows and of the boards behind them, exactly.
namespace flitch::desk {

/// Where the wood of sawn boards went, a row per name: in board feet, then in money. Board feet
/// count a part at the quarters it was cut from; what planing takes shows in volume only.
struct YieldTables {
  Table feet, money;
  Table rows;  ///< for files: a row per name and cause, with volume, feet and money
};
[[nodiscard]] YieldTables yieldReport(const std::vector<SawnBoard>& boards, By by);

/// What a board foot in parts really cost, by supplier and grade: landed cost less what the offcuts
/// carry on, over the feet of the parts.
[[nodiscard]] Table clearReport(const std::vector<SawnBoard>& boards);

/// Feet in parts and wood cost as the plans said and as sawn, a row per name. A board no plan
/// opened counts as sawn alone.
[[nodiscard]] Table actualReport(const std::vector<SawnBoard>& boards,
                                 const store::Snapshot& snapshot, By by);

/// Offcuts that sawing kept, by how long ago on `day`: how many and what they were worth when kept,
/// and what of it was used, lies on the rack still, or left otherwise.
[[nodiscard]] Table keptReport(const store::Snapshot& snapshot, const std::string& day);

/// Boards on the rack longer than `months` on `day`, oldest first: since the delivery came, an
/// offcut since it was sawn.
[[nodiscard]] Table oldReport(const store::Snapshot& snapshot, const std::string& day, int months);

/// The stock as it stood at the end of a day of the past, replayed from the ledger's moves.
[[nodiscard]] Table stockOn(const store::Snapshot& snapshot, const std::string& day);
/// The last entry made by the end of a day; zero when there was none.
[[nodiscard]] EntryId lastEntryOn(const store::Snapshot& snapshot, const std::string& day);

/// Whole months from one day to another, 2026-05-31; zero when `to` is not later.
[[nodiscard]] int monthsBetween(const std::string& from, const std::string& to);
/// The day a board came: its delivery's, an offcut's when it was sawn; empty when unknown.
[[nodiscard]] std::string cameOn(const store::Snapshot& snapshot, const Board& board);

/// Any boards as a table, on the rack or not, to go down to: tag, wood, size, feet, what it stands
/// at or was sawn at.
[[nodiscard]] Table boardsBehind(const store::Snapshot& snapshot,
                                 const std::vector<BoardId>& boards);

}  // namespace flitch::desk
