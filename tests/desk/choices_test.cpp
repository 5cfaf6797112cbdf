// What the maker settles before a plan, read as typed.
#include "inventory/desk/choices.h"

#include <catch2/catch.hpp>

#include "inventory/desk/beside.h"
#include "inventory/desk/rack_work.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::part;
using sample::plank;

namespace {

struct Bench {
  sample::Shop shop;
  std::vector<Board> boards;
  JobId job;

  Bench() {
    boards = shop.receive({plank(in(96), in(6)), plank(in(96), in(6))}).boards;
    Job made;
    made.name = "shelf";
    made.parts = {part(1, 2, in(30), in(2)), part(2, 1, in(40), in(20))};
    made.parts[1].recipe = "glued";
    job = addJob(shop.book, made, shop.hand);
  }
  [[nodiscard]] std::string tag(std::size_t board) const { return text(*boards[board].tag); }
  [[nodiscard]] Choices read(const Settled& settled) const {
    return choicesOf(shop.book, job, settled);
  }
  [[nodiscard]] std::string code(const Settled& settled) const {
    try {
      (void)read(settled);
      return "";
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
  }
  [[nodiscard]] std::string codeOfLay(const std::string& lay) const {
    Settled settled;
    settled.lay = {lay};
    return code(settled);
  }
  PlanId plan(const Choices& choices = {}) {
    optimizer::Limits limits;
    limits.seconds = 0.3;
    return keep(shop.book, planning::makePlan(request(shop.book, job, choices), limits), false,
                shop.hand)
        .plan;
  }
};

}  // namespace

TEST_CASE("pins, boards kept out and wishes by tag and word") {
  Bench bench;
  Settled settled;
  settled.pins = {bench.tag(0), bench.tag(0)};
  settled.keepOut = {bench.tag(1)};
  settled.prefer = {"offcuts", "oldest 5", "delivery 1 0.50"};
  const Choices choices = bench.read(settled);
  CHECK(choices.pins == std::vector<BoardId>{bench.boards[0].id});
  CHECK(choices.keptOut == std::vector<BoardId>{bench.boards[1].id});
  REQUIRE(choices.wishes.size() == 3);
  CHECK(choices.wishes[0] == Wish{"offcuts first", {}, usualWish});
  CHECK(choices.wishes[1].each == Money::units(5));
  CHECK(choices.wishes[1].boards.size() == 2);
  CHECK(choices.wishes[2].each == Money::tenThousandths(5000));
  settled = {};
  settled.prefer = {"the blue ones"};
  CHECK(bench.code(settled) == "bad-wish");
  settled.prefer = {"offcuts many"};
  CHECK(bench.code(settled) == "bad-wish");
  settled.prefer = {"delivery 9"};
  CHECK(bench.code(settled) == "unknown-delivery");
}

TEST_CASE("a blank laid by hand is read, or refused with what would be taken") {
  Bench bench;
  const store::Snapshot now = bench.shop.now();
  const Job job = now.job(bench.job).value();
  const LaidByHand laid =
      readLaid("a@" + bench.tag(0) + " 12, 1 1/2, B, far", now, job, Unit::inches);
  CHECK(laid ==
        LaidByHand{
            bench.boards[0].id, 1, {in(12), in(1, 32), in(31), in(2, 16)}, Face::b, Edge::far});
  CHECK(bench.codeOfLay("A " + bench.tag(0)) == "bad-lay");
  CHECK(bench.codeOfLay("A@" + bench.tag(0) + " 12") == "bad-lay");
  CHECK(bench.codeOfLay("A@" + bench.tag(0) + " 12,x") == "bad-lay");
  CHECK(bench.codeOfLay("A@" + bench.tag(0) + " 12,1,C") == "bad-lay");
  CHECK(bench.codeOfLay("Z@" + bench.tag(0) + " 12,1") == "bad-lay");
  CHECK(bench.codeOfLay("B@" + bench.tag(0) + " 12,1") == "bad-lay");
}

TEST_CASE("locks are those of the newest plan, a board not in it cannot be locked") {
  Bench bench;
  Settled settled;
  settled.locks = {bench.tag(0)};
  CHECK(bench.code(settled) == "not-in-plan");
  bench.plan();
  const CutPlan plan = bench.shop.now().newestPlan(bench.job)->plan;
  settled.locks = {"all"};
  const Choices all = bench.read(settled);
  REQUIRE(all.locks.size() == plan.cuttings.size());
  CHECK(all.locks[0] == Lock{plan.cuttings[0], true});
  // Kept as it is, and stored with what it was made under.
  bench.plan(all);
  CHECK(bench.shop.now().newestPlan(bench.job)->plan.cuttings == plan.cuttings);
  CHECK(bench.shop.now().newestPlan(bench.job)->plan.choices == all);
}

TEST_CASE("a board named for the job is taken though kept back, and refused when held") {
  Bench bench;
  keepBack(bench.shop.book, {bench.boards[0]}, true, bench.shop.hand);
  const auto has = [&](const PlanRequest& request) {
    return std::any_of(request.boards.begin(), request.boards.end(),
                       [&](const Board& b) { return b.id == bench.boards[0].id; });
  };
  CHECK_FALSE(has(request(bench.shop.book, bench.job, {})));
  Choices choices;
  choices.pins = {bench.boards[0].id};
  CHECK(has(request(bench.shop.book, bench.job, choices)));
}

TEST_CASE("two plans side by side") {
  Bench bench;
  const Job job = bench.shop.now().job(bench.job).value();
  bench.plan();
  CHECK_THROWS_AS(plansBeside(bench.shop.now(), job, Unit::inches), Refusal);
  Choices choices;
  choices.keptOut = {bench.shop.now().newestPlan(bench.job)->plan.cuttings[0].board};
  bench.plan(choices);
  const Table plans = plansBeside(bench.shop.now(), job, Unit::inches);
  REQUIRE(plans.rows.size() == 2);
  CHECK(std::get<Money>(plans.rows[1][1]) == bench.shop.now().newestPlan(bench.job)->plan.total());
  CHECK(std::get<std::string>(plans.rows[0].back()) == "nothing");
  CHECK(std::get<std::string>(plans.rows[1].back()) == "without the boards you kept out");
  const Table beside = sideBySide(plans, Unit::inches, "$");
  CHECK(beside.rows.size() == plans.columns.size());
  CHECK(beside.rows[0].size() == 3);
}
