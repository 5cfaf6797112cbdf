// Wood marked for show is left to the parts that show most, where a wish pays for it.
#include "inventory/records/show_wood.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/planning/planner.h"
#include "tests/planning/random_shop.h"

using namespace flitch;
using namespace flitch::planning;
using bench::brief;
using bench::in;
using bench::listed;
using bench::part;
using bench::plank;

namespace {

/// A clear front and a hidden back, 20 x 3 each: blanks of 21 x 3 1/4, and one board that gives
/// both end to end and no more: the show zone lies over the 24 in at the tag end or at the other.
PlanRequest fronts(bool atTagEnd) {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.name = "drawer";
  request.job.parts = {part(1, 1, in(20), in(3)), part(2, 1, in(20), in(3))};
  Part& hidden = request.job.parts[1];
  hidden.faceA = hidden.faceB = "hidden";
  hidden.edges = {"hidden", "hidden"};
  for (Part& p : request.job.parts) p.thickness = in(0, 48);
  request.boards = {plank(1, in(46), in(4), in(4))};
  const Rect zone =
      atTagEnd ? Rect{in(0), in(0), in(23), in(4)} : Rect{in(23), in(0), in(23), in(4)};
  request.boards[0].defects = {{"show", DefectFace::a, zone}};
  return request;
}

Length placeOf(const CutPlan& plan, int line) {
  for (const Cutting& cutting : plan.cuttings) {
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind == PieceKind::blank && piece.line == line) return piece.at.x;
    }
  }
  return in(-1);
}

}  // namespace

TEST_CASE("the front lies in the wood marked for show, the hidden part beside it") {
  for (const bool atTagEnd : {true, false}) {
    const PlanRequest request = fronts(atTagEnd);
    const PlanResult result = makePlan(request, brief());
    CHECK(result.plan.shorts.empty());
    CHECK(listed(check(result.plan, request)).empty());
    CHECK((placeOf(result.plan, 1) < placeOf(result.plan, 2)) == atTagEnd);
    CHECK(onOthersShowWood(result.plan, request).empty());
    PlanRequest unmarked = request;
    unmarked.boards[0].defects.clear();
    CHECK(makePlan(unmarked, brief()).claim.find("for show") == std::string::npos);
    CHECK(result.plan.total() - result.plan.bound < Money::tenThousandths(100));
  }
}

TEST_CASE("it is a wish: a hidden part takes show wood before it is short or much dearer") {
  PlanRequest request = fronts(true);
  request.boards[0].defects[0].where = {in(0), in(0), in(46), in(4)};
  const PlanResult alone = makePlan(request, brief());
  CHECK(alone.plan.shorts.empty());
  REQUIRE(onOthersShowWood(alone.plan, request).size() == 1);
  CHECK(onOthersShowWood(alone.plan, request)[0].second.line == 2);
  CHECK(allWishes(alone.plan, request) == usualWish);
  CHECK(alone.claim.find("Wood marked for show is left") != std::string::npos);
  CHECK(listed(check(alone.plan, request)).empty());
  // The wish is no part of the price, and the bound is met all the same.
  CHECK(alone.plan.total() - alone.plan.bound < Money::tenThousandths(100));
  CHECK(std::any_of(alone.notes.begin(), alone.notes.end(), [](const std::string& note) {
    return note.find("On wood marked for show") == 0 &&
           note.find("B1 on T0001-X") != std::string::npos;
  }));
  // Another board costs more than the wish counts.
  request.boards.push_back(plank(2, in(24), in(4), in(4)));
  CHECK(makePlan(request, brief()).plan.cuttings.size() == 1);
}

TEST_CASE("who leaves show wood to whom") {
  const PlanRequest request = fronts(true);
  const auto& [job, shop] = std::pair(request.job, request.shop);
  CHECK_FALSE(leavesShowWood(job.parts[0], job, shop));
  CHECK(leavesShowWood(job.parts[1], job, shop));
  Job alike = job;
  alike.parts[0] = alike.parts[1];
  CHECK_FALSE(leavesShowWood(alike.parts[0], alike, shop));
  Job heart = job;
  heart.parts.push_back(part(3, 1, in(20), in(3)));
  heart.parts[2].faceA = "heart only";
  CHECK(leavesShowWood(heart.parts[0], heart, shop));
  // To whole steps, outward.
  const Board& board = request.boards[0];
  const Length tick = in(0, 8);
  CHECK(onShowWood(board, {in(22), in(0), in(5), in(3)}, tick));
  CHECK_FALSE(onShowWood(board, {in(23), in(0), in(5), in(3)}, tick));
  Board odd = board;
  odd.defects[0].where.dx = in(22, 60);
  CHECK(onShowWood(odd, {in(22, 60), in(0), in(5), in(3)}, tick));
}

TEST_CASE("made-up shops with show zones: the checker agrees, and no bound is above a plan") {
  for (unsigned seed = 5200; seed < 5220; ++seed) {
    bench::RandomShop shop(seed);
    PlanRequest request = shop.everyRecipe(4 + shop.dice(5), 2 + shop.dice(3));
    for (Board& b : request.boards) {
      if (shop.dice(2) == 0) continue;
      b.defects.push_back({"show", shop.dice(2) == 0 ? DefectFace::a : DefectFace::through,
                           Rect{in(shop.dice(20), shop.dice(64)), in(1), in(20, 5), in(4)}});
    }
    INFO("seed " << seed);
    const PlanResult result = makePlan(request, bench::first());
    CHECK(listed(check(result.plan, request)).empty());
    CHECK(result.plan.bound <= result.plan.total());
  }
}
