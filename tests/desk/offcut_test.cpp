#include "inventory/desk/offcut.h"

#include <catch2/catch.hpp>

#include "inventory/wood/thickness.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;

namespace {

Board plank(Length length, Length atTag, Length atFar) {
  Board board;
  board.id = {7};
  board.species = "cherry";
  board.grade = "FAS";
  board.nominal = Nominal::quarters(4);
  board.thickness = in(1);
  board.outline.fill(Outline::tapered(length, atTag, atFar));
  board.looked = {Looked::planed, Looked::no};
  return board;
}

}  // namespace

TEST_CASE("an offcut is a board of its own coordinates") {
  Board parent = plank(in(100), in(8), in(8));
  parent.log = "Q7";
  parent.placeInLog = 3;
  parent.readings = {{"2026-05-31", 80, MoistureState::ready}};
  const Board offcut = offcutOf(parent, box(in(60), in(2), in(100), in(8)));
  CHECK(offcut.kind == BoardKind::offcut);
  CHECK(offcut.parent == parent.id);
  CHECK(offcut.inParent == box(in(60), in(2), in(100), in(8)));
  CHECK(offcut.length() == in(40));
  CHECK(offcut.widthAtTag() == in(6));
  CHECK(offcut.outline[0].lowest() == Length{});
  CHECK(offcut.species == "cherry");
  CHECK(offcut.grade.empty());
  CHECK(offcut.log == "Q7");
  CHECK(offcut.placeInLog == 3);
  CHECK(offcut.readings == parent.readings);
  CHECK(offcut.looked == parent.looked);
}

TEST_CASE("an end is as bought only where the parent's was and none of it was trimmed") {
  Board parent = plank(in(100), in(8), in(8));
  CHECK(offcutOf(parent, box(in(1), in(0), in(40), in(8))).sawnEnd == std::array{true, true});
  CHECK(offcutOf(parent, box(in(0), in(0), in(40), in(8))).sawnEnd == std::array{false, true});
  CHECK(offcutOf(parent, box(in(60), in(0), in(100), in(8))).sawnEnd == std::array{true, false});
  parent.sawnEnd = {true, false};
  CHECK(offcutOf(parent, box(in(0), in(0), in(100), in(4))).sawnEnd == std::array{true, false});
}

TEST_CASE("the outline of an offcut follows the wood inside its rectangle") {
  // 100 in long, 10 in wide at the tag end, 5 in at the far end: far(x) = 10 - x / 20.
  const Board parent = plank(in(100), in(10), in(5));
  const Board offcut = offcutOf(parent, box(in(20), in(1), in(80), in(8)));
  // far(20) = 9 is above 8, far(40) = 8, far(80) = 6: a corner at x = 40, 20 in from its own end.
  const std::vector<OutlinePoint> expected{
      {in(0), in(0), in(7)}, {in(20), in(0), in(7)}, {in(60), in(0), in(5)}};
  const auto points = offcut.outline[0].points();
  CHECK(std::vector<OutlinePoint>(points.begin(), points.end()) == expected);
}

TEST_CASE("a rectangle that runs out of the wood gets no more than the wood") {
  // Wood leaves the rectangle's strip 5..8 where far(x) < 5: past x = 50.
  const Outline outline = Outline::tapered(in(100), in(10), in(0, 1));
  const Outline part = clipped(outline, box(in(0), in(5), in(100), in(8)));
  CHECK(part.length() == in(100));
  // 3 in wide to x = 20, falling to nothing at x = 50: 3 x 20 + 3 x 30 / 2 = 105 in².
  const double inches = static_cast<double>(part.area().doubled) / 2 / 25.4e6 / 25.4e6;
  CHECK(inches == Approx(105).margin(0.5));
  CHECK_THROWS_AS(clipped(outline, box(in(100), in(0), in(120), in(8))), std::logic_error);
}

