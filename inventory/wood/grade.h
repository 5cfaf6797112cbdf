#pragma once
#include <array>
#include <string>
#include <vector>

#include "inventory/wood/clear_cuttings.h"
#include "inventory/wood/grade_rules.h"

namespace flitch {

/// A mark as the grading rules see it.
enum class Blemish {
  soundKnot,
  unsoundKnot,
  hole,
  barkPocket,
  pith,
  split,
  check,
  wane,
  stain,
  sapwood,
  other
};

struct GradeMark {
  Blemish kind = Blemish::other;
  std::array<bool, 2> face{true, true};  ///< it shows on face A, on face B
  Cells where;
};

/// A board in quarter inches, as an inspector would look at it.
struct GradeBoard {
  int length = 0;              ///< cells
  std::vector<int> near, far;  ///< per column, the wood that both faces have: near <= y < far
  int width = 0;               ///< cells across, of the rectangle round all of it
  Length measuredLength, measuredWidth;  ///< for surface measure and least sizes
  std::vector<GradeMark> marks;
};

/// How one face stands to one grade.
struct GradeTrial {
  Grade grade = Grade::below;
  int face = 0;  ///< 0: A, 1: B
  bool reached = false;
  bool open = false;        ///< the effort ran out before it was decided
  int allowed = 0;          ///< cuttings
  std::int64_t needed = 0;  ///< cells
  CuttingSet set;           ///< the set that reaches it, else the best there is
  std::string barredBy;     ///< a limit beside the cuttings, in words; empty when none bars it
};

struct GradeEstimate {
  Grade grade = Grade::below;
  int surfaceMeasure = 0;
  GradeTrial trial;                ///< what the grade rests on: the face that decides
  bool exact = true;               ///< every better grade is proved out of reach
  std::vector<GradeTrial> missed;  ///< a trial that failed for each better grade, best first
};

/// What an inspector would be likely to call a kiln-dried board, by the published cutting rules for
/// hardwoods without exceptions of the species (so neither cherry nor walnut). The grade is that of
/// the poorer face; its cuttings are clear there and sound on the reverse (from memory), where
/// sound admits stain, sound knots, checks and holes of a quarter inch. F1F and Selects ask FAS of
/// the better face and No. 1 Common of the poorer. An exact half of the surface measure goes down.
/// An estimate: a licensed inspector decides.
[[nodiscard]] GradeEstimate estimateGrade(const GradeBoard& board, CuttingEffort effort = {});

/// `54.2`: cutting units of so many cells, rounded down to a tenth.
[[nodiscard]] std::string unitsText(std::int64_t cells);

}  // namespace flitch
