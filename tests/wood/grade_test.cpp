#include "inventory/wood/grade.h"

#include <catch2/catch.hpp>

#include "inventory/wood/grade_limits.h"

using namespace flitch;

namespace {

constexpr Length cell = Length::sixtyFourths(16);

/// A clear board of straight edges; sizes in inches, to the quarter.
GradeBoard board(double length, double width) {
  GradeBoard made;
  made.length = static_cast<int>(length * cellsPerInch);
  made.width = static_cast<int>(width * cellsPerInch);
  made.near.assign(static_cast<std::size_t>(made.length), 0);
  made.far.assign(static_cast<std::size_t>(made.length), made.width);
  made.measuredLength = cell * made.length;
  made.measuredWidth = cell * made.width;
  return made;
}

enum Faces { onA, onB, through };

/// A mark, in inches to the quarter.
void mark(GradeBoard& board, Blemish kind, Faces faces, double x, double y, double dx, double dy) {
  const auto cells = [](double inches) { return static_cast<int>(inches * cellsPerInch); };
  board.marks.push_back(
      {kind, {faces != onB, faces != onA}, {cells(x), cells(y), cells(dx), cells(dy)}});
}

Grade gradeOf(const GradeBoard& board) {
  const GradeEstimate estimate = estimateGrade(board);
  CHECK(estimate.exact);
  return estimate.grade;
}

/// Of the trials that failed, the one for this grade.
GradeTrial missed(const GradeBoard& board, Grade grade) {
  for (const GradeTrial& trial : estimateGrade(board).missed) {
    if (trial.grade == grade) return trial;
  }
  FAIL("no trial of " << word(grade));
  return {};
}

}  // namespace

TEST_CASE("grade_examples.csv") {
  SECTION(
      "GR01, S&W Report vol. 12 (1998), R: 6 7/16 in x 10 ft 9 in, SM 5, 40 units, 2 cuttings") {
    GradeBoard one = board(129, 6.25);
    one.measuredWidth = Length::sixtyFourths(6 * 64 + 28);
    mark(one, Blemish::unsoundKnot, through, 60, 2, 2, 2);
    const GradeEstimate estimate = estimateGrade(one);
    CHECK(estimate.surfaceMeasure == 5);
    CHECK(estimate.grade == Grade::no1Common);
    CHECK(estimate.trial.allowed == 2);
    CHECK(estimate.trial.needed == 40 * cellsPerUnit);
  }
  SECTION("GR02, sawmill owner FAQ, R: 6 in x 8 ft, FAS with SM 4, 1 cutting, 40 units") {
    const GradeEstimate estimate = estimateGrade(board(96, 6));
    CHECK(estimate.grade == Grade::fas);
    CHECK(estimate.surfaceMeasure == 4);
    CHECK(estimate.trial.allowed == 1);
    CHECK(estimate.trial.needed == 40 * cellsPerUnit);
    CHECK(estimate.trial.set.area == 48 * cellsPerUnit);
    CHECK(estimate.trial.set.bound == estimate.trial.set.area);
  }
  SECTION("GR03, sawmill owner FAQ, R: SM 8 in FAS, 2 cuttings, 80 units") {
    const GradeEstimate estimate = estimateGrade(board(192, 6));
    CHECK(estimate.surfaceMeasure == 8);
    CHECK(estimate.trial.allowed == 2);
    CHECK(estimate.trial.needed == 80 * cellsPerUnit);
  }
  SECTION("GR05, computed: 8 in x 8 ft clear, SM 5, 64 units in one cutting of 50 needed") {
    const GradeEstimate estimate = estimateGrade(board(96, 8));
    CHECK(estimate.surfaceMeasure == 5);
    CHECK(estimate.grade == Grade::fas);
    CHECK(estimate.trial.set.area == 64 * cellsPerUnit);
    CHECK(estimate.trial.needed == 50 * cellsPerUnit);
  }
  SECTION("GR06, computed: a 5 in knot 1 ft from the end leaves the units and bars FAS") {
    GradeBoard one = board(96, 8);
    mark(one, Blemish::soundKnot, onA, 12, 1, 5, 5);
    const GradeEstimate estimate = estimateGrade(one);
    CHECK(estimate.grade == Grade::fasOneFace);
    const GradeTrial fas = missed(one, Grade::fas);
    CHECK(unitsText(fas.set.area) == "52.6");  // 8 in x 6 ft 7 in: 52.67
    CHECK(fas.set.area >= fas.needed);
    CHECK(fas.barredBy == "knot 5 in, over 5/3 in");
  }
  SECTION("GR07 and GR08, arithmetic: 4 in x 4 ft is 16 units; 3 in x 2 1/2 ft only in No. 2A") {
    ClearFace face(30 * cellsPerInch, 3 * cellsPerInch);
    CHECK(Cells{0, 0, 4 * cellsPerFoot, 4 * cellsPerInch}.area() == 16 * cellsPerUnit);
    CHECK(bestCuttings(face, leastCuttings(Grade::no1Common), 1, 0).area == 0);
    const CuttingSet in2a = bestCuttings(face, leastCuttings(Grade::no2aCommon), 1, 0);
    CHECK(2 * in2a.area == 15 * cellsPerUnit);
  }
}

