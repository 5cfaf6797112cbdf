#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/planning/board_frame.h"
#include "inventory/planning/frame.h"
#include "inventory/planning/planner.h"
#include "inventory/records/refusal.h"
#include "tests/planning/random_shop.h"
#include "tests/records/bench.h"

using namespace flitch;
using namespace flitch::planning;
using bench::in;
using bench::inRect;
using bench::part;
using bench::plank;
using optimizer::ClassSet;
using optimizer::Zone;
// The optimizer's and the book's rectangles meet here.
using Cells = optimizer::Rect;

namespace {

PlanRequest simple() {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.parts = {part(1, 3, in(20), in(2))};
  request.boards = {plank(1, in(50), in(6), in(6))};
  return request;
}

bool hasZone(const optimizer::Stock& stock, int orientation, const Cells& where, ClassSet barred,
             ClassSet nearEdge = 0, ClassSet farEdge = 0) {
  const auto& zones = stock.zones[static_cast<std::size_t>(orientation)];
  return std::any_of(zones.begin(), zones.end(), [&](const Zone& z) {
    return z.where == where && z.barred == barred && z.nearEdge == nearEdge && z.farEdge == farEdge;
  });
}

}  // namespace

TEST_CASE("the grid is the coarsest on which kerfs and blanks are whole") {
  PlanRequest request = simple();
  CHECK(frame(request).tick == in(0, 8));  // 21 x 2 1/4, kerf 1/8
  request.job.parts[0].width = in(2, 4);
  CHECK(frame(request).tick == in(0, 4));
  request.shop.ripKerf = in(0, 6);
  CHECK(frame(request).tick == in(0, 2));
  request.job.parts[0].length = Length::millimetres(500);
  CHECK(frame(request).tick == in(0, 1));
  request.unit = Unit::millimetres;
  request.shop.addLength = request.shop.addWidth = Length();
  request.job.parts[0].width = Length::micrometres(50'500);
  request.shop.ripKerf = request.shop.crosscutKerf = Length::millimetres(3);
  CHECK(frame(request).tick == Length::micrometres(500));
}

TEST_CASE("sizes off the grid are rounded against us") {
  PlanRequest request = simple();
  request.job.parts[0].length = Length::millimetres(500);
  request.shop.ripKerf = Length::millimetres(3);
  const Framing f = frame(request);
  REQUIRE(f.tick == in(0, 1));
  // 500 mm + 25.4 mm = 525 400 000 nm / 396 875 nm = 1 323.8; 3 mm / 1/64 in = 7.56.
  CHECK(f.problem.items[0].length == 1324);
  CHECK(f.problem.saw.kerfY == 8);
}

TEST_CASE("a plain board as numbers") {
  const PlanRequest request = simple();
  const Framing f = frame(request);
  REQUIRE(f.problem.stock.size() == 1);
  const optimizer::Stock& stock = f.problem.stock[0];
  // 50 in less 1 in at each end; 6 in less the reference edge of 1/8: 384 x 47 eighths.
  CHECK(f.origin[0] == Cells{8, 1, 384, 47});
  CHECK(stock.profile.length() == 384);
  CHECK(std::all_of(stock.profile.low.begin(), stock.profile.low.end(),
                    [](auto y) { return y == 0; }));
  CHECK(std::all_of(stock.profile.high.begin(), stock.profile.high.end(),
                    [](auto y) { return y == 47; }));
  CHECK(stock.copies == 1);
  CHECK(stock.itemClass == std::vector<int>{0});
  CHECK(f.problem.items[0].length == 168);
  CHECK(f.problem.items[0].width == 18);
  CHECK(f.problem.saw.kerfX == 1);
  CHECK(f.problem.saw.crosscut == 10'000);
  CHECK(stock.cost == 600'000 + 80'000);
  CHECK(f.problem.needs[0].amount == 3);
  CHECK(f.problem.needs[0].shortage == shortagePrice(request.job.parts[0], request).raw());
  CHECK(stock.offcuts.leastLength == 96);
  CHECK(stock.offcuts.leastWidth == 24);
  REQUIRE(stock.offcuts.bands.size() == 1);
  CHECK(stock.offcuts.bands[0].rate ==
        offcutRate(request.boards[0], request.shop.keepBands[0], f.tick));
  CHECK(stock.offcuts.cls == 1);
  for (const auto& zones : stock.zones) CHECK(zones.empty());
}

TEST_CASE("copies made already are wanted no more") {
  PlanRequest request = simple();
  request.made[1] = {1, 3};
  CHECK(frame(request).problem.needs[0].amount == 1);
  request.made[1] = {1, 2, 3};
  CHECK(frame(request).problem.needs.empty());
}

TEST_CASE("a taper loses every cell it cuts") {
  const PlanRequest request = simple();
  // 64 in long, 8 to 7 in: 1/64 in a cell of 1 in, so 8 in = 64 eighths lose one in every 8 in.
  const Board board = plank(1, in(64), in(8), in(7));
  const UsableWood wood = usableWood(board, request.shop, in(0, 8));
  CHECK(wood.origin == Cells{8, 1, 496, 62});
  // First column, x 1 to 1 1/8 in: far edge at 8 - 1.125/64 in, 63.86 eighths; less the origin.
  CHECK(wood.profile.high.front() == 62);
  CHECK(wood.profile.high.back() == 56 - 1);  // 7 + 1/64 in, 56.1 eighths
}

TEST_CASE("both faces bound the wood") {
  const PlanRequest request = simple();
  Board board = plank(1, in(50), in(8), in(8));
  board.outline[1] = Outline({{in(0), in(1), in(7)}, {in(50), in(1), in(7)}});
  const UsableWood wood = usableWood(board, request.shop, in(0, 8));
  CHECK(wood.origin == Cells{8, 9, 384, 47});
}

TEST_CASE("an end our saw made keeps its wood") {
  const PlanRequest request = simple();
  Board board = plank(1, in(50), in(6), in(6));
  board.sawnEnd = {true, true};
  CHECK(usableWood(board, request.shop, in(0, 8)).origin == Cells{0, 1, 400, 47});
}

TEST_CASE("marks become zones by face, edge and orientation") {
  PlanRequest request = simple();
  Part& p = request.job.parts[0];
  p.faceA = "clear";
  p.faceB = "sound";
  p.edges = {"clear", "sound"};
  request.boards[0].defects = {{"stain", DefectFace::a, inRect(10, 2, 2, 1)}};
  const Framing f = frame(request);
  const optimizer::Stock& stock = f.problem.stock[0];
  // Margin 1/2 in: x 9 1/2 to 12 1/2, y 1 1/2 to 3 1/2; the origin is at 1 in and 1/8 in.
  const Cells grown{68, 11, 24, 16};
  const Cells bare{72, 15, 16, 8};
  // Face A up: stain is barred to the clear face A. The front edge lies near, then far.
  CHECK(hasZone(stock, 0, grown, 1));
  CHECK(hasZone(stock, 0, bare, 0, 1, 0));
  CHECK(hasZone(stock, 1, grown, 1));
  CHECK(hasZone(stock, 1, bare, 0, 0, 1));
  // Face B up: the stained face is the sound back, which takes stain.
  CHECK_FALSE(hasZone(stock, 2, grown, 1));
  CHECK(hasZone(stock, 2, bare, 0, 1, 0));
  CHECK(hasZone(stock, 3, bare, 0, 0, 1));
}

TEST_CASE("hard marks bar offcuts at their bare size") {
  PlanRequest request = simple();
  request.boards[0].defects = {{"split", DefectFace::far, {in(10), in(2), in(2, 1), in(1)}}};
  const optimizer::Stock stock = frame(request).problem.stock[0];
  // A mark of the far edge bars no face; its end at 12 1/64 in is rounded outward.
  CHECK(hasZone(stock, 0, Cells{72, 15, 17, 8}, 2, 1, 1));
}

TEST_CASE("a face nobody has looked at is barred whole to what may not be unseen") {
  PlanRequest request = simple();
  request.job.parts = {part(1, 1, in(20), in(2)), part(2, 1, in(20), in(2))};
  request.job.parts[0].faceB = "hidden";
  request.job.parts[1].faceA = request.job.parts[1].faceB = "hidden";
  request.boards[0].looked = {Looked::no, Looked::rough};
  optimizer::Stock stock = frame(request).problem.stock[0];
  CHECK(stock.itemClass == std::vector<int>{0, 1});
  CHECK(hasZone(stock, 0, Cells{0, 0, 384, 47}, 1));
  CHECK(hasZone(stock, 1, Cells{0, 0, 384, 47}, 1));
  CHECK(stock.zones[2].empty());

  request.boards[0].looked = {Looked::no, Looked::no};
  stock = frame(request).problem.stock[0];
  CHECK(stock.itemClass == std::vector<int>{optimizer::noClass, 0});
  request.choices.trustUnseen = true;
  stock = frame(request).problem.stock[0];
  CHECK(stock.itemClass == std::vector<int>{0, 1});
  CHECK(stock.zones[0].empty());
}

TEST_CASE("outside what is marked good all but hidden is barred") {
  PlanRequest request = simple();
  request.boards[0].defects = {{"good", DefectFace::a, inRect(14, 0, 16, 6)},
                               {"good", DefectFace::a, inRect(30, 0, 10, 3)}};
  const optimizer::Stock stock = frame(request).problem.stock[0];
  CHECK(hasZone(stock, 0, Cells{0, 0, 104, 47}, 1));    // 1 to 14 in
  CHECK(hasZone(stock, 0, Cells{232, 23, 80, 24}, 1));  // 30 to 40 in above 3 in
  CHECK(hasZone(stock, 0, Cells{312, 0, 72, 47}, 1));   // 40 to 49 in
  CHECK(stock.zones[0].size() == 3);
}

TEST_CASE("a kink bars blanks that cannot bear it at its place") {
  PlanRequest request = simple();
  request.boards[0].warp.bow = in(0, 8);  // 60 - 8 = 52 sixty-fourths, the blank needs 56
  request.boards[0].warp.bentAt = in(20);
  CHECK(hasZone(frame(request).problem.stock[0], 0, Cells{152, 0, 1, 47}, 1));
  request.boards[0].warp.bow = in(0, 4);
  CHECK(frame(request).problem.stock[0].zones[0].empty());
  // Without a kink the same bow costs a 21 in blank (21/50)^2 of it: 1.4 sixty-fourths.
  request.boards[0].warp.bow = in(0, 8);
  request.boards[0].warp.bentAt.reset();
  CHECK(frame(request).problem.stock[0].itemClass[0] == 0);
}

TEST_CASE("boards that nothing fits are left out") {
  PlanRequest request = simple();
  const Board good = request.boards[0];
  Board ash = good, thin = good, small = good, out = good;
  ash.species = "ash";
  thin.thickness = in(0, 55);
  small.outline = {Outline::tapered(in(22), in(6), in(6)), Outline::tapered(in(22), in(6), in(6))};
  out.id = {9};
  request.boards = {ash, thin, small, out, good};
  request.choices.keptOut = {{9}};
  const Framing f = frame(request);
  CHECK(f.board == std::vector<std::size_t>{4});
}

TEST_CASE("parts that ask the same share a class") {
  PlanRequest request = simple();
  request.job.parts = {part(1, 1, in(20), in(2)), part(2, 1, in(30), in(3)),
                       part(3, 1, in(20), in(2))};
  request.job.parts[2].faceA = "sound";
  CHECK(frame(request).problem.stock[0].itemClass == std::vector<int>{0, 0, 1});
}

TEST_CASE("an unknown demand and too many demands are refused in a sentence") {
  PlanRequest request = simple();
  request.job.parts[0].faceA = "spotless";
  CHECK_THROWS_AS(frame(request), Refusal);
  request = simple();
  request.job.parts.clear();
  for (int i = 0; i < 8; ++i) {
    request.shop.demands.push_back({"own " + std::to_string(i), {}, false, false});
  }
  for (int i = 0; i < 64; ++i) {
    Part p = part(i + 1, 1, in(20), in(2));
    p.faceA = "own " + std::to_string(i / 8);
    p.faceB = "own " + std::to_string(i % 8);
    request.job.parts.push_back(p);
  }
  CHECK_THROWS_AS(frame(request), Refusal);
  request.job.parts.pop_back();
  CHECK(frame(request).problem.stock[0].offcuts.cls == 63);
}

TEST_CASE("a surface check planes out where no deeper than what comes off its face") {
  // 15/16 in flat, finished 13/16: 1/32 clean-up a face and half of the 1/16 that is left over, so
  // 1/16 in comes off each face.
  PlanRequest request = simple();
  request.job.parts[0].faceA = request.job.parts[0].faceB = "clear";
  request.job.parts[0].edges = {"clear", "clear"};
  Board& board = request.boards[0];
  REQUIRE(board.thickness == in(0, 60));
  REQUIRE(request.job.parts[0].thickness == in(0, 52));
  REQUIRE(request.shop.addPerFace == in(0, 2));
  board.defects = {{"check", DefectFace::a, inRect(20, 0, 10, 6)}};
  const auto barred = [&] {
    const Framing f = frame(request);
    const optimizer::Stock& stock = f.problem.stock[0];
    ClassSet set = 0;
    for (const auto& zones : stock.zones)
      for (const Zone& zone : zones) set |= zone.barred | zone.nearEdge | zone.farEdge;
    return (set & ~(ClassSet{1} << stock.offcuts.cls)) != 0;
  };
  CHECK(barred());
  board.defects[0].depth = in(0, 4);
  CHECK_FALSE(barred());
  board.defects[0].depth = in(0, 4) + Length::nanometres(1);
  CHECK(barred());
  board.defects[0].depth = in(0, 4);
  board.warp.bow = in(0, 8);  // over 21 of 50 in 1/8 x 0.42² = 0.022 in is lost first
  CHECK(barred());
  board.warp = {};
  // Resawn, its faces come out of the board's depth.
  request.boards[0].nominal = Nominal::quarters(8);
  request.boards[0].thickness = in(1, 60);
  request.job.parts[0].recipe = "resawn";
  CHECK(barred());
}

TEST_CASE("a knot aslant bars each face where it comes out, and sawn wood all between") {
  PlanRequest request = simple();
  request.job.parts[0].faceA = "clear";
  Board& board = request.boards[0];
  board.defects = {
      {"sound knot", DefectFace::through, inRect(10, 2, 2, 1), std::nullopt, inRect(20, 2, 2, 1)}};
  request.shop.markMargin = Length();
  const Framing f = frame(request);
  const optimizer::Stock& stock = f.problem.stock[0];
  // Eighths from the origin 1, 1/8 in. Face A up: on A from 10 to half way, 17.
  CHECK(hasZone(stock, 0, {72, 15, 56, 8}, 1));
  // Face B up: from half way, 15, to 22.
  CHECK(hasZone(stock, 2, {112, 15, 56, 8}, 1));
}

TEST_CASE("a straight part comes from boards known to be straight enough") {
  PlanRequest request = simple();
  request.job.parts[0].straight = true;
  const auto allowed = [&] {
    const Framing f = frame(request);
    return !f.problem.stock.empty() && f.problem.stock[0].itemClass[0] != optimizer::noClass;
  };
  Board& board = request.boards[0];
  CHECK_FALSE(allowed());  // nobody has looked
  request.choices.trustUnseen = true;
  CHECK_FALSE(allowed());         // faces are trusted, no more
  board.grain = GrainSlope{119};  // 1 in 11.9 against 1 in 12
  CHECK_FALSE(allowed());
  board.grain = GrainSlope{120};
  CHECK(allowed());
  board.grain = GrainSlope{};
  CHECK(allowed());
  board.grain = GrainSlope{80};
  request.shop.straightGrain = GrainSlope{80};
  CHECK(allowed());
}

TEST_CASE("a resawn part wider than the band saw takes comes out of a blank of its own") {
  PlanRequest request = simple();
  request.job.parts[0].copies = 2;  // as many as the board holds
  request.job.parts[0].width = in(4);
  request.job.parts[0].recipe = "resawn";
  request.shop.resawHeight = in(4);  // the blank is 4 1/4 in wide
  const PlanResult result = makePlan(request, bench::brief());
  CHECK(result.plan.shorts.empty());
  CHECK(check(result.plan, request).empty());
  REQUIRE_FALSE(result.plan.cuttings.empty());
  CHECK(result.plan.cuttings[0].layups.size() == 2);
}