TEST_CASE("crook goes into the outline of an offcut and is not counted again") {
  Board parent = plank(in(96), in(8), in(8));
  parent.warp.crook = in(1);
  // The near edge is hollow: raised by 1 in at the middle. The left half holds all of the rise.
  const Board offcut = offcutOf(parent, box(in(0), in(0), in(48), in(9)));
  CHECK(offcut.warp.crook == Length{});
  CHECK(offcut.outline[0].points().front().near == Length{});
  CHECK(offcut.outline[0].points().back().near == in(1));
  CHECK(offcut.outline[0].points().back().far == in(9));
}

TEST_CASE("warp of an offcut is what thicknessOver says the parent loses over it") {
  Board parent = plank(in(100), in(8), in(8));
  parent.warp.bow = in(1);
  parent.warp.cup = in(0, 16);
  parent.warp.twist = in(0, 32);
  const Board half = offcutOf(parent, box(in(50), in(0), in(100), in(4)));
  CHECK(half.warp.bow >= in(0, 16));  // 1 x (1/2)²
  CHECK(half.warp.bow - in(0, 16) <= Length::nanometres(1));
  CHECK(half.warp.cup >= in(0, 4));    // 1/4 x (1/2)²
  CHECK(half.warp.twist >= in(0, 8));  // 1/2 x 1/2 x 1/2
  const Length ofParent = thicknessOver(parent, in(50), in(4), false);
  const Length ofOffcut = thicknessOver(half, in(50), in(4), false);
  CHECK(ofOffcut <= ofParent);
  CHECK(ofParent - ofOffcut <= Length::nanometres(6));

  parent.warp = {};
  parent.warp.bow = in(1);
  parent.warp.bentAt = in(30);
  CHECK(offcutOf(parent, box(in(50), in(0), in(100), in(8))).warp.bow == Length{});
  const Warp bent = offcutOf(parent, box(in(20), in(0), in(60), in(8))).warp;
  CHECK(bent.bow == in(1));
  CHECK(bent.bentAt == in(10));
}

TEST_CASE("marks of an offcut are clipped to it and edge marks stay with their edge") {
  Board parent = plank(in(100), in(8), in(8));
  parent.defects = {{"sound knot", DefectFace::a, box(in(38), in(3), in(42), in(5))},
                    {"split", DefectFace::through, box(in(0), in(0), in(6), in(1))},
                    {"wane", DefectFace::near, box(in(0), in(0), in(100), in(1))},
                    {"wane", DefectFace::far, box(in(0), in(7), in(100), in(8))}};
  const Board offcut = offcutOf(parent, box(in(40), in(4), in(90), in(8)));
  REQUIRE(offcut.defects.size() == 2);
  CHECK(offcut.defects[0] == Defect{"sound knot", DefectFace::a, box(in(0), in(0), in(2), in(1))});
  CHECK(offcut.defects[1] == Defect{"wane", DefectFace::far, box(in(0), in(3), in(50), in(4))});
}

TEST_CASE("a mark on an edge stays on whatever it reaches into") {
  Board parent = plank(in(100), in(8), in(8));
  parent.defects = {{"wane", DefectFace::near, box(in(0), in(0), in(100), in(1))},
                    {"wane", DefectFace::far, box(in(0), in(7), in(50), in(8))}};
  // Above the reference edge and short of the far edge, yet both marks reach into it.
  const Board offcut = offcutOf(parent, box(in(10), in(0, 8), in(90), in(7, 32)));
  REQUIRE(offcut.defects.size() == 2);
  CHECK(offcut.defects[0] ==
        Defect{"wane", DefectFace::near, box(in(0), in(0), in(80), in(0, 56))});
  CHECK(offcut.defects[1] ==
        Defect{"wane", DefectFace::far, box(in(0), in(6, 56), in(40), in(7, 24))});
}

TEST_CASE("cup and twist of a crooked parent shrink by its wood, not by its bounds") {
  Board parent = plank(in(96), in(6), in(6));
  parent.warp.crook = in(2, 32);
  parent.warp.cup = in(0, 16);
  parent.warp.twist = in(0, 32);
  const Board offcut = offcutOf(parent, box(in(0), in(0), in(20), in(4)));
  for (const Length width : {in(1), in(2), in(3)}) {
    CHECK(thicknessOver(offcut, in(15), width, false) <=
          thicknessOver(parent, in(15), width, false));
  }
}

