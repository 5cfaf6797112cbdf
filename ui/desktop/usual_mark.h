#pragma once
#include <string>

#include "inventory/records/board.h"

namespace flitch::desktop {

/// A new mark of a kind with its centre at a place: usual size (common practice, no source), laid
/// to the edge or end it belongs to, on the faces it usually shows on.
[[nodiscard]] Defect usualMark(const std::string& kind, const Board& board, Face face, Length x,
                               Length y, Unit unit);

/// Where a mark that goes through aslant comes out on face B goes along with what was moved from
/// `was`; both are held on the board.
void moveAlong(Defect& mark, const Rect& was, const Rect& all);

}  // namespace flitch::desktop
