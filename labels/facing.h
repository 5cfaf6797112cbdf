#pragma once
#include <string>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"

namespace flitch::pages {

/// True for a blank whose part asks something else of its front edge than of its back edge, so that
/// the person at the bench must know which edge is which.
[[nodiscard]] bool hasFront(const Piece& piece, const Job& job);

/// What the person at the saw must know beyond the cuts, as sentences: blanks that lie with the
/// board's face B as their face A, where front edges lie, faces nobody has looked at. Edges go by
/// the names of the sheet: the near edge, from which the V of the reference edge is taken, and the
/// far edge. O(pieces x parts).
[[nodiscard]] std::string facingNotes(const Cutting& cutting, const Board& board, const Job& job);

}  // namespace flitch::pages
