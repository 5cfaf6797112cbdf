// A board left half-way through its cuts: what is off, what hangs together still, and the accounts.
#include <catch2/catch.hpp>
#include <random>
#include <set>

#include "inventory/desk/proof.h"
#include "inventory/desk/replan.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/records/account.h"
#include "inventory/records/saw_steps.h"
#include "tests/desk/life.h"
#include "tests/labels/bench.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/sample_cuttings.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;
using sample::Life;

namespace {

/// Life's board with a second section, 31 in, away from the tag: cuts 2 to 5 free it, its blank
/// comes off with cut 7.
Cutting twoSections(BoardId board) {
  using K = PieceKind;
  Cutting cutting = sample::cuttingOf(board);
  std::vector<Piece>& pieces = cutting.pieces;
  const Length from = in(62, 8), to = in(93, 8);
  pieces.pop_back();  // the end trim
  pieces.pop_back();  // the offcut
  for (const Piece& piece :
       {sample::piece(2, K::cut, box(from, in(0), to, in(8))),
        sample::piece(3, K::kerf, box(from, in(0), to, in(0, 8))),
        sample::piece(3, K::blank, box(from, in(0, 8), to, in(6, 24)), 2, 1),
        sample::piece(3, K::kerf, box(from, in(6, 24), to, in(6, 32))),
        sample::piece(3, K::unusable, box(from, in(6, 32), to, in(8))),
        sample::piece(2, K::kerf, box(to, in(0), to + in(0, 8), in(8))),
        sample::piece(2, K::unusable, box(to + in(0, 8), in(0), in(95), in(8))),
        sample::piece(1, K::endTrim, box(in(95), in(0), in(96), in(8)))}) {
    pieces.push_back(piece);
  }
  return cutting;
}

/// A job of both parts, planned so.
struct TwoShelves : Life {
  Cutting cutting = twoSections(board.id);
  Board marked = now(board.id);
  PlanRequest request;

  TwoShelves() {
    Job both;
    both.name = "Two shelves";
    both.parts = {sample::part(1, 1, in(60), in(6)), sample::part(2, 1, in(30), in(6))};
    job = addJob(shop.book, both, shop.hand);
    plan = shop.planned(job, {cutting});
    keep(shop.book, plan, false, shop.hand);
    request.job = shop.now().job(job).value();
    request.shop = shop.now().shop();
  }
  [[nodiscard]] CuttingCase at() const { return {cutting, marked, request, plan.plan.tick}; }
  [[nodiscard]] PaperLine read(const std::string& text) const {
    return readPaper(text, cutting, readingRules(shop.book));
  }
  [[nodiscard]] std::string readCode(const std::string& text) const {
    return code([&] { static_cast<void>(readingOf(read(text), at())); });
  }
};

/// A board tapered at random, ends as bought or as sawn.
Board anyBoard(std::mt19937& random) {
  Board board = test::mapChestBoard();
  board.defects.clear();
  const auto sixteenths = [&](std::int64_t low, std::int64_t high) {
    return Length::sixtyFourths(4 * std::uniform_int_distribution<std::int64_t>(low, high)(random));
  };
  const Outline outline = Outline::tapered(
      sixteenths(16 * 40, 16 * 160), sixteenths(16 * 5, 16 * 14), sixteenths(16 * 4, 16 * 13));
  board.outline = {outline, outline};
  board.sawnEnd = {random() % 3 == 0, random() % 3 == 0};
  return board;
}

/// Children fill their node side by side, along x or along y.
void checkTiles(const Cutting& cutting) {
  for (std::size_t n = 0; n < cutting.pieces.size(); ++n) {
    const std::vector<std::size_t> children = childrenOf(cutting, n);
    if (children.empty()) continue;
    const Rect& all = cutting.pieces[n].at;
    const Rect& first = cutting.pieces[children.front()].at;
    const bool along = first.dy == all.dy;
    Length reached = along ? all.x : all.y;
    for (const std::size_t child : children) {
      const Rect& at = cutting.pieces[child].at;
      CHECK((along ? at.x : at.y) == reached);
      CHECK((along ? at.y == all.y && at.dy == all.dy : at.x == all.x && at.dx == all.dx));
      reached = along ? at.right() : at.top();
    }
    CHECK(reached == (along ? all.right() : all.top()));
  }
}

}  // namespace

