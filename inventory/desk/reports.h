#pragma once
#include <functional>
#include <optional>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Where the wood of sawn boards went: a row per cause (parts, offcuts, kerf, end trim, defects,
/// machining, unusable; parts spoiled since and boards used by hand, if any) in volume and money as
/// the ledger's moves say, and board feet, with share; totals are those of the boards sawn,
/// exactly.
[[nodiscard]] Table wasteReport(const store::Snapshot& snapshot, std::optional<JobId> job);
/// Offcuts on the rack: tag, species, quarters, size, board feet, value, parent, job they came
/// from, whole months on the rack on `day`. With `job` those alone that
/// its sawing left.
[[nodiscard]] Table offcutReport(const store::Snapshot& snapshot, const std::string& day,
                                 std::optional<JobId> job = std::nullopt);
/// Everything on the rack by species and thickness: boards, board feet, value. With `job` what is
/// held for it alone.
[[nodiscard]] Table stockReport(const store::Snapshot& snapshot,
                                std::optional<JobId> job = std::nullopt);
/// The rack as a table, a row per board.
[[nodiscard]] Table rackTable(const std::vector<Board>& boards);

/// Whether a board is asked for by words in any order: `cherry 4/4 >8' b3 free`, `T0042`. Empty
/// text: all. Words not understood match species, grade, bay, note, log or job as they stand.
/// Throws Refusal for a length that is none and a tag whose check character is wrong.
[[nodiscard]] std::function<bool(const Board&)> rackFilter(const std::string& words, Unit unit);
/// The boards asked for so.
[[nodiscard]] std::vector<Board> filterRack(std::vector<Board> boards, const std::string& words,
                                            Unit unit);

}  // namespace flitch::desk
