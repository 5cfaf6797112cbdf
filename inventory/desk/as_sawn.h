#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "inventory/exchange/columns.h"
#include "inventory/records/plan_check.h"

namespace flitch::desk {

/// A blank that came out too short.
struct CutShort {
  std::string mark;  ///< "C2"
  Length length;
};
/// An offcut as the maker measured it.
struct OffcutSize {
  Length length, width;
};
/// What went otherwise than planned on one board, its blanks apart.
struct Deviation {
  std::optional<int> stoppedAfter;  ///< number of the last cut made, as the cut sheet has it
  bool tagStays =
      false;  ///< the end trim at the tag was not cut: its wood and tag stay on the offcut
  std::vector<CutShort> cutShort;
  std::optional<std::vector<OffcutSize>> offcuts;  ///< all that were kept; none: as planned
  std::vector<OffcutSize> shorts;                  ///< kept without a tag, for the bin
  bool allShorts = false;  ///< whatever the shop finds worth a bin is kept for it
  [[nodiscard]] bool any() const {
    return stoppedAfter || tagStays || !cutShort.empty() || offcuts || !shorts.empty() || allShorts;
  }
};

/// A board as it was really sawn.
struct AsSawn {
  Cutting cutting;
  std::set<int> shorts;  ///< offcuts among its pieces that go to a bin
};

/// The cut tree as the board was really sawn. Stopped after a cut, what the others would have
/// parted hangs together: one offcut where the shop keeps such a one, else waste. Where the tag
/// stays, the end trim there goes to the offcuts it borders. A blank cut short is an offcut of that
/// length where the shop keeps such a one, else waste. Offcuts and shorts lie inside what the plan
/// leaves of the board beside its blanks, each at the corner of the smallest remainder that holds
/// it nearest the tag end; other remainders are waste. Of all shorts a remainder is one where it is
/// clear, large enough for a bin and too small for a tag. `at`: how the plan would have it. Throws
/// Refusal: a cut that is not on the sheet, or is its last, or leaves the board in one piece; a tag
/// that stays on no offcut; no such blank, one not shorter than planned, an offcut or short that no
/// remainder holds, a short that the keeping rule gives a tag. O(pieces²).
[[nodiscard]] AsSawn asSawn(const Deviation& deviation, const CuttingCase& at);

/// The same blanks at the same places from the tag end on another board; waste and offcuts take up
/// what differs. Throws Refusal where the board does not hold a blank, is of another species or
/// too thin. Marks are the maker's business: the wood is sawn.
[[nodiscard]] Cutting onBoard(const Cutting& planned, const Board& board,
                              const PlanRequest& request, Length tick);

/// Where tape and chalk begin at the saw, from the tag end: the far end once the first cut squared
/// it, with what is thrown there. O(pieces).
[[nodiscard]] Length freshEnd(const Cutting& cutting);
/// Marks measured from the fresh end, from the tag end as the book has them; `end` is the tag end.
/// Throws Refusal for one that begins beyond it.
[[nodiscard]] std::vector<exchange::MarkLine> fromTagEnd(std::vector<exchange::MarkLine> marks,
                                                         const Cutting& cutting, Unit unit);

/// Hand marks of the blanks that marks found bar, by part and number: those that the checker finds
/// on a mark with them and did not without. `at.board` has no mark found yet.
[[nodiscard]] std::vector<std::string> barredBy(const std::vector<Defect>& found,
                                                const CuttingCase& at);

}  // namespace flitch::desk
