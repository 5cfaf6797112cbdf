// What offcuts carry of their board's cost: book value, or nothing. One function says it to the
// optimizer, to the plan and to the ledger.
#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/proof.h"
#include "inventory/planning/planner.h"
#include "inventory/records/account.h"
#include "inventory/records/plan_check.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::Life;

namespace {

constexpr auto offcuts = static_cast<std::size_t>(Cause::offcuts);

/// A shop where offcuts stand at zero, a board of 96 x 8 for $30 and a part of 60 x 6.
struct AtZero {
  sample::Shop shop;
  Board board;
  JobId job;
  planning::PlanResult plan;

  explicit AtZero(bool zero = true) {
    if (zero) setShop(shop.book, "joint-cost", "zero", shop.hand);
    board = shop.receive({sample::plank(in(96), in(8))}).boards.front();
    Job asked;
    asked.name = "Shelf";
    asked.parts = {sample::part(1, 1, in(60), in(6))};
    job = addJob(shop.book, asked, shop.hand);
    optimizer::Limits limits;
    limits.effort = 100;
    plan = planning::makePlan(request(shop.book, job, {}), limits);
    keep(shop.book, plan, false, shop.hand);
  }
  [[nodiscard]] std::size_t kept() const {
    std::size_t count = 0;
    for (const Cutting& cutting : plan.plan.cuttings)
      for (const Piece& piece : cutting.pieces) count += piece.kind == PieceKind::offcut ? 1 : 0;
    return count;
  }
};

}  // namespace

TEST_CASE("the same cutting by both rules, by hand: at zero the parts carry the whole board") {
  const Life life;
  const Cutting cutting = sample::cuttingOf(life.board.id);
  const Job job = life.shop.now().job(life.job).value();
  ShopProfile shop = life.shop.now().shop();
  const Length tick = life.plan.plan.tick;
  // 40 % of $30 x (32 7/8 x 7 7/8 in) / (96 x 8 in).
  const Breakdown book = account(cutting, life.board, job, shop, tick);
  CHECK(book.offcutWorth == Money::tenThousandths(40'451));
  CHECK(book.woodCost == Money::tenThousandths(259'549));

  shop.offcutsAtZero = true;
  const Breakdown zero = account(cutting, life.board, job, shop, tick);
  CHECK(zero.offcutWorth == Money());
  CHECK(zero.woodCost == Money::units(30));
  CHECK(zero.cost[offcuts] == Money());
  CHECK(zero.volume == book.volume);
  CHECK(zero.feet == book.feet);
  Money sum;
  for (const Money cost : zero.cost) sum += cost;
  CHECK(sum == Money::units(30));
  // $30 by volume over all but the offcut: the part is 315 of 768 - 263 = 505 in³, $18.71.
  CHECK(zero.cost[static_cast<std::size_t>(Cause::parts)].raw() ==
        Approx(300'000 * 315.0 / 505).margin(2));
  // $1 a minute: no cut is made for the offcut's sake.
  CHECK(zero.cutCost == book.cutCost - Money::units(1));
}

TEST_CASE("a plan keeps what falls anyway, pays the whole board, and posts what it promised") {
  AtZero zero;
  CHECK(check(zero.plan.plan, zero.plan.request).empty());
  CHECK(zero.plan.plan.woodCost == Money::units(30));
  CHECK(zero.plan.plan.offcutWorth == Money());
  CHECK(zero.plan.plan.boundKind != PlanBound::none);
  CHECK(zero.plan.plan.bound <= zero.plan.plan.total());
  REQUIRE(zero.kept() == 1);
  const Sawn sawn = sawAsPlanned(zero.shop.book, zero.job, {}, zero.shop.hand);
  CHECK(sawn.woodCost == zero.plan.plan.woodCost);
  REQUIRE(sawn.offcuts.size() == 1);
  CHECK(sawn.offcuts[0].cost == Money());
  CHECK(sawn.offcuts[0].onRack());
  CHECK(sawn.offcuts[0].measuredFeet.thousandths > 1500);
  CHECK(zero.shop.faults() == "");
  CHECK(prove(zero.shop.book).empty());

  const AtZero book(false);
  CHECK(book.plan.plan.woodCost < Money::units(30));
  CHECK(book.plan.plan.offcutWorth > Money());
}

TEST_CASE("what was planned under one rule is sawn and proved by it, whatever is set since") {
  AtZero zero;
  setShop(zero.shop.book, "joint-cost", "book value", zero.shop.hand);
  CHECK(zero.shop.now().shop().offcutsAtZero == false);
  sawAsPlanned(zero.shop.book, zero.job, {}, zero.shop.hand);
  CHECK(zero.shop.faults() == "");
  CHECK(prove(zero.shop.book).empty());
  CHECK_THROWS_AS(setShop(zero.shop.book, "joint-cost", "half", zero.shop.hand), Refusal);
}

TEST_CASE("an offcut that carries nothing is opened for its pulling and cutting alone") {
  AtZero zero;
  const Sawn first = sawAsPlanned(zero.shop.book, zero.job, {}, zero.shop.hand);
  Job asked;
  asked.name = "Stool";
  asked.parts = {sample::part(1, 1, in(20), in(4))};
  const JobId stool = addJob(zero.shop.book, asked, zero.shop.hand);
  optimizer::Limits limits;
  limits.effort = 100;
  const planning::PlanResult plan = planning::makePlan(request(zero.shop.book, stool, {}), limits);
  REQUIRE(plan.plan.cuttings.size() == 1);
  CHECK(plan.plan.cuttings[0].board == first.offcuts[0].id);
  CHECK(plan.plan.woodCost == Money());
  keep(zero.shop.book, plan, false, zero.shop.hand);
  CHECK(sawAsPlanned(zero.shop.book, stool, {}, zero.shop.hand).woodCost == Money());
  CHECK(zero.shop.faults() == "");
  CHECK(prove(zero.shop.book).empty());
}
