#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "inventory/planning/asking.h"
#include "inventory/planning/planner.h"
#include "inventory/records/glue_up.h"
#include "inventory/records/recipe.h"
#include "inventory/records/restave.h"
#include "inventory/wood/thickness.h"
#include "tests/planning/random_shop.h"

using namespace flitch;
using namespace flitch::planning;
using bench::brief;
using bench::in;
using bench::listed;
using bench::part;
using bench::plank;

namespace {

/// A plank of that many quarters, as thin as kiln-dried stock may be.
Board thick(std::int64_t id, int quarters, Length length, Length width) {
  Board board = plank(id, length, width, width);
  board.nominal = Nominal::quarters(quarters);
  board.thickness = kilnDriedThickness(board.nominal);
  board.wood = volumeOf(board);
  board.measuredFeet = volumeTally(board.nominal, width, length);
  return board;
}

Part made(const std::string& recipe, int copies, Length length, Length width, Length thickness) {
  Part p = part(1, copies, length, width);
  p.thickness = thickness;
  p.recipe = recipe;
  return p;
}

PlanRequest asking(const Part& p, std::vector<Board> boards) {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.name = "bench";
  request.job.parts = {p};
  request.boards = std::move(boards);
  return request;
}

std::vector<std::pair<Piece, Layup>> laid(const CutPlan& plan) {
  std::vector<std::pair<Piece, Layup>> all;
  for (const Cutting& c : plan.cuttings) {
    for (const Layup& l : c.layups)
      all.emplace_back(c.pieces.at(static_cast<std::size_t>(l.piece)), l);
  }
  return all;
}

std::size_t blanksOf(const CutPlan& plan) {
  std::size_t blanks = 0;
  for (const Cutting& c : plan.cuttings) {
    blanks += static_cast<std::size_t>(
        std::count_if(c.pieces.begin(), c.pieces.end(),
                      [](const Piece& p) { return p.kind == PieceKind::blank; }));
  }
  return blanks;
}

}  // namespace

