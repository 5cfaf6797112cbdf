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

TEST_CASE("best pattern within caps equals a listing of all counts") {
  int binding = 0;
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    Draw draw(seed + 100000);
    const Problem problem = randomBoard(draw, {10, 6, 3});
    std::vector<Priced> priced = randomPrices(draw, problem);
    for (Priced& p : priced) {
      p.value *= 3;
      p.cap = draw(0, 2);
    }
    const Stock& stock = problem.stock[0];
    const Best best = bestPattern(problem, stock, priced);
    INFO("seed " << seed);
    CHECK(best.value == slow::bestByListing(problem, stock, priced));
    CHECK(best.upperBound == best.value);
    CHECK(best.capsKept);
    CHECK(faults(best.pattern, problem, stock) == std::vector<std::string>{});
    CHECK(worthOf(best.pattern, priced, problem, stock) == best.value);
    const Best free = bestPattern(problem, stock, priced, Caps::drop);
    CHECK(free.upperBound >= best.value);
    if (free.value > best.value) ++binding;
  }
  CHECK(binding > 50);  // else the test shows nothing
}

TEST_CASE("the best of a bar is the best of all counts of its pieces") {
  int binding = 0;
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Draw draw(seed + 150000);
    Problem problem;
    problem.saw = {draw(0, 2), draw(0, 2), draw(0, 3), draw(0, 3), 2, FirstCut::x, false};
    Stock stock;
    stock.profile = Profile::rectangle(draw(8, 30), 2);
    std::vector<Priced> priced;
    const int kinds = draw(1, 3);
    for (int i = 0; i < kinds; ++i) {
      problem.items.push_back({draw(2, 9), 2, i});
      problem.needs.push_back({draw(1, 5), 0});
      stock.itemClass.push_back(0);
      priced.push_back({i, draw(0, 30), draw(0, 5)});
    }
    problem.stock.push_back(stock);
    // All counts, one kind after another.
    const auto most = [&](auto&& self, std::size_t i, Tick room, bool caps) -> Worth {
      if (i == priced.size()) return 0;
      const Tick size = problem.items[i].length + problem.saw.kerfX;
      Worth best = 0;
      for (int n = 0; n * size <= room && (!caps || n <= priced[i].cap); ++n)
        best = std::max(best, n * (priced[i].value - problem.saw.crosscut - problem.saw.rip) +
                                  self(self, i + 1, room - n * size, caps));
      return best;
    };
    const Tick room = stock.profile.length() + problem.saw.kerfX;
    for (const Caps caps : {Caps::keep, Caps::drop}) {
      const Best best = bestPattern(problem, problem.stock[0], priced, caps);
      INFO("seed " << seed);
      CHECK(best.value == most(most, 0, room, caps == Caps::keep));
      CHECK(best.upperBound == best.value);
      CHECK((caps == Caps::drop || best.capsKept));
      CHECK(faults(best.pattern, problem, problem.stock[0]) == std::vector<std::string>{});
      CHECK(worthOf(best.pattern, priced, problem, problem.stock[0]) == best.value);
      if (!best.capsKept) ++binding;
    }
  }
  CHECK(binding > 50);  // else the test shows nothing
}

TEST_CASE("a floor cuts work and keeps the bound") {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Draw draw(seed + 200000);
    const Problem problem = randomBoard(draw, {20, 9, 4});
    const std::vector<Priced> priced = randomPrices(draw, problem);
    Pricer pricer(problem, problem.stock[0]);
    const Worth best = pricer.best(priced, {}).value;
    const Worth floor = best - draw(-5, 5);
    const Best above = pricer.best(priced, {.floor = floor});
    INFO("seed " << seed);
    CHECK(above.upperBound >= best);
    if (floor < best) CHECK(above.value == best);
    CHECK(pricer.bound(priced) >= best);
    const Best quick = pricer.best(priced, {.reach = Reach::quick});
    CHECK(quick.value <= best);
    CHECK(quick.upperBound >= best);
    CHECK(faults(quick.pattern, problem, problem.stock[0]).empty());
    CHECK(worthOf(quick.pattern, priced, problem, problem.stock[0]) == quick.value);
  }
}
