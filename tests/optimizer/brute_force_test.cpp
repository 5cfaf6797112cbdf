// Whole small shops against brute force: all that every board can supply, all ways of choosing.
#include <catch2/catch.hpp>

#include "optimizer/solve.h"
#include "tests/optimizer/plan_faults.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

TEST_CASE("three boards and four kinds of blank: what is closed is what brute force finds") {
  constexpr int shops = 40;
  int closed = 0, same = 0;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + 1200000);
    Problem problem = randomShop(draw, {{7, 4, 4}, 3, 2});
    dropGifts(problem);
    const Worth optimum = slow::bestShop(problem);
    const Solution solution = solve(problem, {.seconds = 20, .effort = 200000});
    INFO("seed " << seed);
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
    CHECK(solution.bound <= optimum);
    CHECK(optimum <= solution.cost);
    if (solution.bound == solution.cost) ++closed;
    if (solution.cost == optimum) ++same;
  }
  WARN(closed << " of " << shops << " shops closed, " << same << " planned at least cost");
  CHECK(closed > shops / 2);
  CHECK(same > shops * 9 / 10);
}
