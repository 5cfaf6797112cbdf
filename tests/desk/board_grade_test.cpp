#include "inventory/desk/board_grade.h"

#include <catch2/catch.hpp>
#include <utility>

#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;

namespace {

/// 8 ft x 6 in: surface measure 4.
Board oak() {
  Board board;
  board.species = "red oak";
  board.grade = "FAS";
  board.nominal = Nominal::quarters(4);
  board.thickness = in(1);
  board.outline.fill(Outline::tapered(in(96), in(6), in(6)));
  board.looked = {Looked::planed, Looked::rough};
  return board;
}

}  // namespace

// FAS: 6 in x 8 ft at least; at SM 4 one cutting of 83 1/3 % (NHLA grading chart as in
// tests/wood/data/grade_rules.csv).
TEST_CASE("a clear plank looks like FAS, one with a knot in its middle like less") {
  Board board = oak();
  CHECK(gradeOf(board).line == "looks like about FAS; paid as FAS");
  // Across the middle: no cutting is longer than 47 in, and FAS asks for 5 ft.
  board.defects = {{"unsound knot", DefectFace::through, box(in(47), in(0), in(49), in(6))}};
  const BoardGrade barred = gradeOf(board);
  REQUIRE(barred.estimate);
  CHECK(barred.estimate->grade > Grade::selects);
  CHECK(barred.line ==
        "looks like about " + std::string(word(barred.estimate->grade)) + "; paid as FAS");
  board.defects[0].kind = "show";
  CHECK(gradeOf(board).line == "looks like about FAS; paid as FAS");
}

TEST_CASE("thickness has no say in the grade: AHEC, Measurement page (S)") {
  // thickness_effect of grade_details.csv.
  Board board = oak();
  board.defects = {{"unsound knot", DefectFace::through, box(in(70), in(2), in(72), in(4))}};
  const BoardGrade inch = gradeOf(board);
  board.nominal = Nominal::quarters(12);
  board.thickness = in(3);
  CHECK(gradeOf(board).line == inch.line);
  CHECK(gradeOf(board).estimate->trial.needed == inch.estimate->trial.needed);
}

TEST_CASE("an estimate whose search ran out says that the board may be better") {
  Board board = oak();
  board.outline.fill(Outline::tapered(in(120), in(10), in(10)));
  for (const auto& [x, y] : {std::pair{43, 6}, {17, 6}, {28, 3}}) {
    board.defects.push_back(
        {"unsound knot", DefectFace::through, box(in(x), in(y), in(x + 2), in(y + 2))});
  }
  const BoardGrade whole = gradeOf(board), hasty = gradeOf(board, {1, 1});
  REQUIRE(hasty.estimate);
  REQUIRE(whole.estimate);
  CHECK(whole.estimate->exact);
  CHECK(whole.line.find("or better") == std::string::npos);
  CHECK_FALSE(hasty.estimate->exact);
  CHECK(hasty.estimate->grade >= whole.estimate->grade);
  CHECK(hasty.line.find(" or better; paid as FAS") != std::string::npos);
}

TEST_CASE("a board that the rules cannot judge gets a reason, no grade") {
  const auto reason = [](const Board& board) {
    const BoardGrade grade = gradeOf(board);
    CHECK_FALSE(grade.estimate);
    return grade.line;
  };
  Board board = oak();
  board.looked[1] = Looked::no;
  CHECK(reason(board) == "no estimate: look at both faces first");
  board = oak();
  board.species = "black walnut";
  CHECK(reason(board) == "no estimate: the grading rules make exceptions for black walnut");
  board = oak();
  board.species = "eastern white pine";
  CHECK(reason(board) == "no estimate: the rules are for hardwoods");
  board.species = "pine";
  CHECK(reason(board) == "no estimate: no table says whether pine is a hardwood");
  board = oak();
  board.kind = BoardKind::slab;
  CHECK(reason(board) == "no estimate: only planks are graded");
  board = oak();
  board.defects = {{"good", DefectFace::through, box(in(10), in(0), in(80), in(6))}};
  CHECK(reason(board) == "no estimate: only its good wood is marked");
}
