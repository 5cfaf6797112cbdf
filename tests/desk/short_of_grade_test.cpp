#include "inventory/desk/short_of_grade.h"

#include <catch2/catch.hpp>

#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;

namespace {

/// 6 in x 8 ft of red oak 4/4, both faces looked at: clear it is FAS (SM 4, one cutting of 40
/// units of 48), barred in its middle No. 1 Common (two cuttings, 36 units of 46). NHLA grading
/// chart, rows of tests/wood/data/grade_rules.csv.
Board oak(const std::string& grade, int dollars, std::int64_t id) {
  Board board;
  board.id = {id};
  board.species = "red oak";
  board.grade = grade;
  board.supplier = "Yard";
  board.nominal = Nominal::quarters(4);
  board.thickness = in(1);
  board.outline.fill(Outline::tapered(in(96), in(6), in(6)));
  board.looked = {Looked::planed, Looked::rough};
  board.billed = Feet{4000};
  board.price = Money::units(dollars);
  return board;
}

Board barred(Board board) {
  board.defects = {{"unsound knot", DefectFace::through, box(in(46), in(0), in(50), in(6))}};
  return board;
}

}  // namespace

TEST_CASE("a board short of its grade has at stake what the clear wood of the grades differs by") {
  const std::vector<Board> boards{oak("FAS", 20, 1), barred(oak("FAS", 20, 2))};
  const ShortOfGrade shorts = shortOfGrade(boards, boards);
  REQUIRE(shorts.boards.size() == 1);
  const ShortBoard& one = shorts.boards[0];
  CHECK(one.board.id.value == 2);
  CHECK(one.paidAs == Grade::fas);
  CHECK(one.looksLike == Grade::no1Common);
  CHECK_FALSE(one.byPrice);
  CHECK(one.worth == Money::units(16));  // 8 units a foot for 10
  CHECK(shorts.paid() == Money::units(20));
  CHECK(shorts.atStake() == Money::units(4));
  CHECK(sentence(shorts, "$") ==
        "1 board looks short of the grade paid, about $4.00 at stake: an inspector decides");
  CHECK(sentence({}, "$").empty());
  const Table table = shortTable(shorts, Unit::inches);
  CHECK(table.rows.size() == 1);
  CHECK(table.totals[10] == CellValue{Money::units(4)});
}

TEST_CASE("a price the book knows comes first, the supplier's own before the newest") {
  std::vector<Board> boards{barred(oak("FAS", 20, 1)), oak("1C", 10, 2), oak("No. 1 Common", 9, 3)};
  boards[2].supplier = "Another";
  boards[2].delivery = {7};
  boards[1].billed = Feet{8000};  // $1.25 a foot
  ShortOfGrade shorts = shortOfGrade({boards[0]}, boards);
  REQUIRE(shorts.boards.size() == 1);
  CHECK(shorts.boards[0].byPrice);
  CHECK(shorts.boards[0].worth == Money::units(5));
  CHECK(shorts.atStake() == Money::units(15));
  boards[1].nominal = Nominal::quarters(5);
  CHECK(shortOfGrade({boards[0]}, boards).boards[0].worth == Money::units(9));
  // A yard that asks more for the lower grade leaves nothing at stake.
  boards[2].price = Money::units(30);
  shorts = shortOfGrade({boards[0]}, boards);
  REQUIRE(shorts.boards.size() == 1);
  CHECK(shorts.atStake() == Money());
}

TEST_CASE("boards that are no less than paid, or that nothing can be said of, are not listed") {
  Board f1f = oak("FAS", 20, 1);
  f1f.defects = {{"unsound knot", DefectFace::a, box(in(46), in(0), in(50), in(6))}};
  Board unseen = barred(oak("FAS", 20, 2));
  unseen.looked[1] = Looked::no;
  Board cherry = barred(oak("FAS", 20, 3));
  cherry.species = "cherry";
  const std::vector<Board> boards{f1f,
                                  unseen,
                                  cherry,
                                  oak("No. 1 Common", 10, 4),
                                  barred(oak("No. 1 Common", 10, 5)),
                                  barred(oak("cabinet", 10, 6)),
                                  barred(oak("FAS", 0, 7))};
  const ShortOfGrade shorts = shortOfGrade(boards, boards);
  CHECK(shorts.boards.empty());
  CHECK(shorts.undecided == 0);
  CHECK(shorts.atStake() == Money());
}
