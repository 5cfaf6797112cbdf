#include <catch2/catch.hpp>
#include <thread>

#include "optimizer/baselines.h"
#include "optimizer/bound.h"
#include "optimizer/solve.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

namespace {

/// A tiny shop with something out of the ordinary.
Problem oddShop(Draw& draw) {
  Problem problem = randomShop(draw, {{7, 4, 2}, 3, 3});
  switch (draw(0, 7)) {
    case 0:  // offcuts worth nothing
      for (Stock& stock : problem.stock) stock.offcuts.bands.clear();
      break;
    case 1:  // a missing part costs more than all the wood there is
      for (Need& need : problem.needs) need.shortage = Worth{1} << draw(30, 50);
      break;
    case 2:  // or next to nothing
      for (Need& need : problem.needs) need.shortage = draw(0, 2);
      break;
    case 3: problem.stock.clear(); break;
    case 4: problem.stock.resize(1); break;
    case 5:  // boards for nothing, or dearer than everything
      for (Stock& stock : problem.stock) stock.cost = draw.oneIn(2) ? 0 : Worth{1} << draw(20, 40);
      break;
    case 6:  // offcuts worth more than their board
      for (Stock& stock : problem.stock) {
        const int doublings = draw(0, 10);
        for (KeepRule::Band& band : stock.offcuts.bands) band.rate <<= doublings;
      }
      break;
    default: break;
  }
  return problem;
}

}  // namespace

TEST_CASE("bound, optimum and plan stand in order at every moment on thousands of tiny shops") {
  int closed = 0, early = 0;
  const int shops = 3000;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + 700000);
    const Problem problem = oddShop(draw);
    const Worth optimum = slow::bestShop(problem);
    Limits limits{.seconds = 20, .effort = static_cast<std::uint64_t>(draw(1, 20000))};
    std::stop_source source;
    int left = draw.oneIn(2) ? draw(1, 6) : -1;  // reports until a stop is asked for
    bool ordered = true;
    const Solution solution = solve(problem, limits, source.get_token(), [&](const Progress& p) {
      ordered = ordered && p.bound <= optimum && optimum <= p.cost;
      if (--left == 0) source.request_stop();
    });
    INFO("seed " << seed);
    CHECK(ordered);
    CHECK(solution.bound <= optimum);
    CHECK(optimum <= solution.cost);
    CHECK(solution.cost == costOf(solution, problem));
    if (solution.bound == solution.cost) ++closed;
    if (solution.ending == Ending::stopped) ++early;
  }
  WARN(closed << " of " << shops << " tiny shops closed, " << early << " stopped on the way");
  CHECK(closed > shops / 4);  // else bounds so weak would show nothing
  CHECK(early > shops / 100);
}

TEST_CASE("many equal boards are bounded and planned as one stock") {
  for (std::uint64_t seed = 1; seed <= 5; ++seed) {
    Draw draw(seed + 800000);
    Problem problem = randomShop(draw, {{20, 8, 3}, 1, 3});
    problem.stock.resize(1);
    problem.stock[0].copies = 500;
    problem.stock[0].least = 0;
    for (Need& need : problem.needs) need.amount = draw(50, 400);
    const Solution plan = solve(problem, {.seconds = 20, .effort = 100000});
    INFO("seed " << seed);
    CHECK(plan.bound <= plan.cost);
    CHECK(plan.cost <= carefulHand(problem).cost);
    CHECK(plan.cost == costOf(plan, problem));
  }
}

TEST_CASE("a known plan is where the search begins, and one at fault is refused") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Draw draw(seed + 900000);
    const Problem problem = randomShop(draw, {{24, 10, 5}, 5, 5});
    const Solution careful = carefulHand(problem);
    INFO("seed " << seed);
    Worth first = 0;
    const Solution plan = solve(
        problem, {.seconds = 20, .effort = 1}, {},
        [&](const Progress& p) { first = p.plan == 1 ? p.cost : first; }, &careful);
    CHECK(first <= careful.cost);
    CHECK(plan.cost <= careful.cost);
    if (careful.cuts.empty()) continue;
    Solution broken = careful;
    broken.cuts[0].times += problem.stock[static_cast<std::size_t>(broken.cuts[0].stock)].copies;
    CHECK_THROWS_AS(solve(problem, {}, {}, {}, &broken), std::invalid_argument);
  }
}

TEST_CASE("what an older pricing allows is a bound at other multipliers") {
  int risen = 0;
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    Draw draw(seed + 1000000);
    Problem problem = randomShop(draw, {{14, 7, 4}, 1, 4});
    const Stock& stock = problem.stock[0];
    Pricer pricer(problem, stock);
    const auto multipliers = [&] {
      std::vector<Worth> unit;
      for (const Item& item : problem.items) unit.push_back(draw(0, 9) * item.length * item.width);
      return unit;
    };
    const Caps caps = draw.oneIn(2) ? Caps::keep : Caps::drop;
    const std::vector<Worth> then = multipliers(), now = multipliers();
    const Best old = pricer.best(pricesAt(problem, then), {.caps = caps});
    const Best fresh = pricer.best(pricesAt(problem, now), {.caps = caps});
    INFO("seed " << seed);
    CHECK(carriedBound(problem, stock, {then, old.upperBound}, now, caps) >= fresh.value);
    if (fresh.value > old.upperBound) ++risen;
  }
  CHECK(risen > 300);  // else the old figure alone would do
}
