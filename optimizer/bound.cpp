#include "optimizer/bound.h"

#include <algorithm>

#include "optimizer/wide.h"

namespace flitch::optimizer {

Worth lagrangian(const Problem& problem, std::span<const Worth> unit, std::span<const Worth> z) {
  Wide sum = 0;
  for (std::size_t n = 0; n < problem.needs.size(); ++n)
    sum += Wide{problem.needs[n].amount} * unit[n];
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    const Stock& stock = problem.stock[s];
    const Worth reduced = stock.cost - z[s];
    sum += Wide{stock.least} * reduced +
           Wide{stock.copies - stock.least} * std::min<Worth>(0, reduced);
  }
  return static_cast<Worth>(sum);
}

std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit) {
  std::vector<Priced> prices;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    const Worth value = unit[static_cast<std::size_t>(item.need)] * item.supplies - item.extra;
    if (value > 0) prices.push_back({static_cast<int>(i), value});
  }
  return prices;
}

}  // namespace flitch::optimizer
