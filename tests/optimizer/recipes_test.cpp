// Recipes: the cheapest making by hand and against trying all, and whole shops with them.
#include <catch2/catch.hpp>

#include "optimizer/baselines.h"
#include "optimizer/recipes.h"
#include "optimizer/solve.h"
#include "tests/optimizer/plan_faults.h"
#include "tests/optimizer/random_boards.h"

using namespace flitch::optimizer;

namespace {

/// Least cost of meeting the needs from `supplied`, trying every number of every recipe.
Worth byTrying(const Problem& problem, const std::vector<std::int64_t>& supplied,
               std::vector<std::int64_t>& times) {
  if (times.size() < problem.recipes.size()) {
    Worth least = std::numeric_limits<Worth>::max();
    const Recipe& recipe = problem.recipes[times.size()];
    const std::int64_t most = problem.needs[static_cast<std::size_t>(recipe.makes)].amount;
    for (std::int64_t t = 0; t <= most; ++t) {
      times.push_back(t);
      least = std::min(least, byTrying(problem, supplied, times));
      times.pop_back();
    }
    return least;
  }
  std::vector<std::int64_t> have = supplied;
  Worth cost = 0;
  for (std::size_t r = 0; r < times.size(); ++r) {
    const Recipe& recipe = problem.recipes[r];
    cost += times[r] * recipe.cost;
    have[static_cast<std::size_t>(recipe.makes)] += times[r];
    for (const Supply& use : recipe.uses)
      have[static_cast<std::size_t>(use.need)] -= times[r] * use.amount;
  }
  for (std::size_t n = 0; n < have.size(); ++n)
    cost +=
        std::max<std::int64_t>(0, problem.needs[n].amount - have[n]) * problem.needs[n].shortage;
  return cost;
}

/// Two tops, each a 24 in wide board or a panel of 24 in of stave width.
Problem tops() {
  Problem problem;
  problem.needs = {{2, 1000}, {0, 30}};
  problem.items = {{40, 24, 0}, {40, 5, 1, 5}, {40, 7, 1, 7}};
  problem.recipes = {{50, {{1, 24}}, 0}};
  return problem;
}

Stock board(Tick width, Worth cost) {
  Stock stock;
  stock.cost = cost;
  stock.profile = Profile::rectangle(40, width);
  stock.itemClass = {0, 0, 0};
  return stock;
}

}  // namespace

TEST_CASE("a panel is made as often as its staves and the price of more of them allow") {
  const Problem problem = tops();
  // 30 in of staves: one panel from them; for the other 18 in are bought at 30 each and 50 for
  // gluing, 590, which is less than a missing top.
  const Making made = makeFrom(problem, std::vector<std::int64_t>{0, 30});
  CHECK(made.times == std::vector<std::int64_t>{2});
  CHECK(made.missing == std::vector<std::int64_t>{0, 18});
  CHECK(made.useful == std::vector<std::int64_t>{1, 18});
  CHECK(made.cost == 2 * 50 + 18 * 30);
  // Staves at 40: 24 of them and the gluing are 1010, dearer than a missing top; 18 are 770.
  Problem dear = problem;
  dear.needs[1].shortage = 40;
  const Making partly = makeFrom(dear, std::vector<std::int64_t>{0, 6});
  CHECK(partly.times == std::vector<std::int64_t>{1});
  CHECK(partly.missing == std::vector<std::int64_t>{1, 18});
  CHECK(partly.useful == std::vector<std::int64_t>{2, 42});
  CHECK(partly.cost == 50 + 18 * 40 + 1000);
  CHECK(wanted(problem) == std::vector<std::int64_t>{2, 48});
}