TEST_CASE("a board stopped half-way gives what is off, and goes back to the rack as it hangs") {
  TwoShelves half;
  const std::vector<SawStep> steps =
      sawSteps(half.cutting, half.now(half.board.id), half.request.job, half.request.shop);
  std::string order;
  for (const SawStep& step : steps) {
    order += std::to_string(step.number) + " " + step.from + " " + step.falls + "; ";
  }
  INFO(order);
  // The end squared, A's and B's lengths off, an edge for both; cut 4 rips B1, cut 5 would rip A1.
  REQUIRE(half.cutting.pieces.size() == 17);
  CHECK(readingOf(half.read("stop 4"), half.at()) ==
        "stops after cut 4, A1 is wanted again, 61 × 7 7/8 stays whole");
  const PaperLine line = half.read("stop 4");
  const Sawn sawn =
      saw(half.shop.book, half.job,
          {turnOf(half.shop.now(), half.board.id, line, false, Unit::inches)}, half.shop.hand);
  CHECK(half.shop.now().made(half.job) == std::map<int, std::set<int>>{{2, {1}}});
  REQUIRE(sawn.offcuts.size() == 1);
  CHECK(boundsOf(sawn.offcuts[0]).dx == in(61));
  CHECK(boundsOf(sawn.offcuts[0]).dy == in(7, 56));  // its edge is made: one line for both lengths
  // The knot at 10 to 12 in from the tag, 9 to 11 from the cut end of what is left.
  REQUIRE(sawn.offcuts[0].defects.size() == 1);
  CHECK(sawn.offcuts[0].defects[0].where.x == in(9));
  CHECK(half.shop.faults() == "");
  CHECK(prove(half.shop.book).empty());
  undo(half.shop.book, half.shop.hand);
  CHECK(half.now(half.board.id).onRack());
  CHECK(half.shop.faults() == "");
}

TEST_CASE("a board ripped over its whole length and stopped keeps its strip") {
  // One strip 94 x 3 1/4 under the reference edge, two blanks of 27 in at its tag end: squared (1),
  // ripped (2), the strip's waste off (3), A2 off (4), A1 off the tag end (5).
  using K = PieceKind;
  Life life;
  Cutting cutting;
  cutting.board = life.board.id;
  const Length low = in(0, 8), top = in(3, 24), cut = in(28), next = in(28, 8), end = in(55, 8);
  cutting.pieces = {sample::piece(0, K::cut, box(in(0), in(0), in(96), in(8))),
                    sample::piece(1, K::endTrim, box(in(0), in(0), in(1), in(8))),
                    sample::piece(1, K::cut, box(in(1), in(0), in(95), in(8))),
                    sample::piece(2, K::cut, box(in(1), in(0), in(95), in(8))),
                    sample::piece(3, K::kerf, box(in(1), in(0), in(95), low)),
                    sample::piece(3, K::cut, box(in(1), low, in(95), top)),
                    sample::piece(4, K::blank, box(in(1), low, cut, top), 1, 1),
                    sample::piece(4, K::kerf, box(cut, low, next, top)),
                    sample::piece(4, K::blank, box(next, low, end, top), 1, 2),
                    sample::piece(4, K::kerf, box(end, low, end + in(0, 8), top)),
                    sample::piece(4, K::unusable, box(end + in(0, 8), low, in(95), top)),
                    sample::piece(3, K::kerf, box(in(1), top, in(95), top + in(0, 8))),
                    sample::piece(3, K::unusable, box(in(1), top + in(0, 8), in(95), in(8))),
                    sample::piece(1, K::endTrim, box(in(95), in(0), in(96), in(8)))};
  Job job;
  job.name = "Rails";
  job.parts = {sample::part(1, 2, in(26), in(3))};
  const JobId rails = addJob(life.shop.book, job, life.shop.hand);
  const planning::PlanResult plan = life.shop.planned(rails, {cutting});
  keep(life.shop.book, plan, false, life.shop.hand);
  Turn turn{life.board.id, {}, {}, {}};
  turn.otherwise.stoppedAfter = 4;
  const Sawn sawn = saw(life.shop.book, rails, {turn}, life.shop.hand);
  CHECK(life.shop.now().made(rails) == std::map<int, std::set<int>>{{1, {2}}});
  REQUIRE(sawn.offcuts.size() == 1);
  // Its end at the tag is as it was bought: no cut was made there.
  CHECK(boundsOf(sawn.offcuts[0]).dx == in(28));
  CHECK(sawn.offcuts[0].sawnEnd == std::array<bool, 2>{false, true});
  CHECK(boundsOf(sawn.offcuts[0]).dy == in(3, 16));
  CHECK(prove(life.shop.book).empty());
  // It was ripped to width already: its edge serves, so it still gives the other rail.
  CHECK(nearEdgeSawn(sawn.offcuts[0]));
  const Replanned again = replanned(life.shop.book, rails, 1);
  CHECK(again.result.plan.shorts.empty());
  REQUIRE(again.result.plan.cuttings.size() == 1);
  CHECK(again.result.plan.cuttings[0].board == sawn.offcuts[0].id);
  const Kept kept = keep(life.shop.book, again.result, false, life.shop.hand);
  CHECK(kept.plan == life.shop.now().newestPlan(rails)->plan.id);
  sawAsPlanned(life.shop.book, rails, {}, life.shop.hand);
  CHECK(life.shop.now().made(rails).at(1) == std::set<int>{1, 2});
  CHECK(prove(life.shop.book).empty());
}

