#include "inventory/wood/grade.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "inventory/wood/grade_limits.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// Barred from a clear face: all but sapwood, which the hardwood rules take for clear (from
/// memory).
bool barsClear(const GradeMark& mark) { return mark.kind != Blemish::sapwood; }

/// Barred from the sound reverse of a cutting (from memory). A sound cutting admits a few small
/// holes and the like by its units; taken here: any that are a quarter inch across.
bool barsSound(const GradeMark& mark) {
  constexpr int quarterInchTwice = 2;  // twice the average diameter, in cells
  switch (mark.kind) {
    case Blemish::soundKnot:
    case Blemish::stain:
    case Blemish::sapwood:
    case Blemish::check: return false;
    case Blemish::unsoundKnot:
    case Blemish::hole:
    case Blemish::barkPocket: return mark.where.length + mark.where.width > quarterInchTwice;
    default: return true;
  }
}

/// Grades that a face reaches by its own cuttings, best first.
constexpr Grade faceGrades[] = {Grade::fas, Grade::no1Common, Grade::no2aCommon, Grade::no3aCommon};

class Inspection {
 public:
  Inspection(const GradeBoard& board, CuttingEffort effort)
      : board_(board),
        effort_(effort),
        surfaceMeasure_(std::max(
            1, surfaceMeasure(board.measuredWidth, board.measuredLength, Half::down).value)) {}

  GradeEstimate estimate() {
    GradeEstimate result;
    result.surfaceMeasure = surfaceMeasure_;
    const std::array<Grade, 2> levels{level(0), level(1)};
    const int poor = poorer(levels);
    const auto at = [&](int face) { return levels[static_cast<std::size_t>(face)]; };
    const int better = 1 - poor;

    std::vector<GradeTrial> ladder;
    const auto reaches = [&](GradeTrial trial) {
      ladder.push_back(std::move(trial));
      return ladder.back().reached;
    };
    const auto settled = [&] {
      result.trial = ladder.back();
      result.grade = result.trial.grade;
      ladder.pop_back();
    };
    const bool fas = at(poor) == Grade::fas && reaches(sized(Grade::fas, both(Grade::fas, poor)));
    if (!fas && at(poor) != Grade::fas)
      ladder.push_back(sized(Grade::fas, clear(Grade::fas, poor)));
    if (fas || reaches(sized(Grade::fasOneFace, oneFace(Grade::fasOneFace, better))) ||
        reaches(sized(Grade::selects, oneFace(Grade::selects, better))) ||
        reaches(sized(Grade::no1Common, both(Grade::no1Common, poor))) ||
        reaches(sized(Grade::no2aCommon, both(Grade::no2aCommon, poor))) ||
        reaches(sized(Grade::no3aCommon, both(Grade::no3aCommon, poor)))) {
      settled();
    }
    result.missed = std::move(ladder);
    result.exact = std::none_of(result.missed.begin(), result.missed.end(),
                                [](const GradeTrial& trial) { return trial.open; });
    return result;
  }

 private:
  /// The best grade of a face by itself, its reverse not looked at.
  Grade level(int face) {
    for (const Grade grade : faceGrades) {
      if (clear(grade, face).reached) return grade;
    }
    return Grade::below;
  }

  /// The face of the lower grade, or of fewer units where both have the same.
  int poorer(const std::array<Grade, 2>& levels) {
    if (levels[0] != levels[1]) return levels[0] > levels[1] ? 0 : 1;
    if (levels[0] == Grade::below) return 0;
    return clear(levels[0], 0).set.area <= clear(levels[1], 1).set.area ? 0 : 1;
  }

  GradeTrial clear(Grade grade, int face) { return trial(grade, face, false); }
  GradeTrial both(Grade grade, int face) { return trial(grade, face, true); }

  GradeTrial oneFace(Grade grade, int better) {
    GradeTrial result = clear(Grade::fas, better);
    if (grade == Grade::selects && !result.reached) selects(better, result);
    result.grade = grade;
    if (result.barredBy.empty()) result.barredBy = brokenEdge(board_, 1 - better, surfaceMeasure_);
    const GradeTrial reverse = clear(Grade::no1Common, 1 - better);
    if (result.barredBy.empty() && !reverse.reached) result.barredBy = "the poorer face";
    result.open = result.open || (result.reached && reverse.open);
    result.reached = result.reached && result.barredBy.empty();
    return result;
  }

  /// SM 2 and 3: wholly clear, or SM x 11 units in one cutting.
  void selects(int face, GradeTrial& result) {
    const auto rule = selectsRule(surfaceMeasure_);
    if (!rule) return;
    const ClearFace cells = faceOf(face, false);
    if (whollyClear(face)) {
      result.reached = true;
      result.set.cuttings.clear();
    } else {
      tryRule(*rule, Grade::fas, cells, result);
    }
    if (!result.barredBy.empty()) result.reached = false;
  }