TEST_CASE("a wide board or a panel: the cheaper way at the price where it should turn") {
  // By hand: a 24 in board against boards of 14 in
  // (two staves of 7) and 10 in (two of 5): 24 in of stave width and 50 for gluing.
  for (const Worth narrow : {Worth{100}, Worth{124}, Worth{126}, Worth{200}}) {
    Problem problem = tops();
    problem.needs[0].amount = 1;
    problem.stock = {board(24, 300), board(14, narrow), board(10, narrow)};
    const Solution plan = solve(problem, {.seconds = 20});
    INFO("narrow boards at " << narrow);
    CHECK(faultsOf(plan, problem) == std::vector<std::string>{});
    const Worth panel = 2 * narrow + 50;
    CHECK(plan.cost == std::min<Worth>(300, panel));
    CHECK(plan.bound == plan.cost);
    CHECK(plan.recipes.size() == (panel < 300 ? 1U : 0U));
  }
}

TEST_CASE("the cheapest making is what trying all ways finds") {
  for (std::uint64_t seed = 1; seed <= 2000; ++seed) {
    Draw draw(seed + 1300000);
    Problem problem;
    const int finals = draw(1, 2), recipes = draw(1, 3);
    for (int n = 0; n < finals; ++n) problem.needs.push_back({draw(0, 4), draw(0, 100)});
    for (int r = 0; r < recipes; ++r) {
      Recipe recipe{draw(0, 40), {}, draw(0, finals - 1)};
      for (int u = draw(1, 2); u > 0; --u) {
        recipe.uses.push_back({static_cast<int>(problem.needs.size()), draw(1, 5)});
        problem.needs.push_back({draw(-4, 0), draw(0, 20)});
      }
      problem.recipes.push_back(recipe);
    }
    std::vector<std::int64_t> supplied;
    for (std::size_t n = 0; n < problem.needs.size(); ++n) supplied.push_back(draw(0, 8));
    std::vector<std::int64_t> none;
    INFO("seed " << seed);
    CHECK(makeFrom(problem, supplied).cost == byTrying(problem, supplied, none));
  }
}

TEST_CASE("recipes that contradict themselves are refused by name") {
  const auto refusal = [](const Problem& problem) -> std::string {
    try {
      validate(problem);
    } catch (const std::invalid_argument& error) {
      return error.what();
    }
    return {};
  };
  const auto broken = [&](auto change) {
    Problem problem = tops();
    change(problem);
    return refusal(problem);
  };
  CHECK(refusal(tops()).empty());
  CHECK(broken([](Problem& p) { p.recipes[0].cost = -1; }) == "recipes[0].cost: is below zero");
  CHECK(broken([](Problem& p) { p.recipes[0].makes = 2; }) ==
        "recipes[0].makes: is no index of a need");
  CHECK(broken([](Problem& p) { p.recipes[0].uses.clear(); }) == "recipes[0].uses: is empty");
  CHECK(broken([](Problem& p) { p.recipes[0].uses[0].need = -1; }) ==
        "recipes[0].uses[0].need: is no index of a need");
  CHECK(broken([](Problem& p) { p.recipes[0].uses[0].amount = 0; }) ==
        "recipes[0].uses[0].amount: must be above zero");
  CHECK(broken([](Problem& p) { p.recipes.push_back(p.recipes[0]); }) ==
        "recipes[1].uses[0].need: is used by another recipe or twice");
  CHECK(broken([](Problem& p) { p.needs[1].amount = 3; }) ==
        "recipes[0].uses[0].need: is wanted for itself too");
  CHECK(broken([](Problem& p) { p.recipes[0].makes = 1; }) ==
        "recipes[0].makes: is used by a recipe");
}

TEST_CASE("the hurried hand makes by the first recipe what no board gives by itself") {
  Problem problem = tops();
  problem.items.erase(problem.items.begin());
  for (Item& item : problem.items) item.need = 1;
  problem.needs[0].amount = 1;
  problem.stock = {board(24, 300)};
  problem.stock[0].itemClass = {0, 0};
  const Solution plan = handRule(problem);
  // Five staves of 5 in would be 25 in wide: four fit, and one of 7 is too wide for what is left.
  CHECK(faultsOf(plan, problem) == std::vector<std::string>{});
  REQUIRE(plan.recipes.size() == 1);
  CHECK(plan.shortages == std::vector<Shortage>{{1, 4}});
}