TEST_CASE("a cut to stop after is one of the sheet, not its last, and a blank is off by then") {
  const TwoShelves half;
  CHECK(half.readCode("stop 0") == "no-such-cut");
  CHECK(half.readCode("stop 99") == "no-such-cut");
  CHECK(half.readCode("stop 1") == "nothing-sawn");
  for (const char* bad : {"stop", "stop x", "stop 3 4", "stop -1", "stop 3, stop 4", "stop 1234"}) {
    INFO(bad);
    CHECK(half.readCode(bad) == "bad-line");
  }
  // A blank that is not off yet cannot be lost or short; another board has other cuts.
  CHECK(half.readCode("stop 4, A1 lost") == "no-such-blank");
  CHECK(half.readCode("stop 4, B1 lost") == "");
  CHECK(half.readCode("stop 4, used T0001-X") == "bad-line");
  CHECK(half.readCode("stop 4, A1 short 30") == "no-such-blank");
}

TEST_CASE("stopped after any cut of any board, blanks are those a person at the saw holds") {
  std::mt19937 random(27);
  const ShopProfile shop;
  PlanRequest request;
  request.job = test::mapChestJob();
  const Length tick = Length::sixtyFourths(4);
  int stops = 0, halves = 0;
  for (int n = 0; n < 150; ++n) {
    const Board board = anyBoard(random);
    const CuttingCase at{test::randomCutting(random, board, shop), board, request, tick};
    const std::vector<SawStep> steps = sawSteps(at.cutting, board, request.job, shop);
    test::Bench bench(board, shop);
    for (const SawStep& step : steps) {
      bench.make(step);
      const bool last = step.number == 0 || &step == &steps.back() ||
                        std::none_of(&step + 1, &steps.back() + 1,
                                     [](const SawStep& later) { return later.number > 0; });
      if (last) continue;
      INFO("board " << n << ", stopped after cut " << step.number);
      Deviation stopped;
      stopped.stoppedAfter = step.number;
      ++stops;
      AsSawn sawn;
      try {
        sawn = asSawn(stopped, at);
      } catch (const Refusal& refusal) {
        CHECK(refusal.code() == "nothing-sawn");
        for (const Piece& piece : at.cutting.pieces) {
          if (piece.kind == PieceKind::blank) CHECK_FALSE(bench.has(piece.at));
        }
        continue;
      }
      ++halves;
      std::vector<Rect> made;
      for (const Piece& piece : sawn.cutting.pieces) {
        if (piece.kind == PieceKind::blank) made.push_back(piece.at);
      }
      for (const Piece& piece : at.cutting.pieces) {
        if (piece.kind != PieceKind::blank) continue;
        const bool off = std::find(made.begin(), made.end(), piece.at) != made.end();
        CHECK(off == bench.has(piece.at));
      }
      // The tree still tiles the board, and every bit of wood and money is somewhere.
      checkTiles(sawn.cutting);
      const Breakdown breakdown = account(sawn.cutting, board, request.job, shop, tick);
      CubicMillimetres wood;
      Money cost;
      for (const Share& share : breakdown.shares) {
        wood += share.volume;
        cost += share.cost;
      }
      CHECK(wood == volumeOf(board));
      CHECK(cost == board.cost);
    }
  }
  CHECK(stops > 500);
  CHECK(halves > 200);
}