TEST_CASE("one unit short of FAS, one cutting too many, one size too small") {
  // 12 in x 8 ft: SM 8, 80 units in 2 cuttings or 88 in 3.
  GradeBoard enough = board(96, 12);
  // A strip of 2 in x 8 ft along one edge leaves 10 in: 80 units in one cutting.
  mark(enough, Blemish::wane, onA, 0, 0, 48, 2);
  mark(enough, Blemish::check, onA, 48, 0, 48, 2);
  CHECK(gradeOf(enough) == Grade::fas);
  GradeBoard shy = enough;
  for (GradeMark& one : shy.marks) ++one.where.width;
  CHECK(missed(shy, Grade::fas).set.area == 78 * cellsPerUnit);
  CHECK(gradeOf(shy) == Grade::fasOneFace);

  // 6 in x 18 ft: SM 9, 90 units in 2 cuttings or 99 in 3. Three of FAS size have 93.
  GradeBoard three = board(216, 6);
  for (const double x : {60.0, 135.0}) mark(three, Blemish::check, through, x, 0, 15, 6);
  const GradeTrial trial = missed(three, Grade::fas);
  CHECK(trial.allowed == 3);
  CHECK(trial.set.area == 93 * cellsPerUnit);
  CHECK(trial.needed == 99 * cellsPerUnit);
  CHECK(gradeOf(three) == Grade::no1Common);

  // 5 ft is long enough at 4 in, a quarter inch less is not; 3 in asks 7 ft.
  const auto least = leastCuttings(Grade::fas);
  const auto cut = [&](double length, double width) {
    return bestCuttings(ClearFace(static_cast<int>(length * 4), static_cast<int>(width * 4)), least,
                        1, 0)
        .area;
  };
  CHECK(cut(60, 4) == 240 * 16);
  CHECK(cut(59.75, 4) == 0);
  CHECK(cut(60, 3.75) == 0);
  CHECK(cut(84, 3) == 336 * 12);
  CHECK(cut(83.75, 3) == 0);
  CHECK(cut(84, 2.75) == 0);
}

TEST_CASE("the cutting more that a middle surface measure allows asks for more units") {
  // GR04 (S): SM 6 to 15 in FAS with one cutting more, 91 2/3 % clear.
  // 6 in x 12 ft: SM 6, 60 units in one cutting, 66 in two. Past 8 in of check across: two
  // cuttings.
  GradeBoard two = board(144, 6);
  mark(two, Blemish::check, through, 66, 0, 6, 6);
  GradeEstimate estimate = estimateGrade(two);
  CHECK(estimate.grade == Grade::fas);
  CHECK(estimate.trial.allowed == 2);
  CHECK(estimate.trial.needed == 66 * cellsPerUnit);
  CHECK(estimate.trial.set.area == 69 * cellsPerUnit);
  // 12 1/4 in gone: 65.875 units.
  two.marks[0].where = {66 * 4, 0, 49, 24};
  CHECK(gradeOf(two) == Grade::no1Common);
}

