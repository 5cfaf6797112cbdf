#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/wood/grade.h"

namespace flitch::desk {

/// What the cutting rules make of a board of the book.
struct BoardGrade {
  std::optional<GradeEstimate> estimate;
  /// "looks like about No. 1 Common; paid as FAS", "... No. 1 Common or better; ..." where the
  /// effort ran out before every better grade was ruled out, or why there is no estimate.
  std::string line;
};

/// Estimates the grade of a plank of a hardwood of the table whose two faces were looked at; not of
/// cherry and walnut, whose exceptions the rules here lack, nor where clear wood alone is marked
/// (`good`). Marks round outward and wood inward to the quarter inch. The width is the narrower of
/// those a third of the length from either end. Marks of an edge count on both faces. A licensed
/// inspector overrules it.
[[nodiscard]] BoardGrade gradeOf(const Board& board, CuttingEffort effort = {});

/// The cuttings that an estimate rests on, as places of the board; those of the face that decides
/// (`estimate.trial.face`).
[[nodiscard]] std::vector<Rect> cuttingsOf(const Board& board, const GradeEstimate& estimate);

}  // namespace flitch::desk
