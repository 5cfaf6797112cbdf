#include "optimizer/recipes.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {

std::int64_t mostTimes(const Problem& problem, const Recipe& recipe) {
  return std::max<std::int64_t>(0, problem.needs[index(recipe.makes)].amount);
}

std::vector<std::int64_t> wanted(const Problem& problem) {
  std::vector<std::int64_t> units;
  for (const Need& need : problem.needs) units.push_back(need.amount);
  for (const Recipe& recipe : problem.recipes)
    for (const Supply& use : recipe.uses)
      units[index(use.need)] += use.amount * mostTimes(problem, recipe);
  for (std::int64_t& most : units) most = std::max<std::int64_t>(0, most);
  return units;
}

Wide reducedCost(const Recipe& recipe, std::span<const Worth> unit, int bits) {
  Wide sum = (Wide{recipe.cost} << bits) - unit[index(recipe.makes)];
  for (const Supply& use : recipe.uses) sum += Wide{use.amount} * unit[index(use.need)];
  return sum;
}

Making makeFrom(const Problem& problem, std::span<const std::int64_t> supplied) {
  Making made;
  made.times.assign(problem.recipes.size(), 0);
  std::vector<std::int64_t> firm(problem.recipes.size(), 0);  // times with nothing bought
  std::vector<std::int64_t> lack;                             // below zero: left over
  for (std::size_t n = 0; n < supplied.size(); ++n)
    lack.push_back(problem.needs[n].amount - supplied[n]);
  // What one more costs, what has to be bought for it included.
  const auto next = [&](const Recipe& recipe) {
    Worth cost = recipe.cost;
    for (const Supply& use : recipe.uses) {
      const std::int64_t have = std::max<std::int64_t>(0, -lack[index(use.need)]);
      cost +=
          std::max<std::int64_t>(0, use.amount - have) * problem.needs[index(use.need)].shortage;
    }
    return cost;
  };
  for (std::size_t n = 0; n < lack.size(); ++n) {
    while (lack[n] > 0) {
      std::size_t best = problem.recipes.size();
      Worth least = problem.needs[n].shortage;
      for (std::size_t r = 0; r < problem.recipes.size(); ++r) {
        if (index(problem.recipes[r].makes) != n) continue;
        if (const Worth cost = next(problem.recipes[r]); cost < least) {
          least = cost;
          best = r;
        }
      }
      if (best == problem.recipes.size()) break;
      bool bought = false;
      for (const Supply& use : problem.recipes[best].uses) {
        std::int64_t& left = lack[index(use.need)];
        left += use.amount;
        bought = bought || left > 0;
      }
      if (!bought) ++firm[best];
      made.cost += problem.recipes[best].cost;
      ++made.times[best];
      --lack[n];
    }
  }
  // Of use is what takes the place of anything bought.
  for (std::size_t n = 0; n < lack.size(); ++n)
    made.useful.push_back(problem.needs[n].amount - supplied[n]);
  for (std::size_t r = 0; r < firm.size(); ++r)
    made.useful[index(problem.recipes[r].makes)] -= firm[r];
  for (std::size_t r = 0; r < firm.size(); ++r)
    for (const Supply& use : problem.recipes[r].uses)
      made.useful[index(use.need)] +=
          use.amount *
          (firm[r] + std::max<std::int64_t>(0, made.useful[index(problem.recipes[r].makes)]));
  for (std::size_t n = 0; n < lack.size(); ++n) {
    made.missing.push_back(std::max<std::int64_t>(0, lack[n]));
    made.useful[n] = std::max<std::int64_t>(0, made.useful[n]);
    made.cost += made.missing[n] * problem.needs[n].shortage;
  }
  return made;
}

}  // namespace flitch::optimizer