TEST_CASE("two cuttings over the full width may be of any length at 97 percent") {
  GradeBoard one = board(144, 6);
  // Thirty inches from the end: the second cutting is shorter than 5 ft.
  mark(one, Blemish::check, through, 112, 2, 2, 1);
  GradeEstimate estimate = estimateGrade(one);
  CHECK(estimate.grade == Grade::fas);
  CHECK(estimate.trial.set.area == 71 * cellsPerUnit);
  CHECK(unitsText(estimate.trial.needed) == "69.8");
  // 97 percent of 72 is 69.84 units: 4 1/4 in gone is 69.875, a quarter more is not enough.
  one.marks[0].where = {112 * 4, 8, 17, 4};
  CHECK(gradeOf(one) == Grade::fas);
  one.marks[0].where = {112 * 4, 8, 18, 4};
  CHECK(missed(one, Grade::fas).needed > 0);
  CHECK(gradeOf(one) != Grade::fas);
}

TEST_CASE("the poorer face decides, the reverse of its cuttings is sound") {
  GradeBoard one = board(96, 8);
  mark(one, Blemish::unsoundKnot, onA, 40, 3, 1, 1);
  mark(one, Blemish::unsoundKnot, onB, 70, 3, 1, 1);
  // Face A alone: 40 in x 8 in or 55 in: no cutting of 5 ft at full width, but 5 x 8 ft beside.
  const GradeEstimate estimate = estimateGrade(one);
  CHECK(estimate.grade == Grade::no1Common);
  // Sound knots on the reverse do not matter.
  one.marks[1].kind = Blemish::soundKnot;
  CHECK(estimateGrade(one).trial.set.area >= estimate.trial.set.area);

  GradeBoard better = board(96, 8);
  for (const double x : {20.0, 48.0, 72.0}) mark(better, Blemish::unsoundKnot, onA, x, 3, 1, 1);
  const GradeEstimate f1f = estimateGrade(better);
  CHECK(f1f.grade == Grade::fasOneFace);
  CHECK(f1f.trial.face == 1);
  std::swap(better.marks[0].face[0], better.marks[0].face[1]);
  for (GradeMark& each : better.marks) each.face = {false, true};
  CHECK(estimateGrade(better).trial.face == 0);
}

TEST_CASE("boards too small for a grade go down to the next that takes them") {
  CHECK(gradeOf(board(96, 6)) == Grade::fas);
  // kiln_dried_scant_width (S): 1/4 in, NHLA kiln dried rules article of 2025-02-28.
  CHECK(gradeOf(board(96, 5.75)) == Grade::fas);
  CHECK(gradeOf(board(96, 5.5)) == Grade::selects);
  CHECK(gradeOf(board(95.75, 6)) == Grade::selects);
  CHECK(gradeOf(board(72, 4)) == Grade::selects);
  CHECK(gradeOf(board(72, 3.75)) == Grade::selects);
  CHECK(gradeOf(board(72, 3.5)) == Grade::no1Common);
  CHECK(gradeOf(board(71.75, 4)) == Grade::no1Common);
  CHECK(gradeOf(board(48, 3)) == Grade::no1Common);
  CHECK(gradeOf(board(48, 2.75)) == Grade::no1Common);
  CHECK(estimateGrade(board(48, 2.5)).grade == Grade::below);
  CHECK(estimateGrade(board(47.75, 4)).grade == Grade::below);
}

TEST_CASE("small surface measures: a clear face, or units in one cutting") {
  GradeBoard one = board(48, 4);  // SM 1
  CHECK(gradeOf(one) == Grade::no1Common);
  mark(one, Blemish::soundKnot, onA, 1, 0, 0.25, 0.25);
  CHECK(gradeOf(one) == Grade::no2aCommon);
  GradeBoard two = board(72, 4);  // SM 2: wholly clear or 22 units in one cutting
  CHECK(estimateGrade(two).surfaceMeasure == 2);
  mark(two, Blemish::soundKnot, onB, 1, 0, 0.25, 0.25);
  CHECK(gradeOf(two) == Grade::selects);  // face A is clear
  mark(two, Blemish::soundKnot, onA, 1, 0, 0.25, 0.25);
  CHECK(gradeOf(two) == Grade::selects);  // 70 3/4 in of 4 in: 23.6 units
  for (GradeMark& each : two.marks) each.where.x = 25;
  CHECK(gradeOf(two) == Grade::no1Common);  // 65 1/2 in: 21.8 units
}

