#include <catch2/catch.hpp>

#include "optimizer/solve.h"
#include "tests/optimizer/random_boards.h"

using namespace flitch::optimizer;

namespace {

void checkSame(const Solution& a, const Solution& b) {
  CHECK(a.cost == b.cost);
  CHECK(a.bound == b.bound);
  CHECK(a.boundKind == b.boundKind);
  CHECK(a.ending == b.ending);
  CHECK(a.statistics.effort == b.statistics.effort);
  CHECK(a.statistics.priced == b.statistics.priced);
  CHECK(a.statistics.nodes == b.statistics.nodes);
  CHECK(a.shortages == b.shortages);
  REQUIRE(a.cuts.size() == b.cuts.size());
  for (std::size_t c = 0; c < a.cuts.size(); ++c) {
    CHECK(a.cuts[c].stock == b.cuts[c].stock);
    CHECK(a.cuts[c].times == b.cuts[c].times);
    CHECK(a.cuts[c].pattern == b.cuts[c].pattern);
  }
}

/// Two woods side by side, so that there is more than one component.
Problem twoWoods(Draw& draw) {
  Problem problem = randomShop(draw, {{40, 12, 8}, 10, 10});
  const std::size_t half = problem.items.size() / 2;
  for (std::size_t s = 0; s < problem.stock.size(); ++s)
    for (std::size_t i = 0; i < problem.items.size(); ++i)
      if ((s % 2 == 0) != (i < half)) problem.stock[s].itemClass[i] = noClass;
  return problem;
}

}  // namespace

TEST_CASE("same problem, seed and effort on one and on two threads: same solution") {
  int shortOfClosed = 0;
  for (std::uint64_t seed = 1; seed <= 10; ++seed) {
    Draw draw(seed + 1300000);
    const Problem problem =
        draw.oneIn(2) ? twoWoods(draw) : randomShop(draw, {{40, 12, 8}, 10, 10});
    Limits limits{.seconds = 100, .effort = 30000, .seed = 3, .threads = 1};
    const Solution one = solve(problem, limits);
    limits.threads = 2;
    INFO("seed " << seed);
    const Solution two = solve(problem, limits), again = solve(problem, limits);
    checkSame(one, two);
    checkSame(two, again);
    if (one.ending == Ending::effortSpent) ++shortOfClosed;
  }
  CHECK(shortOfClosed > 4);  // else effort was never what ended a search
}
