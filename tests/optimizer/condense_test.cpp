// Equal boards are one stock, units are as coarse as can be, and the plan comes back as it was.
#include <catch2/catch.hpp>

#include "optimizer/condense.h"
#include "optimizer/solve.h"
#include "tests/optimizer/plan_faults.h"
#include "tests/optimizer/random_boards.h"

using namespace flitch::optimizer;

namespace {

/// Every copy of every stock as a stock of its own, in a random order.
Problem apart(Draw& draw, const Problem& problem) {
  Problem single = problem;
  single.stock.clear();
  for (const Stock& stock : problem.stock)
    for (int copy = 0; copy < stock.copies; ++copy) {
      Stock one = stock;
      one.copies = 1;
      one.least = copy < stock.least ? 1 : 0;
      const auto at = single.stock.begin() + draw(0, static_cast<int>(single.stock.size()));
      single.stock.insert(at, std::move(one));
    }
  return single;
}

}  // namespace

TEST_CASE("boards given one by one are planned like the same boards given as copies") {
  int grouped = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Draw draw(seed + 1500000);
    Problem problem = randomShop(draw, {{12, 6, 4}, 3, 4});
    for (Stock& stock : problem.stock) stock.copies = draw(1, 4);
    const Problem single = apart(draw, problem);
    const Condensed small = condense(single);
    INFO("seed " << seed);
    CHECK(small.problem.stock.size() <= problem.stock.size());
    if (small.problem.stock.size() < single.stock.size()) ++grouped;
    int copies = 0, least = 0, forced = 0;
    for (const Stock& stock : small.problem.stock) {
      copies += stock.copies;
      least += stock.least;
    }
    CHECK(copies == static_cast<int>(single.stock.size()));
    const Solution plan = solve(single, {.seconds = 20, .effort = 20000});
    CHECK(faultsOf(plan, single) == std::vector<std::string>{});
    for (const Stock& stock : single.stock) forced += stock.least;
    CHECK(least == forced);
  }
  CHECK(grouped > 100);
}

TEST_CASE("40 boards of one parcel are one stock, and marks or a price of its own part one off") {
  Stock board;
  board.cost = 700;
  board.profile = Profile::rectangle(96, 8);
  board.itemClass = {0};
  Problem problem;
  problem.needs = {{6, 900}};
  problem.items = {{30, 4, 0, 2}};
  problem.stock.assign(40, board);
  problem.stock[7].zones[2].push_back({{10, 2, 3, 3}, 1, 0, 0});
  problem.stock[30].cost = 699;
  const Condensed small = condense(problem);
  REQUIRE(small.problem.stock.size() == 3);
  CHECK(small.problem.stock[0].copies == 38);
  CHECK(small.stockOf[7] == 1);
  CHECK(small.stockOf[30] == 2);
  CHECK(small.stockOf[39] == 0);
  // Pieces come two by two: three pairs at 1800 are what is wanted.
  CHECK(small.units == std::vector<std::int64_t>{2});
  CHECK(small.problem.needs[0].amount == 3);
  CHECK(small.problem.needs[0].shortage == 1800);
  CHECK(small.problem.items[0].supplies == 1);
}

TEST_CASE("what must be opened is opened first, and shortages come back in their own units") {
  Stock board;
  board.cost = 10;
  board.profile = Profile::rectangle(10, 4);
  board.itemClass = {0};
  Problem problem;
  problem.needs = {{8, 100}};
  problem.items = {{10, 4, 0, 4}};
  problem.stock.assign(3, board);
  problem.stock[2].least = 1;
  Solution small;
  small.cuts = {{0, 1, {FirstCut::x, {}}}};
  small.shortages = {{0, 2}};
  const Solution whole = expand(small, condense(problem), problem);
  REQUIRE(whole.cuts.size() == 1);
  CHECK(whole.cuts[0].stock == 2);
  CHECK(whole.shortages == std::vector<Shortage>{{0, 8}});
}
