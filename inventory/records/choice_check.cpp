#include <algorithm>

#include "inventory/records/choices.h"
#include "inventory/records/cutting_check.h"

namespace flitch {

void checkChoices(const CutPlan& plan, const Choices& choices, std::vector<Fault>& faults) {
  const auto cuttingOf = [&](BoardId board) -> const Cutting* {
    const auto at = std::find_if(plan.cuttings.begin(), plan.cuttings.end(),
                                 [&](const Cutting& cutting) { return cutting.board == board; });
    return at == plan.cuttings.end() ? nullptr : &*at;
  };
  for (const BoardId board : choices.keptOut) {
    if (cuttingOf(board) == nullptr) continue;
    faults.push_back({FaultKind::boardKeptOut, board, -1, "the board was kept out"});
  }
  for (const BoardId board : choices.pins) {
    const Cutting* cutting = cuttingOf(board);
    const bool used = cutting != nullptr &&
                      std::any_of(cutting->pieces.begin(), cutting->pieces.end(),
                                  [](const Piece& p) { return p.kind == PieceKind::blank; });
    if (used) continue;
    faults.push_back({FaultKind::pinUnused, board, -1, "a board that must be used gives no blank"});
  }
  for (const Lock& lock : choices.locks) {
    const Cutting* cutting = cuttingOf(lock.cutting.board);
    if (cutting != nullptr && *cutting == lock.cutting) continue;
    faults.push_back({FaultKind::lockBroken, lock.cutting.board, -1,
                      cutting == nullptr ? "a locked board is not cut"
                                         : "a locked board is cut otherwise than it was"});
  }
  for (const LaidByHand& laid : choices.laid) {
    const Cutting* cutting = cuttingOf(laid.board);
    if (cutting != nullptr && holds(*cutting, laid)) continue;
    faults.push_back(
        {FaultKind::laidMoved, laid.board, -1,
         "a blank of " + partLetter(laid.line) + " laid by hand does not lie where it was laid"});
  }
}

}  // namespace flitch
