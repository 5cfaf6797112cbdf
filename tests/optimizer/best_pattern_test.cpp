#include "optimizer/best_pattern.h"

#include <catch2/catch.hpp>

#include "optimizer/pricer.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

namespace {

std::vector<Priced> randomPrices(Draw& draw, const Problem& problem) {
  std::vector<Priced> priced;
  for (std::size_t i = 0; i < problem.items.size(); ++i)
    priced.push_back(
        {static_cast<int>(i),
         draw.oneIn(8) ? 0 : draw(1, 12) * problem.items[i].length * problem.items[i].width / 2});
  return priced;
}

Worth worthOf(const Pattern& pattern, const std::vector<Priced>& priced, const Problem& problem,
              const Stock& stock) {
  std::vector<Worth> values(problem.items.size(), 0);
  for (const Priced& p : priced) values[static_cast<std::size_t>(p.item)] = p.value;
  return worthOf(pattern, values, problem, stock);
}

}  // namespace

TEST_CASE("best pattern equals a shortest path through all positions") {
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    Draw draw(seed);
    Problem problem = randomBoard(draw, {14, 7, 4});
    problem.saw.stages = draw(2, 3);
    if (problem.saw.stages == 3 || problem.stock[0].offcuts.bands.empty())
      problem.saw.trim = draw.oneIn(5);
    const std::vector<Priced> priced = randomPrices(draw, problem);
    const Best best = bestPattern(problem, problem.stock[0], priced);
    INFO("seed " << seed << ", stages " << problem.saw.stages << ", trim " << problem.saw.trim
                 << ", first " << static_cast<int>(problem.saw.first));
    REQUIRE_NOTHROW(validate(problem));
    CHECK(best.value == slow::bestByGraph(problem, problem.stock[0], priced));
    CHECK(best.upperBound == best.value);
    CHECK(faults(best.pattern, problem, problem.stock[0]) == std::vector<std::string>{});
    CHECK(worthOf(best.pattern, priced, problem, problem.stock[0]) == best.value);
  }
}
