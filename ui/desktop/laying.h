#pragma once
#include <optional>
#include <vector>

#include "inventory/records/cut_plan.h"
#include "ui/desktop/plan_sheet.h"

namespace flitch::desktop {

/// A blank of a plan taken in hand, to be laid elsewhere.
struct BlankInHand {
  LaidByHand blank;  ///< where it lies as drawn
  /// It was laid there by hand already, so it is moved; else one more is laid.
  bool laidBefore = false;
};

/// The blank at a place of the board, one laid by hand since the plan before those of the plan.
/// None: no blank lies there.
[[nodiscard]] std::optional<BlankInHand> blankAt(const OpenedBoard& opened,
                                                 const std::vector<LaidByHand>& laid, Length x,
                                                 Length y);

/// Where a blank pulled to `x`, `y` (its corner nearest the tag end and the near edge) comes to
/// lie on the board: within `reach` drawn to the trimmed ends, the reference edge, and beside or in
/// line with blanks that lie there, a kerf between; on the plan's grid, wholly on the board.
/// O(blanks).
[[nodiscard]] LaidByHand laidNear(LaidByHand blank, const OpenedBoard& opened,
                                  const std::vector<LaidByHand>& laid, const PlanSheet& sheet,
                                  Length x, Length y, Length reach);

/// "PART@TAG x,y" as desk::readLaid() reads it.
[[nodiscard]] std::string laidText(const LaidByHand& laid, const Board& board, Unit unit);

}  // namespace flitch::desktop