  /// Too small a board reaches no grade, whatever its faces.
  GradeTrial sized(Grade grade, GradeTrial result) const {
    const LeastBoard least = leastBoard(grade);
    result.grade = grade;
    if (board_.measuredLength < least.length) {
      result.barredBy = "shorter than " + text(least.length, LengthStyle::feetInches);
    } else if (board_.measuredWidth < least.width - kilnDriedScantWidth) {
      result.barredBy =
          "narrower than " + text(least.width - kilnDriedScantWidth, LengthStyle::inches) + " in";
    } else {
      return result;
    }
    result.reached = false;
    result.open = false;
    return result;
  }

  GradeTrial trial(Grade grade, int face, bool soundReverse) {
    const auto key = std::make_tuple(grade, face, soundReverse);
    if (const auto known = trials_.find(key); known != trials_.end()) return known->second;
    GradeTrial result;
    result.grade = grade;
    result.face = face;
    const ClearFace cells = faceOf(face, soundReverse);
    const int feet = static_cast<int>(board_.measuredLength / Length::feet(1));
    if (wholeFaceClear(grade, surfaceMeasure_)) {
      result.reached = whollyClear(face);
    }
    for (const CuttingRule& rule : cuttingRules(grade, surfaceMeasure_, feet)) {
      if (!result.reached) tryRule(rule, grade, cells, result);
    }
    if (grade == Grade::fas) {
      const auto rule = fullWidthRule(surfaceMeasure_);
      const bool wide = board_.measuredWidth >= leastBoard(grade).width - kilnDriedScantWidth;
      if (rule && wide && !result.reached) tryFullWidth(*rule, cells, result);
      result.barredBy = brokenLimit(board_, face, surfaceMeasure_);
    }
    if (!result.barredBy.empty()) result.reached = result.open = false;
    trials_[key] = result;
    return result;
  }

  /// Takes the result over if it reaches the rule, or comes nearer than the one before.
  void takeOver(GradeTrial& result, const CuttingRule& rule, CuttingSet set) const {
    const std::int64_t needed = rule.neededCells(surfaceMeasure_);
    const bool reached = set.area >= needed;
    result.open = !reached && (result.open || set.bound >= needed);
    const bool nearer = result.needed == 0 || set.area * result.needed > result.set.area * needed;
    if (!reached && !nearer) return;
    result.reached = reached;
    result.allowed = rule.count;
    result.needed = needed;
    result.set = std::move(set);
  }

  void tryRule(const CuttingRule& rule, Grade grade, const ClearFace& cells,
               GradeTrial& result) const {
    takeOver(result, rule,
             bestCuttings(cells, leastCuttings(grade), rule.count,
                          rule.neededCells(surfaceMeasure_), effort_));
  }

  /// Two cuttings over the full width: as wide as the board is at its narrowest, of any length.
  void tryFullWidth(const CuttingRule& rule, const ClearFace& cells, GradeTrial& result) const {
    int narrowest = board_.width;
    for (int x = 0; x < board_.length; ++x) {
      const auto column = static_cast<std::size_t>(x);
      narrowest = std::min(narrowest, board_.far[column] - board_.near[column]);
    }
    const LeastCutting least{std::max(narrowest, 1), 1};
    takeOver(result, rule,
             bestCuttings(cells, std::span(&least, 1), rule.count,
                          rule.neededCells(surfaceMeasure_), effort_));
  }

  bool whollyClear(int face) const {
    return std::none_of(board_.marks.begin(), board_.marks.end(), [&](const GradeMark& mark) {
      return mark.face[static_cast<std::size_t>(face)] && barsClear(mark);
    });
  }

  ClearFace faceOf(int face, bool soundReverse) const {
    ClearFace cells(board_.length, board_.width);
    for (int x = 0; x < board_.length; ++x) {
      const auto column = static_cast<std::size_t>(x);
      cells.bar({x, 0, 1, board_.near[column]});
      cells.bar({x, board_.far[column], 1, board_.width - board_.far[column]});
    }
    for (const GradeMark& mark : board_.marks) {
      const bool here = mark.face[static_cast<std::size_t>(face)] && barsClear(mark);
      const bool behind =
          soundReverse && mark.face[static_cast<std::size_t>(1 - face)] && barsSound(mark);
      if (here || behind) cells.bar(mark.where);
    }
    return cells;
  }

  const GradeBoard& board_;
  CuttingEffort effort_;
  int surfaceMeasure_;
  std::map<std::tuple<Grade, int, bool>, GradeTrial> trials_;
};

}  // namespace

GradeEstimate estimateGrade(const GradeBoard& board, CuttingEffort effort) {
  return Inspection(board, effort).estimate();
}

std::string unitsText(std::int64_t cells) {
  return decimal(cells * 10 / cellsPerUnit, 1, minusSign);
}

}  // namespace flitch
