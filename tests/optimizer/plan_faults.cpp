#include "tests/optimizer/plan_faults.h"

namespace flitch::optimizer {

std::vector<std::string> faultsOf(const Solution& solution, const Problem& problem) {
  std::vector<std::string> all;
  const auto require = [&](bool holds, const char* broken) {
    if (!holds) all.push_back(broken);
  };
  require(solution.cost == costOf(solution, problem), "the cost is not the sum of its parts");
  require(solution.boundKind == BoundKind::none || solution.bound <= solution.cost,
          "the bound is above the cost");
  std::vector<std::int64_t> units(problem.needs.size(), 0);
  std::vector<int> used(problem.stock.size(), 0);
  int last = 0;
  for (const StockCut& cut : solution.cuts) {
    const auto s = static_cast<std::size_t>(cut.stock);
    for (const std::string& fault : faults(cut.pattern, problem, problem.stock[s]))
      all.push_back("stock " + std::to_string(cut.stock) + ": " + fault);
    require(cut.times > 0, "a board is cut no times");
    require(cut.stock >= last, "boards are not in order of stock");
    last = cut.stock;
    used[s] += cut.times;
    const std::vector<std::int64_t> own = supplies(cut.pattern, problem);
    for (std::size_t n = 0; n < own.size(); ++n) units[n] += cut.times * own[n];
  }
  for (std::size_t s = 0; s < used.size(); ++s) {
    require(used[s] <= problem.stock[s].copies, "a board is used more often than there is of it");
    require(used[s] >= problem.stock[s].least, "a board that must be opened is not");
  }
  for (const RecipeUse& use : solution.recipes) {
    const Recipe& recipe = problem.recipes[static_cast<std::size_t>(use.recipe)];
    require(use.times > 0, "a recipe is made no times, and it is said to be");
    units[static_cast<std::size_t>(recipe.makes)] += use.times;
    for (const Supply& supply : recipe.uses)
      units[static_cast<std::size_t>(supply.need)] -= use.times * supply.amount;
  }
  for (const Shortage& shortage : solution.shortages) {
    require(shortage.amount > 0, "nothing is short, and it is said to be");
    units[static_cast<std::size_t>(shortage.need)] += shortage.amount;
  }
  for (std::size_t n = 0; n < units.size(); ++n)
    require(units[n] >= problem.needs[n].amount, "a need is neither met nor short");
  return all;
}

std::vector<std::string> faultsOf(const BarSolution& solution, const BarProblem& problem) {
  std::vector<std::string> faults;
  std::vector<std::int64_t> given(problem.needs.size(), 0);
  Worth cost = 0;
  for (const BarCutting& cutting : solution.cuttings) {
    const BarStock& bar = problem.bars[static_cast<std::size_t>(cutting.bar)];
    std::int64_t used = -problem.kerf;
    for (std::size_t n = 0; n < given.size(); ++n) {
      used += cutting.pieces[n] * (problem.needs[n].length + problem.kerf);
      given[n] += cutting.pieces[n] * cutting.times;
    }
    if (used > bar.length) faults.emplace_back("a bar is too short");
    cost += bar.cost * cutting.times;
  }
  for (std::size_t n = 0; n < given.size(); ++n)
    if (given[n] != problem.needs[n].amount) faults.emplace_back("the pieces");
  if (cost != solution.cost) faults.emplace_back("the cost");
  if (solution.bound > solution.cost) faults.emplace_back("the bound");
  return faults;
}

}  // namespace flitch::optimizer
