#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::plank;

TEST_CASE("an even bow falls with the square of the blank's length") {
  Board board = plank(1, in(96), in(8), in(8));
  board.warp.bow = in(0, 32);
  // Half the length keeps a quarter of the bow: 1/2 x (48/96)^2 = 1/8 in = 8/64.
  // 60/64 - 8/64 = 52/64.
  CHECK(thicknessOver(board, in(48), in(4), false) == in(0, 52));
  // A quarter of the length keeps a sixteenth: 1/32 in = 2/64.
  CHECK(thicknessOver(board, in(24), in(4), false) == in(0, 58));
  CHECK(thicknessOver(board, in(96), in(4), false) == in(0, 28));
  // Longer than the board is not more than the whole of it.
  CHECK(thicknessOver(board, in(120), in(4), false) == in(0, 28));
}

TEST_CASE("a kink takes its full depth where it is crossed and nothing elsewhere") {
  Board board = plank(1, in(96), in(8), in(8));
  board.warp.bow = in(0, 32);
  board.warp.bentAt = in(40);
  CHECK(thicknessOver(board, in(20), in(4), true) == in(0, 28));
  CHECK(thicknessOver(board, in(96), in(4), false) == in(0, 60));
}

TEST_CASE("cup and twist fall with their sizes, losses rounded up") {
  Board board = plank(1, in(96), in(8), in(8));
  board.warp.cup = in(0, 16);
  board.warp.twist = in(0, 24);
  // Cup 1/4 x (4/8)^2 = 1/16 = 4/64; twist 3/8 x (32/96) x (4/8) = 1/16 = 4/64: 60 - 8 = 52.
  CHECK(thicknessOver(board, in(32), in(4), false) == in(0, 52));
  board.warp = {};
  board.warp.bow = Length::nanometres(1);
  // A loss of (48/96)^2 = 1/4 nm is taken as 1 nm.
  CHECK(thicknessOver(board, in(48), in(4), false) == in(0, 60) - Length::nanometres(1));
  board.warp.cup = Length::nanometres(3);
  // 3/4 nm is another whole one: each loss is rounded by itself.
  CHECK(thicknessOver(board, in(48), in(4), false) == in(0, 60) - Length::nanometres(2));
}

TEST_CASE("width over which cup is taken is the board's greatest") {
  Board board = plank(1, in(96), in(6), in(8));
  board.warp.cup = in(0, 16);
  CHECK(thicknessOver(board, in(32), in(4), false) == in(0, 56));
}

TEST_CASE("crook lifts both edges alike along a parabola") {
  Board board = plank(1, in(96), in(8), in(8));
  board.warp.crook = in(0, 64);
  const Outline hollowNear = lying(board, Face::a);
  CHECK(hollowNear.points().size() == 17);
  CHECK(hollowNear.nearAt(in(0)) == in(0));
  // Sagitta of the parabola: 4 x 1 in x (24/96)(72/96) = 3/4 in.
  CHECK(hollowNear.nearAt(in(24)) == in(0, 48));
  CHECK(hollowNear.nearAt(in(48)) == in(1));
  CHECK(hollowNear.farAt(in(48)) == in(9));
  CHECK(hollowNear.nearAt(in(96)) == in(0));
  CHECK(boundsOf(board) == Rect{in(0), in(0), in(96), in(9)});

  board.warp.hollow = Edge::far;
  const Outline hollowFar = lying(board, Face::a);
  CHECK(hollowFar.nearAt(in(0)) == in(1));
  CHECK(hollowFar.nearAt(in(48)) == in(0));
  CHECK(hollowFar.farAt(in(96)) == in(9));
}

TEST_CASE("crook neither makes nor loses wood") {
  std::mt19937 chance(7);
  for (int i = 0; i < 200; ++i) {
    std::uniform_int_distribution<std::int64_t> width(4 * 64, 12 * 64);
    Board board = plank(1, in(96) + Length::nanometres(i * 977),
                        Length::sixtyFourths(width(chance)), Length::sixtyFourths(width(chance)));
    const Area straight = board.outline[0].area();
    board.warp.crook = Length::nanometres(1'234'567 + i * 101);
    board.warp.hollow = i % 2 == 0 ? Edge::near : Edge::far;
    const Area bent = lying(board, Face::a).area();
    // Edges are held at whole nanometres: less than a nanometre of width is lost at any place.
    const Wide difference = straight.doubled - bent.doubled;
    CHECK(static_cast<std::int64_t>(difference) >= 0);
    CHECK(difference < static_cast<Wide>(4) * board.length().nm());
    CHECK(volumeOf(board) == volume(straight, straight, board.thickness));
  }
}