TEST_CASE("each limit of FAS at its edge") {
  const auto broken = [](const GradeBoard& one, int sm) { return brokenLimit(one, 0, sm); };
  GradeBoard one = board(96, 8);
  SECTION("pith: SM inches") {
    mark(one, Blemish::pith, onA, 30, 4, 5, 0.25);
    CHECK(broken(one, 5).empty());
    one.marks[0].where.length += 1;
    CHECK(broken(one, 5) == "pith 5 1/4 in, over 5 in");
    CHECK(brokenLimit(one, 1, 5).empty());
  }
  SECTION("knot: a third of SM inches on average") {
    mark(one, Blemish::hole, onA, 30, 4, 2.25, 1.75);
    CHECK(broken(one, 6).empty());
    one.marks[0].where.length += 1;
    CHECK_FALSE(broken(one, 6).empty());
  }
  SECTION("wane: half of the length on either edge") {  // fas_wane_limit
    mark(one, Blemish::wane, onA, 0, 0, 48, 1);
    mark(one, Blemish::wane, onA, 40, 7, 40, 1);
    CHECK(broken(one, 5).empty());
    one.marks[0].where.length += 1;
    CHECK(broken(one, 5) == "wane 48 1/4 in, over half the length");
  }
  SECTION(
      "end splits: 2 SM or 12 inches; a foot or shorter each are let pass; inner ones no ends") {
    GradeBoard longer = board(192, 8);
    mark(longer, Blemish::split, onA, 0, 4, 12, 0.25);
    mark(longer, Blemish::split, onA, 0, 1, 12, 0.25);
    CHECK(broken(longer, 11).empty());
    longer.marks[0].where.length += 1;
    CHECK(broken(longer, 11) == "end splits 24 1/4 in, over 22 in");
    longer.marks[0].where.length = 40;
    CHECK(broken(longer, 11).empty());
    mark(longer, Blemish::split, onA, 60, 4, 60, 0.25);
    CHECK(broken(longer, 11).empty());
    // What is over whole feet may be cut off with its split.
    GradeBoard over = board(98, 8);
    mark(over, Blemish::split, onA, 84, 4, 14, 0.25);
    CHECK(broken(over, 5).empty());
    over.marks[0].where.x -= 1;
    over.marks[0].where.length += 1;
    CHECK_FALSE(broken(over, 5).empty());
  }
  SECTION("a split out of line by more than 1 in a foot") {
    mark(one, Blemish::split, onA, 0, 2, 15, 1.5);
    CHECK(broken(one, 10).empty());
    one.marks[0].where.width += 1;
    CHECK(broken(one, 10) == "a split runs out of line");
  }
  SECTION("the first foot: a quarter unsound at most") {  // fas_first_lineal_foot
    mark(one, Blemish::other, onA, 84, 0, 12, 2);
    CHECK(broken(one, 5).empty());
    one.marks[0].where.width += 1;
    CHECK(broken(one, 5) == "over a quarter of the first foot is unsound");
  }
}

TEST_CASE("an exact half of the surface measure goes down") {
  // 6 3/4 in x 8 ft: 4.5 square feet.
  CHECK(estimateGrade(board(96, 6.75)).surfaceMeasure == 4);
  CHECK(estimateGrade(board(96, 7)).surfaceMeasure == 5);
}

TEST_CASE("wood outside the outline is in no cutting") {
  GradeBoard one = board(96, 8);
  for (std::size_t x = 0; x < 384; ++x) one.near[x] = x < 192 ? 4 : 0;
  const GradeEstimate estimate = estimateGrade(one);
  for (const Cells& cutting : estimate.trial.set.cuttings) {
    for (int x = cutting.x; x < cutting.right(); ++x) {
      CHECK(cutting.y >= one.near[static_cast<std::size_t>(x)]);
    }
  }
}