TEST_CASE("3 1/2 in from two laminae of 8/4 leaves 1/8 in per lamina at kiln scant") {
  // NHLA: the least a kiln-dried 8/4 may be is 1 7/8 (see kilnDriedThickness()). 3 1/2 / 2 = 1 3/4.
  const Length scant = kilnDriedThickness(Nominal::quarters(8));
  REQUIRE(scant == in(1, 56));
  CHECK(scant - in(1, 48) == in(0, 8));
  // Of that 1/8 the shop takes 1/16 for two faces: two laminae do. 4/4 at 15/16 leaves 7/8: 4.
  const Length lost = 2 * startingProfile().addPerFace;
  CHECK(layersOf(in(3, 32), lost, 2, {scant}) == std::vector{2});
  CHECK(layersOf(in(3, 32), lost, 2, {scant, in(0, 60)}) == std::vector{2, 4});
  // 12/4 at 2 7/8 could give it in two as well; a single one is no lamina.
  CHECK(layersOf(in(2), lost, 2, {kilnDriedThickness(Nominal::quarters(12))}) == std::vector{2});

  const PlanRequest request =
      asking(made("laminated", 1, in(30), in(3, 32), in(3, 32)), {thick(1, 8, in(70), in(4, 32))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  const auto laminae = laid(result.plan);
  REQUIRE(laminae.size() == 2);
  std::set<int> slots;
  for (const auto& [piece, layup] : laminae) {
    CHECK(layup.kind == LayupKind::lamina);
    CHECK(layup.gives == in(1, 48));
    CHECK(piece.at.dx == in(31));
    CHECK(piece.at.dy == in(3, 56));  // 3 1/2 + 1/4 jointing and ripping + 1/8 trimmed when glued
    slots.insert(layup.slot);
  }
  CHECK(slots == std::set{1, 2});
  const std::vector<GlueUp> ups = glueUpsOf(result.plan);
  REQUIRE(ups.size() == 1);
  CHECK(ups[0].sections[0].size() == 2);
}

TEST_CASE("laminae asked for by number, and those sawn before are built upon") {
  Part p = made("laminated", 1, in(30), in(3), in(2, 32));
  p.laminae = 3;
  PlanRequest request = asking(p, {thick(1, 4, in(120), in(6))});
  const PlanResult three = makePlan(request, brief());
  CHECK(laid(three.plan).size() == 3);
  Layup sawn;
  sawn.kind = LayupKind::lamina;
  sawn.copy = sawn.slot = sawn.piece = 1;
  sawn.gives = in(0, 54);
  request.laid = {{1, sawn}};
  request.made[1] = {1};
  request.job.parts[0].laminae = 0;
  const PlanResult rest = makePlan(request, brief());
  CHECK(rest.plan.shorts.empty());
  Length given = sawn.gives;
  for (const auto& [piece, layup] : laid(rest.plan)) {
    CHECK(layup.slot > 1);
    CHECK(piece.copy > 1);
    given += layup.gives;
  }
  CHECK(given == in(2, 32));
}

TEST_CASE("parts too short or too narrow alone are ganged by themselves, worked by hand") {
  const ShopProfile shop = startingProfile();
  Part pull = made("", 13, in(4), in(1, 8), in(0, 48));
  CHECK(recipesOf(pull, shop) == std::vector{RecipeKind::ganged});
  // n pulls: 4 n + 1/8 (n - 1) + 1 in. Two are 9 1/8, too short for the jointer's 12; three 13 1/4.
  // 3, 4 and 5 add up to any number from 3 on; all 13 are 4 x 13 + 12 / 8 + 1 = 54 1/2 in.
  CHECK(gangSizes(pull, 13, shop) == std::vector{3, 4, 5, 13});
  CHECK(gangFor(pull, 3, shop).length == in(13, 16));
  CHECK(gangFor(pull, 3, shop).width == in(1, 24));
  CHECK(gangFor(pull, 13, shop).length == in(54, 32));
  // Two dividers of 4 5/16: 9 3/4 in, milled as 12.
  const Part divider = made("ganged", 2, in(4, 20), in(2, 32), in(0, 48));
  CHECK(gangSizes(divider, 2, shop) == std::vector{2});
  CHECK(gangFor(divider, 2, shop).length == in(12));
  // Strips 1/2 in wide: two with a kerf and 1/4 in are 1 3/8 in wide, one alone less than an inch.
  const Part strip = made("", 4, in(30), in(0, 32), in(0, 48));
  CHECK(recipesOf(strip, shop) == std::vector{RecipeKind::ganged});
  CHECK(gangSizes(strip, 4, shop) == std::vector{2, 3, 4});
  CHECK(gangFor(strip, 2, shop).width == in(1, 24));
  CHECK(gangFor(strip, 2, shop).across == 2);

  const PlanRequest request = asking(pull, {plank(1, in(60), in(3), in(3))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  std::set<int> copies;
  for (const auto& [piece, layup] : laid(result.plan)) {
    CHECK(layup.kind == LayupKind::gang);
    copies.insert(layup.copy);
  }
  CHECK(copies.size() == 13);
  CHECK(*copies.rbegin() == 13);
  CHECK(blanksOf(result.plan) <= 4);
  // No caution: nothing shorter than the jointer takes goes over it.
  for (const std::string& note : result.notes) CHECK(note.find("Caution") == std::string::npos);
  const std::vector<Parted> parted = partedOf(result.plan, request.job, request.shop);
  REQUIRE(parted.size() == blanksOf(result.plan));
  CHECK(partingText(parted[0], pull, Unit::inches).rfind("after planing crosscut into ", 0) == 0);
}

TEST_CASE("laminae too short to mill lie together in one blank") {
  // Four feet 6 x 3 1/2 x 3 1/2: laminae of all four in one blank, 4 x 6 + 3/8 + 1 = 25 3/8 in.
  const PlanRequest request =
      asking(made("laminated", 4, in(6), in(3, 32), in(3, 32)), {thick(1, 8, in(60), in(4, 32))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  CHECK(laid(result.plan).size() == 8);
  std::map<int, Length> thickness;
  for (const auto& [piece, layup] : laid(result.plan)) {
    CHECK(piece.at.dx >= in(12));
    thickness[layup.copy] += layup.gives;
  }
  REQUIRE(thickness.size() == 4);
  for (const auto& [copy, sum] : thickness) CHECK(sum == in(3, 32));
}

TEST_CASE("an edge-grain top of strips turned from 8/4, worked by hand") {
  // 13 in and 1/2 in of trim: 8/4 at 1 7/8 leaves 1 13/16 once both faces are clean; 13 1/2 over it
  // is 7.4: eight strips, 1 11/16 each. Ripped 1 5/8 + 1/8 = 1 3/4 in, 47 in long.
  Part top = made("turned", 1, in(46), in(13), in(1, 40));
  top.faceA = "clear";
  PlanRequest request = asking(top, {thick(1, 8, in(100), in(6)), thick(2, 8, in(100), in(6))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  const auto strips = laid(result.plan);
  REQUIRE(strips.size() == 8);
  Length width;
  for (const auto& [piece, layup] : strips) {
    CHECK(layup.kind == LayupKind::stave);
    CHECK(layup.turned);
    CHECK(piece.at.dy == in(1, 48));
    CHECK(piece.at.dx == in(47));
    CHECK(layup.gives <= in(1, 44));
    width += layup.gives;
  }
  CHECK(width == in(13));
  // A 6 in board less 1/8 reference edge gives three strips: 3 x 1 3/4 + 2 x 1/8 = 5 1/2 in; in 98
  // usable inches lie two lengths. Six a board: two boards for eight.
  CHECK(result.plan.cuttings.size() == 2);
  // Four strips of 1 11/16 make 6 3/4 in: the planer's 12 1/2 takes no more than seven.
  std::map<int, int> sections;
  for (const auto& [piece, layup] : strips) ++sections[layup.section];
  CHECK(sections.size() == 2);
  CHECK(std::any_of(result.notes.begin(), result.notes.end(), [](const std::string& note) {
    return note.find("two passes") != std::string::npos;
  }));
}

TEST_CASE("in turned wood a mark of either face shows on the sawn faces") {
  Part slat = made("turned", 1, in(30), in(1, 32), in(0, 48));
  slat.faceA = slat.faceB = "clear";
  slat.edges = {"sound", "sound"};
  PlanRequest request = asking(slat, {thick(1, 8, in(34), in(2))});
  const PlanResult clear = makePlan(request, brief());
  CHECK(clear.plan.shorts.empty());
  REQUIRE(laid(clear.plan).size() == 1);
  CHECK(laid(clear.plan)[0].second.kind == LayupKind::whole);
  CHECK(laid(clear.plan)[0].first.at.dy == in(0, 56));  // 3/4 and 1/8 for both sawn faces
  // A sound knot on one board face: that face becomes an edge, which may have it; but it reaches
  // into the depth, so it bars the clear sawn faces.
  request.boards[0].defects = {{"sound knot", DefectFace::b, Rect{in(15), in(0), in(1), in(2)}}};
  CHECK(makePlan(request, brief()).plan.shorts.size() == 1);
  request.job.parts[0].faceA = request.job.parts[0].faceB = "sound";
  CHECK(makePlan(request, brief()).plan.shorts.empty());
  // And an edge that must be clear is the board's face with the knot or the other one.
  request.job.parts[0].edges = {"clear", "sound"};
  const PlanResult turnedOver = makePlan(request, brief());
  REQUIRE(turnedOver.plan.shorts.empty());
  CHECK(laid(turnedOver.plan)[0].first.faceUp == Face::a);
  request.job.parts[0].edges = {"clear", "clear"};
  CHECK(makePlan(request, brief()).plan.shorts.size() == 1);
}

TEST_CASE("boards of random widths fill a back without glue") {
  Part back = made("random widths", 1, in(25), in(53), in(0, 32));
  back.stavesFrom = in(4);
  back.stavesTo = in(7);
  const PlanRequest request =
      asking(back, {plank(1, in(120), in(7), in(7)), plank(2, in(120), in(6), in(6)),
                    plank(3, in(120), in(5, 32), in(5, 32))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  Length width;
  for (const auto& [piece, layup] : laid(result.plan)) {
    CHECK(layup.section == 0);
    CHECK(piece.at.dy >= in(4));
    CHECK(piece.at.dy <= in(7));
    CHECK(layup.gives <= piece.at.dy - in(0, 8));
    width += layup.gives;
  }
  CHECK(width == in(53));
  REQUIRE(glueUpsOf(result.plan).size() == 1);
  CHECK_FALSE(glueUpsOf(result.plan)[0].glued);
}

TEST_CASE("how many a resaw gives, worked by hand") {
  const ShopProfile shop = startingProfile();
  const Part side = made("resawn", 5, in(35), in(3, 8), in(0, 32));
  // Two leaves of 1/2, a 1/16 kerf, 1/16 off each of two sawn faces and 1/32 off both outer ones:
  // 1 + 1/16 + 1/8 + 1/16 = 1 1/4. Three: 1 1/2 + 1/8 + 1/4 + 1/16 = 1 15/16, more than 8/4 at 1
  // 7/8.
  CHECK(resawnFor(side, 2, shop).thickness == in(1, 16));
  CHECK(resawnFor(side, 3, shop).thickness == in(1, 60));
  const PlanRequest request = asking(side, {thick(1, 8, in(120), in(7, 32))});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  // Five copies of three blanks, the last alone.
  CHECK(laid(result.plan).size() == 5);
  CHECK(blanksOf(result.plan) == 3);
  // A mark on either face bars both leaves of a clear part.
  PlanRequest marked = request;
  marked.job.parts[0].faceA = "clear";
  marked.job.parts[0].faceB = "hidden";
  marked.job.parts[0].copies = 2;
  marked.boards = {thick(1, 8, in(38), in(3, 40))};
  CHECK(blanksOf(makePlan(marked, brief()).plan) == 1);
  marked.boards[0].defects = {{"stain", DefectFace::b, Rect{in(20), in(1), in(1), in(1)}}};
  const PlanResult barred = makePlan(marked, brief());
  // One leaf alone can turn its hidden face to the mark.
  REQUIRE(barred.plan.shorts.size() == 1);
  CHECK(barred.plan.shorts[0].copies == 1);
}

TEST_CASE("laminated or solid: the choice flips where 12/4 costs twice as much a foot as 8/4") {
  // 33 x 2 1/2 x 2 1/2. Solid takes the 12/4 board, 40 x 3 in: 3 x 1/4 x 40/12 = 2 1/2 board feet.
  // Laminated takes two blanks of the 8/4 board, 120 x 3 in: 2 x 1/4 x 10 = 5 board feet. With
  // labour and offcuts worth nothing solid costs 2 1/2 q and laminated 5 p: equal at q = 2 p.
  PlanRequest request = asking(made("solid|laminated", 1, in(33), in(2, 32), in(2, 32)),
                               {thick(1, 12, in(40), in(3)), thick(2, 8, in(120), in(3))});
  request.shop.hourlyRate = {};
  request.shop.keepBands.clear();
  const auto price = [&](std::size_t board, Money perFoot) {
    Board& b = request.boards[board];
    b.cost = b.price = cost(Rate{perFoot}, b.measuredFeet);
  };
  REQUIRE(request.boards[0].measuredFeet.thousandths == 2500);
  REQUIRE(request.boards[1].measuredFeet.thousandths == 5000);
  price(1, Money::units(8));
  const Money cent = Money::tenThousandths(100);
  price(0, Money::units(16) - cent);
  const PlanResult solid = makePlan(request, brief());
  REQUIRE(laid(solid.plan).size() == 1);
  CHECK(laid(solid.plan)[0].second.kind == LayupKind::whole);
  REQUIRE(solid.others.size() == 1);
  CHECK(solid.others[0].recipe == RecipeKind::laminated);
  CHECK(solid.others[0].supplied);
  // 5 x $8 less 2 1/2 x $15.99: 2 1/2 cents.
  CHECK(solid.others[0].more == Money::tenThousandths(250));
  REQUIRE_FALSE(solid.notes.empty());
  CHECK(solid.notes[0].rfind("Part 1 (A): solid. Laminated alone would have come to ", 0) == 0);
  price(0, Money::units(16) + cent);
  const PlanResult glued = makePlan(request, brief());
  REQUIRE(laid(glued.plan).size() == 2);
  CHECK(laid(glued.plan)[0].second.kind == LayupKind::lamina);
  CHECK(glued.plan.total() == Money::units(40));
}

TEST_CASE("a thick part without a recipe may be laminated, and is where no stock is thick enough") {
  const Part leg = made("", 2, in(28), in(2, 32), in(2, 32));
  CHECK(recipesOf(leg, startingProfile()) == std::vector{RecipeKind::solid, RecipeKind::laminated});
  const PlanResult result = makePlan(asking(leg, {thick(1, 8, in(120), in(4))}), brief());
  CHECK(result.plan.shorts.empty());
  CHECK(laid(result.plan).size() == 4);
}

TEST_CASE("runs: fronts side by side in pairs and one, and end to end, of one blank each") {
  Part front = made("solid", 5, in(48), in(3, 20), in(0, 52));
  front.run = "across 2,2,1";
  PlanRequest request =
      asking(front, {plank(1, in(120), in(8), in(8)), plank(2, in(120), in(8), in(8))});
  const PlanResult across = makePlan(request, brief());
  CHECK(across.plan.shorts.empty());
  CHECK(blanksOf(across.plan) == 3);
  std::map<int, std::vector<int>> runs;  // by the number chalked on the blank
  for (const auto& [piece, layup] : laid(across.plan)) {
    runs[piece.copy].push_back(layup.copy);
    CHECK(layup.slot == static_cast<int>(runs[piece.copy].size()));
    // Two of 3 5/16 + 1/4 and a kerf of 1/8: 7 1/4 in.
    CHECK(piece.at.dy == (layup.copy < 5 ? in(7, 16) : in(3, 36)));
  }
  std::set<std::vector<int>> copies;
  for (const auto& [blank, list] : runs) copies.insert(list);
  CHECK(copies == std::set<std::vector<int>>{{1, 2}, {3, 4}, {5}});

  Part small = made("", 3, in(15, 44), in(3, 48), in(0, 52));
  small.run = "along";
  request = asking(small, {plank(1, in(60), in(5), in(5))});
  const PlanResult along = makePlan(request, brief());
  REQUIRE(laid(along.plan).size() == 3);
  // 3 x 16 11/16 + 2 x 1/8.
  CHECK(laid(along.plan)[0].first.at.dx == 3 * in(16, 44) + in(0, 16));
  // A copy that was sawn before leaves a run of the others.
  request.made[1] = {1};
  const PlanResult rest = makePlan(request, brief());
  REQUIRE(laid(rest.plan).size() == 2);
  CHECK(laid(rest.plan)[0].second.copy == 2);
  CHECK(laid(rest.plan)[1].second.copy == 3);

  CutPlan broken = along.plan;
  std::swap(broken.cuttings[0].layups[0].copy, broken.cuttings[0].layups[1].copy);
  CHECK_FALSE(check(broken, asking(small, request.boards)).empty());
}

TEST_CASE("matched pairs: side by side, end to end or leaves of a resaw, each of one blank") {
  Part leaf = made("", 2, in(20), in(4), in(0, 32));
  leaf.run = "pairs";
  // Of 4 1/4 + 4 1/4 + 1/8 in, of 21 + 21 + 1/8 in, and of 8/4 one as large as a leaf alone.
  const Board wide = plank(1, in(25), in(9), in(9), Money::units(20));
  const Board along = plank(2, in(46), in(4, 48), in(4, 48), Money::units(20));
  Board deep = thick(3, 8, in(25), in(4, 48));
  deep.cost = Money::units(20);
  const auto only = [&](const Board& board) {
    const PlanResult result = makePlan(asking(leaf, {board}), brief());
    INFO("board " << board.id.value);
    CHECK(result.plan.shorts.empty());
    REQUIRE(blanksOf(result.plan) == 1);
    const auto both = laid(result.plan);
    REQUIRE(both.size() == 2);
    CHECK(both[0].second.copy == 1);
    CHECK(both[1].second.copy == 2);
    CHECK(result.others.empty());
    return both[0];
  };
  CHECK(only(wide).first.at.dy == in(8, 40));
  CHECK(only(along).first.at.dx == in(42, 8));
  CHECK(only(deep).first.at.dy == in(4, 16));
  CHECK(only(deep).second.kind == LayupKind::whole);

  // The cheapest of the three; one bookmatched comes out of thick stock alone.
  for (const std::size_t cheap : {0U, 1U, 2U}) {
    std::vector<Board> boards{wide, along, deep};
    boards[cheap].cost = Money::units(15);
    const PlanResult result = makePlan(asking(leaf, boards), brief());
    REQUIRE(result.plan.cuttings.size() == 1);
    CHECK(result.plan.cuttings[0].board == boards[cheap].id);
    Part book = leaf;
    book.run = "bookmatched";
    const PlanResult opened = makePlan(asking(book, boards), brief());
    REQUIRE(opened.plan.cuttings.size() == 1);
    CHECK(opened.plan.cuttings[0].board == deep.id);
    const bool leaves = cheap == 2;
    CHECK(check(result.plan, asking(book, boards)).empty() == leaves);
  }

  // The odd one has no fellow: three want a blank of two and one of one.
  leaf.copies = 3;
  Board second = wide;
  second.id = {4};
  const PlanResult odd = makePlan(asking(leaf, {wide, second}), brief());
  CHECK(odd.plan.shorts.empty());
  CHECK(blanksOf(odd.plan) == 2);
  CutPlan broken = odd.plan;
  for (Cutting& cutting : broken.cuttings) {
    for (Layup& l : cutting.layups) l.copy = l.copy % 3 + 1;
  }
  CHECK_FALSE(check(broken, asking(leaf, {wide, second})).empty());
}

TEST_CASE("what gluing takes is counted where a plan chooses between recipes") {
  // To fill 7 1/2 in, two staves of 3 7/8: one of each narrow board. Solid out of the wide one it
  // costs $20 more of wood, and a board less to pull, square and cut: 5 + 3 + 3 minutes, $11.
  Part shelf = made("glued|solid", 1, in(30), in(7), in(0, 48));
  shelf.stavesFrom = in(3);
  shelf.stavesTo = in(4);
  std::vector<Board> boards{plank(1, in(34), in(8), in(8)), plank(2, in(34), in(4, 16), in(4, 16)),
                            plank(3, in(34), in(4, 16), in(4, 16))};
  boards[0].cost = Money::units(30);
  boards[1].cost = boards[2].cost = Money::units(5);
  PlanRequest request = asking(shelf, boards);
  const auto planned = [&](int minutes) {
    request.shop.glueMinutes = minutes;
    const PlanResult result = makePlan(request, brief());
    CHECK(result.plan.shorts.empty());
    CHECK(result.plan.total() - result.plan.bound < Money::tenThousandths(100));
    return result.plan;
  };
  const CutPlan free = planned(0), dear = planned(4), solid = planned(6);
  CHECK(free.cuttings.size() == 2);
  CHECK(dear.cuttings.size() == 2);
  CHECK(dear.total() - free.total() == Money::units(8));
  REQUIRE(solid.cuttings.size() == 1);
  CHECK(solid.total() - free.total() == Money::units(9));
  // Two laminae take as long, loose boards take none of it.
  request.job.parts[0].recipe = "random widths";
  CHECK(planned(0).total() == planned(9).total());
  request = asking(made("laminated", 1, in(30), in(3), in(1, 16)), boards);
  CHECK(planned(5).total() - planned(0).total() == Money::units(10));
}

TEST_CASE("staves of a planned panel lie in any order of their section, the checker agrees") {
  Part top = made("glued", 1, in(30), in(15), in(0, 48));
  top.faceA = "clear";
  top.stavesFrom = in(3);
  top.stavesTo = in(4);
  Board knotty = plank(2, in(70), in(5), in(5));
  knotty.defects = {{"unsound knot", DefectFace::b, Rect{in(5), in(1), in(60), in(2)}}};
  top.faceB = "sound";
  PlanRequest request =
      asking(top, {plank(1, in(110), in(5), in(5)), knotty, plank(3, in(110), in(5), in(5))});
  request.shop.planerWidth = in(9);
  const PlanResult result = makePlan(request, brief());
  REQUIRE(result.plan.shorts.empty());
  std::map<int, int> sections;  // by place
  for (const auto& [piece, layup] : laid(result.plan)) sections[layup.slot] = layup.section;
  REQUIRE(sections.rbegin()->second > 1);
  std::size_t within = 0;
  for (const auto& [from, section] : sections) {
    for (const auto& [to, other] : sections) {
      if (section != other || from == to) continue;
      const CutPlan moved = staveMoved(result.plan, {1, 1, from}, to);
      CHECK_FALSE(moved == result.plan);
      CHECK(check(moved, request).empty());
      ++within;
    }
    // End for end its edges change places, which both are sound here.
    CHECK(check(staveTurned(result.plan, {1, 1, from}, StaveTurn::endForEnd), request).empty());
  }
  CHECK(within > 2);
  // Face A must be clear: a stave that has a mark on its other face is not turned over.
  Board worse = plank(4, in(34), in(5), in(5));
  worse.defects = {{"stain", DefectFace::b, Rect{in(5), in(1), in(20), in(3)}}};
  PlanRequest two = asking(top, {worse, worse});
  two.boards[1].id = {5};
  two.job.parts[0].width = in(6);
  const PlanResult panel = makePlan(two, brief());
  REQUIRE(panel.plan.shorts.empty());
  for (const auto& [piece, layup] : laid(panel.plan)) {
    CHECK_FALSE(check(staveTurned(panel.plan, {1, 1, layup.slot}, StaveTurn::over), two).empty());
  }
}

TEST_CASE("runs as they are written") {
  const auto placesOf = [](const std::string& words, int copies) {
    Part p = part(1, copies, in(10), in(3));
    p.run = words;
    std::vector<std::pair<int, int>> places;
    for (int copy = 1; copy <= copies; ++copy) places.push_back(runOf(p)->placeOf(copy));
    return places;
  };
  using Places = std::vector<std::pair<int, int>>;
  CHECK(placesOf("along", 3) == Places{{0, 0}, {0, 1}, {0, 2}});
  CHECK(placesOf("along 2", 4) == Places{{0, 0}, {0, 1}, {1, 0}, {1, 1}});
  CHECK(placesOf("across 2,1", 5) == Places{{0, 0}, {0, 1}, {1, 0}, {2, 0}, {3, 0}});
  for (const char* words : {"", "around", "along 0", "across 2,,1", "along 1/2", "along 65"}) {
    Part p = part(1, 1, in(10), in(3));
    p.run = words;
    INFO(words);
    CHECK_FALSE(runOf(p).has_value());
  }
}

TEST_CASE("set-up pieces may be of wood that the part may not show") {
  Part p = made("solid", 1, in(30), in(3), in(0, 52));
  p.faceA = "heart only";
  p.setUps = 1;
  Board clear = plank(1, in(34), in(4), in(4)), knotty = plank(2, in(34), in(4), in(4));
  knotty.defects = {{"sound knot", DefectFace::through, Rect{in(15), in(1), in(2), in(1)}}};
  const PlanRequest request = asking(p, {clear, knotty});
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  for (const Cutting& cutting : result.plan.cuttings) {
    REQUIRE(cutting.layups.size() == 1);
    CHECK(cutting.layups[0].copy == static_cast<int>(cutting.board.value));
  }
  CutPlan broken = result.plan;
  std::swap(broken.cuttings[0].layups[0].copy, broken.cuttings[1].layups[0].copy);
  CHECK_FALSE(check(broken, request).empty());
}

TEST_CASE("cutting to length before flattening saves a bowed board") {
  Board bowed = plank(1, in(96), in(7), in(7));
  bowed.warp.bow = in(0, 32);
  // A blank 91 in long of 96 loses 1/2 x (91/96)² = 0.449 of its 15/16 in: 1/2 in is left. One of
  // 31 loses 0.052: 0.885 in, enough for 13/16 and 1/16 of clean-up.
  PlanRequest request = asking(made("solid", 1, in(90), in(3), in(0, 52)), {bowed});
  const PlanResult whole = makePlan(request, brief());
  REQUIRE(whole.plan.shorts.size() == 1);
  CHECK_FALSE(whole.plan.shorts[0].reason.empty());
  request.job.parts[0] = made("solid", 3, in(30), in(3), in(0, 52));
  CHECK(makePlan(request, brief()).plan.shorts.empty());
}

namespace {

/// Told again from the cuttings alone, apart from the checker: what a blank becomes can be reached
/// from it by removing wood.
void reachable(const Part& p, const Piece& blank, const std::vector<Layup>& layups,
               const Board& board, const ShopProfile& shop) {
  const auto n = static_cast<std::int64_t>(layups.size());
  const Length deep = board.thickness;
  if (n == 0) {
    CHECK(blank.at.dx >= p.length);
    CHECK(blank.at.dy >= p.width);
    CHECK(deep >= p.thickness);
    return;
  }
  const Layup& first = layups.front();
  switch (first.kind) {
    case LayupKind::stave:
      CHECK(n == 1);
      CHECK(blank.at.dx >= p.length);
      CHECK((first.turned ? deep : blank.at.dy) >= first.gives);
      CHECK((first.turned ? blank.at.dy : deep) >= p.thickness);
      return;
    case LayupKind::whole:
      CHECK(blank.at.dx >= p.length);
      if (first.turned) {
        CHECK(deep >= p.width);
        CHECK(blank.at.dy >= p.thickness);
      } else {
        CHECK(blank.at.dy >= p.width);
        CHECK(deep >= n * p.thickness + (n - 1) * shop.resawKerf);
      }
      return;
    case LayupKind::lamina:
    case LayupKind::gang: {
      const bool along =
          blank.at.dx >= n * p.length + (n - 1) * shop.crosscutKerf && blank.at.dy >= p.width;
      const bool across =
          blank.at.dy >= n * p.width + (n - 1) * shop.ripKerf && blank.at.dx >= p.length;
      CHECK((along || across));
      CHECK(deep >= (first.kind == LayupKind::lamina ? first.gives : p.thickness));
      return;
    }
  }
}

/// Ways of breaking what is laid up; each must be rejected.
void breakLayups(const CutPlan& plan, const PlanRequest& request) {
  for (std::size_t c = 0; c < plan.cuttings.size(); ++c) {
    for (std::size_t l = 0; l < plan.cuttings[c].layups.size(); ++l) {
      const auto rejects = [&](const char* how, auto breaking) {
        CutPlan broken = plan;
        breaking(broken.cuttings[c].layups, broken.cuttings[c].layups[l]);
        INFO(how);
        CHECK_FALSE(check(broken, request).empty());
      };
      using Layups = std::vector<Layup>;
      // A whole blank told from no others is a copy by its number.
      const Layup& told = plan.cuttings[c].layups[l];
      const auto blank = static_cast<std::size_t>(told.piece);
      const bool alone = told.kind != LayupKind::stave && told.kind != LayupKind::lamina &&
                         !told.turned && flitch::layupsOf(plan.cuttings[c], blank).size() == 1;
      if (!alone)
        rejects("taken away", [&](Layups& all, Layup&) {
          all.erase(all.begin() + static_cast<std::ptrdiff_t>(l));
        });
      rejects("of a copy nobody wants", [](Layups&, Layup& x) { x.copy += 1000; });
      rejects("bringing less", [](Layups&, Layup& x) {
        if (x.kind == LayupKind::stave || x.kind == LayupKind::lamina) {
          x.gives -= Length::nanometres(1);
        } else {
          x.gives += Length::nanometres(1);
        }
      });
      rejects("turned the other way", [](Layups&, Layup& x) { x.turned = !x.turned; });
      rejects("in section nine", [](Layups&, Layup& x) { x.section = x.section == 0 ? 9 : 0; });
      rejects("in no place", [](Layups&, Layup& x) { x.slot = 0; });
      rejects("twice", [](Layups& all, Layup& x) {
        const Layup same = x;
        all.push_back(same);
      });
    }
  }
}

}  // namespace

TEST_CASE(
    "made-up shops with every recipe: parts are reached by removing wood, broken ones found") {
  std::map<LayupKind, int> kinds;
  int turned = 0, resawn = 0, loose = 0;
  for (unsigned seed = 500; seed < 540; ++seed) {
    bench::RandomShop shop(seed);
    const PlanRequest request = shop.everyRecipe(5 + shop.dice(6), 2 + shop.dice(4));
    INFO("seed " << seed);
    if (frame(request).problem.needs.empty()) continue;
    const PlanResult result = makePlan(request, bench::first());
    CHECK(check(result.plan, request).empty());
    std::map<std::pair<int, int>, std::vector<Layup>> copies;
    for (const Cutting& cutting : result.plan.cuttings) {
      const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                      [&](const Board& b) { return b.id == cutting.board; });
      REQUIRE(board != request.boards.end());
      for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
        const Piece& piece = cutting.pieces[i];
        if (piece.kind != PieceKind::blank) continue;
        const Part& p = request.job.parts.at(static_cast<std::size_t>(piece.line) - 1);
        const std::vector<Layup> layups = flitch::layupsOf(cutting, i);
        reachable(p, piece, layups, *board, request.shop);
        for (const Layup& l : layups) {
          copies[{piece.line, l.copy}].push_back(l);
          ++kinds[l.kind];
          if (l.turned) ++turned;
          if (l.kind == LayupKind::whole && l.slot > 1) ++resawn;
          if (l.kind == LayupKind::stave && l.section == 0) ++loose;
        }
      }
    }
    for (const auto& [of, layups] : copies) {
      const Part& p = request.job.parts.at(static_cast<std::size_t>(of.first) - 1);
      CHECK(of.second <= p.wanted());
      Length sum;
      for (const Layup& l : layups) sum += l.gives;
      CHECK(sum == (layups.front().kind == LayupKind::lamina ? p.thickness : p.width));
    }
    breakLayups(result.plan, request);
  }
  CHECK(kinds[LayupKind::stave] > 10);
  CHECK(kinds[LayupKind::lamina] > 10);
  CHECK(kinds[LayupKind::gang] > 10);
  CHECK(kinds[LayupKind::whole] > 10);
  CHECK(turned > 3);
  CHECK(resawn > 1);
  CHECK(loose > 3);
}
