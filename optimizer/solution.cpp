#include "optimizer/solution.h"

#include <algorithm>
#include <cstdio>
#include <limits>

namespace flitch::optimizer {

namespace {

constexpr const char* cheapest = "This is the cheapest way of cutting.";

}  // namespace

Worth costOf(const Solution& solution, const Problem& problem) {
  Worth sum = 0;
  for (const StockCut& cut : solution.cuts)
    sum +=
        cut.times * cost(cut.pattern, problem, problem.stock[static_cast<std::size_t>(cut.stock)]);
  for (const RecipeUse& use : solution.recipes)
    sum += use.times * problem.recipes[static_cast<std::size_t>(use.recipe)].cost;
  for (const Shortage& shortage : solution.shortages)
    sum += shortage.amount * problem.needs[static_cast<std::size_t>(shortage.need)].shortage;
  return sum;
}

Gap gap(Worth cost, Worth bound) {
  Gap result;
  result.absolute = std::max<Worth>(0, cost - bound);
  if (result.absolute > 0)
    result.relative = cost > 0 ? static_cast<double>(result.absolute) / static_cast<double>(cost)
                               : std::numeric_limits<double>::infinity();
  return result;
}

std::string sentence(Worth cost, Worth bound, BoundKind kind, const std::string& costText,
                     const std::string& openText) {
  if (kind == BoundKind::none) return "Best so far " + costText + "; not proved yet.";
  if (gap(cost, bound).absolute == 0) return cheapest;
  return "Best so far " + costText + "; no way of cutting can save more than " + openText + ".";
}

std::string claim(Worth cost, Worth bound, BoundKind kind, const std::string& openText) {
  if (kind == BoundKind::none) return "Not proved yet.";
  const Gap open = gap(cost, bound);
  if (open.absolute == 0) return cheapest;
  std::string share;
  if (cost > 0) {
    char text[32];
    std::snprintf(text, sizeof text, " (%.1f %%)", 100 * open.relative);
    share = text;
  }
  return "No plan that these cutting rules, grid, stock and marks allow can save more than " +
         openText + share + ".";
}

}  // namespace flitch::optimizer
