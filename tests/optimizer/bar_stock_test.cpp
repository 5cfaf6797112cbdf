#include "optimizer/bar_stock.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <limits>
#include <map>
#include <stdexcept>

#include "optimizer/knapsack.h"
#include "tests/optimizer/draw.h"
#include "tests/optimizer/plan_faults.h"

using namespace flitch::optimizer;

namespace {

/// The least cost of what is left, all ways of cutting the next bar tried.
class EveryWay {
 public:
  explicit EveryWay(const BarProblem& problem) : problem_(problem) {}
  Worth cost(const std::vector<std::int64_t>& left) {
    if (std::all_of(left.begin(), left.end(), [](std::int64_t n) { return n == 0; })) return 0;
    const auto [known, fresh] = known_.try_emplace(left, 0);
    if (!fresh) return known->second;
    Worth least = std::numeric_limits<Worth>::max();
    for (const BarStock& bar : problem_.bars)
      cut(left, 0, bar.length + problem_.kerf, false, [&](const std::vector<std::int64_t>& rest) {
        least = std::min(least, bar.cost + cost(rest));
      });
    return known_[left] = least;
  }

 private:
  template <class Then>
  void cut(const std::vector<std::int64_t>& left, std::size_t need, Tick room, bool any,
           const Then& then) {
    if (need == left.size()) {
      if (any) then(left);
      return;
    }
    const Tick size = problem_.needs[need].length + problem_.kerf;
    std::vector<std::int64_t> rest = left;
    for (Tick used = 0; used <= room && rest[need] >= 0; used += size, --rest[need])
      cut(rest, need + 1, room - used, any || used > 0, then);
  }

  const BarProblem& problem_;
  std::map<std::vector<std::int64_t>, Worth> known_;
};

BarProblem randomBars(Draw& draw) {
  BarProblem problem;
  problem.kerf = draw(0, 2);
  const int bars = draw(1, 3), needs = draw(1, 4);
  for (int b = 0; b < bars; ++b) problem.bars.push_back({draw(20, 40), draw(3, 12)});
  for (int n = 0; n < needs; ++n) problem.needs.push_back({draw(3, 20), draw(1, 3)});
  return problem;
}

}  // namespace

TEST_CASE("bars of several lengths, with kerf, beside every way of cutting them") {
  constexpr BarLimits brief{2'000'000};
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    Draw draw(seed + 700000);
    const BarProblem problem = randomBars(draw);
    std::vector<std::int64_t> all;
    for (const BarNeed& need : problem.needs) all.push_back(need.amount);
    const Worth least = EveryWay(problem).cost(all);
    const BarSolution solution = cutBars(problem, brief);
    INFO("seed " << seed);
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
    CHECK(solution.cost == least);
    CHECK(solution.bound == least);
  }
}

TEST_CASE("the same limits and seed give the same bars, and a stop still gives all pieces") {
  Draw draw(7);
  BarProblem problem{{{1000, 10}, {700, 8}}, {}, 3};
  for (int n = 0; n < 30; ++n) problem.needs.push_back({draw(90, 600), draw(1, 9)});
  const BarSolution once = cutBars(problem, {3'000'000});
  const BarSolution twice = cutBars(problem, {3'000'000});
  CHECK(once.cuttings == twice.cuttings);
  CHECK(once.bound == twice.bound);
  std::stop_source stopped;
  stopped.request_stop();
  const BarSolution first = cutBars(problem, {}, stopped.get_token());
  CHECK(faultsOf(first, problem) == std::vector<std::string>{});
  CHECK(first.bound <= once.cost);
  CHECK(first.cost >= once.cost);
}

TEST_CASE("what cannot be a problem of bars is refused") {
  const auto refused = [](const BarProblem& problem) {
    CHECK_THROWS_AS(cutBars(problem), std::invalid_argument);
  };
  refused({{}, {{3, 1}}, 0});
  refused({{{10, 1}}, {{11, 1}}, 0});
  refused({{{10, 0}}, {{3, 1}}, 0});
  refused({{{10, 1}}, {{3, 0}}, 0});
  refused({{{10, 1}}, {{3, 1}}, -1});
  CHECK(cutBars({{{10, 1}}, {}, 0}).cost == 0);
}

TEST_CASE("a knapsack is the same by programme, by search and by trying every count") {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    Draw draw(seed + 800000);
    std::vector<Packable> items;
    const int kinds = draw(1, 4);
    for (int i = 0; i < kinds; ++i) items.push_back({draw(1, 9), draw(1, 30), draw(0, 4)});
    const std::int64_t room = draw(0, 30);
    const auto most = [&](auto&& self, std::size_t i, std::int64_t left) -> Worth {
      if (i == items.size()) return 0;
      Worth best = 0;
      for (std::int64_t n = 0; n <= items[i].most && n * items[i].size <= left; ++n)
        best = std::max(best, n * items[i].worth + self(self, i + 1, left - n * items[i].size));
      return best;
    };
    const Worth best = most(most, 0, room);
    Packing packing;
    REQUIRE(packing.fill(items, 30));
    const FoundPacking found = searchPacking(items, room, 100'000);
    INFO("seed " << seed);
    CHECK(packing.most(static_cast<std::size_t>(room)) == best);
    CHECK(found.whole);
    CHECK(found.worth == best);
    CHECK(found.bound == best);
    for (const auto& copies : {packing.copies(static_cast<std::size_t>(room)), found.copies}) {
      std::int64_t size = 0;
      Worth worth = 0;
      for (std::size_t i = 0; i < items.size(); ++i) {
        CHECK(copies[i] <= items[i].most);
        size += copies[i] * items[i].size;
        worth += copies[i] * items[i].worth;
      }
      CHECK(size <= room);
      CHECK(worth == best);
    }
  }
}