TEST_CASE("a good zone is lost face by face") {
  Board parent = plank(in(100), in(8), in(8));
  parent.defects = {{"good", DefectFace::a, box(in(0), in(0), in(50), in(8))},
                    {"good", DefectFace::b, box(in(30), in(0), in(100), in(8))}};
  const Rect whole = box(in(0), in(0), in(20), in(8));
  // Good on A alone: B, whose zone lies elsewhere, is barred.
  const Board tag = offcutOf(parent, whole);
  REQUIRE(tag.defects.size() == 2);
  CHECK(tag.defects[0] == Defect{"good", DefectFace::a, whole});
  CHECK(tag.defects[1] == Defect{"unsound knot", DefectFace::b, whole});
  const Board far = offcutOf(parent, box(in(60), in(0), in(80), in(8)));
  REQUIRE(far.defects.size() == 2);
  CHECK(far.defects[1] == Defect{"unsound knot", DefectFace::a, whole});
  // A face whose parent had no zone is as free as it was.
  parent.defects.pop_back();
  const Board free = offcutOf(parent, box(in(60), in(0), in(80), in(8)));
  REQUIRE(free.defects.size() == 1);
  CHECK(free.defects[0] == Defect{"unsound knot", DefectFace::a, whole});
}

TEST_CASE("what lay outside the good zone stays barred") {
  Board parent = plank(in(100), in(8), in(8));
  parent.defects = {{"good", DefectFace::through, box(in(0), in(0), in(50), in(8))}};
  const Board good = offcutOf(parent, box(in(40), in(0), in(60), in(8)));
  REQUIRE(good.defects.size() == 1);
  CHECK(good.defects[0] == Defect{"good", DefectFace::through, box(in(0), in(0), in(10), in(8))});
  const Board bad = offcutOf(parent, box(in(60), in(0), in(90), in(8)));
  REQUIRE(bad.defects.size() == 1);
  CHECK(bad.defects[0] ==
        Defect{"unsound knot", DefectFace::through, box(in(0), in(0), in(30), in(8))});
  CHECK(bad.note == "lay outside what was marked good");
}

TEST_CASE("a mark aslant stays so where all of it lies in the offcut, else it goes through") {
  Board parent = plank(in(100), in(8), in(8));
  parent.grain = GrainSlope{140};
  parent.defects = {{"check", DefectFace::a, box(in(30), in(1), in(50), in(2)), in(0, 4)},
                    {"sound knot", DefectFace::through, box(in(10), in(2), in(12), in(4)),
                     std::nullopt, box(in(20), in(2), in(30), in(4))}};
  const Board whole = offcutOf(parent, box(in(5), in(0), in(40), in(8)));
  CHECK(whole.grain == GrainSlope{140});
  REQUIRE(whole.defects.size() == 2);
  CHECK(whole.defects[0] ==
        Defect{"check", DefectFace::a, box(in(25), in(1), in(35), in(2)), in(0, 4)});
  CHECK(whole.defects[1] == Defect{"sound knot", DefectFace::through,
                                   box(in(5), in(2), in(7), in(4)), std::nullopt,
                                   box(in(15), in(2), in(25), in(4))});
  // Cut at 21 in: on face A it shows to 21 once planed, so the half left of it must not move.
  const Board tag = offcutOf(parent, box(in(0), in(0), in(21), in(8)));
  REQUIRE(tag.defects.size() == 1);
  CHECK(tag.defects[0] ==
        Defect{"sound knot", DefectFace::through, box(in(10), in(2), in(21), in(4))});
  // Between its two ends, too.
  const Board between = offcutOf(parent, box(in(14), in(0), in(18), in(8)));
  REQUIRE(between.defects.size() == 1);
  CHECK(between.defects[0].where == box(in(0), in(2), in(4), in(4)));
  CHECK_FALSE(between.defects[0].onB);
}