TEST_CASE("a board says its size as a tally does") {
  const Board board = plank(1, in(126), in(8, 48), in(8, 16));
  CHECK(sizeText(board, Unit::inches) == "10' 6\" × 8 3/4–8 1/4");
  CHECK(sizeText(plank(1, in(100), in(8), in(8)), Unit::millimetres) == "2540 × 203.2");
}

TEST_CASE("starting kinds have a letter each and know what is sound") {
  std::string letters;
  for (const DefectKind& k : startingDefectKinds()) {
    if (k.letter != 0) letters += k.letter;
  }
  CHECK(letters == "KUCSWHTLPBG");
  CHECK(startingDefectKinds().size() == 13);
}

TEST_CASE("an offcut ripped along its near edge keeps that edge, where the shop lets it serve") {
  ShopProfile shop;
  Board offcut = plank(1, in(40), in(5), in(5));
  offcut.kind = BoardKind::offcut;
  offcut.inParent = {in(12), in(3), in(40), in(5)};
  CHECK(nearEdgeSawn(offcut));
  CHECK(edgeTaken(offcut, shop) == shop.referenceEdge);
  shop.sawnEdgeServes = true;
  CHECK(edgeTaken(offcut, shop) == Length());
  // Along the parent's own edge no rip was made.
  Board along = offcut;
  along.inParent.y = in(0);
  CHECK_FALSE(nearEdgeSawn(along));
  CHECK(edgeTaken(along, shop) == shop.referenceEdge);
  // Where the wood falls short of the rip on one face, or crook has bent it since, it is not
  // straight.
  Board wane = offcut;
  wane.outline[1] = Outline({{in(0), in(0), in(5)}, {in(40), in(0, 16), in(5)}});
  CHECK_FALSE(nearEdgeSawn(wane));
  Board bent = offcut;
  bent.warp.crook = in(0, 8);
  CHECK_FALSE(nearEdgeSawn(bent));
  // A board as bought has no parent.
  CHECK_FALSE(nearEdgeSawn(plank(2, in(40), in(5), in(5))));
}

TEST_CASE("a knot that goes through aslant shows elsewhere on face B") {
  // On face A at 10 to 12 in, on face B at 15 to 18: half way through it is at 12 1/2 to 15.
  Defect knot{"sound knot", DefectFace::through, bench::inRect(10, 2, 2, 1), std::nullopt,
              bench::inRect(15, 1, 3, 1)};
  CHECK(placeOn(knot, Face::a) == bench::inRect(10, 2, 2, 1));
  CHECK(placeOn(knot, Face::b) == bench::inRect(15, 1, 3, 1));
  CHECK(wholeOf(knot) == bench::inRect(10, 1, 8, 2));
  const Length half = bench::in(0, 32);
  CHECK(planedPlaceOn(knot, Face::a) ==
        Rect{bench::in(10), bench::in(1) + half, bench::in(5), bench::in(1) + half});
  CHECK(planedPlaceOn(knot, Face::b) ==
        Rect{bench::in(12) + half, bench::in(1), bench::in(5) + half, bench::in(1) + half});
  knot.face = DefectFace::a;
  knot.depth = bench::in(0, 4);
  settle(knot);
  CHECK_FALSE(knot.onB);
  CHECK(knot.depth == bench::in(0, 4));
  CHECK(planedPlaceOn(knot, Face::a) == knot.where);
  knot.face = DefectFace::far;
  settle(knot);
  CHECK_FALSE(knot.depth);
}

TEST_CASE("what a mark aslant may show is rounded outward, also before the line") {
  const Length nm = Length::nanometres(1);
  const Defect knot{"sound knot",
                    DefectFace::through,
                    {Length() - 3 * nm, Length(), nm, nm},
                    std::nullopt,
                    Rect{Length(), Length(), nm, nm}};
  // Half way from -3 is -1.5: -2. Half way from -2 to 1 is -0.5: 0.
  CHECK(planedPlaceOn(knot, Face::b) == Rect{Length() - 2 * nm, Length(), 3 * nm, nm});
}
