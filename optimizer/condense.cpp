#include "optimizer/condense.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <tuple>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

/// Equal but for how many there are.
bool alike(const Stock& a, const Stock& b) {
  return a.cost == b.cost && a.profile == b.profile && a.zones == b.zones &&
         a.itemClass == b.itemClass && a.offcuts == b.offcuts && a.first == b.first &&
         a.fixed == b.fixed;
}

/// The coarsest units of each need in which all that has to do with it is whole.
std::vector<std::int64_t> unitsOf(const Problem& problem) {
  std::vector<std::int64_t> units;
  for (const Need& need : problem.needs) units.push_back(need.amount);
  const auto take = [&](int need, std::int64_t amount) {
    units[index(need)] = std::gcd(units[index(need)], amount);
  };
  for (const Item& item : problem.items) take(item.need, item.supplies);
  for (const Recipe& recipe : problem.recipes) {
    take(recipe.makes, 1);
    for (const Supply& use : recipe.uses) take(use.need, use.amount);
  }
  for (std::int64_t& unit : units) unit = std::max<std::int64_t>(1, unit);
  return units;
}

}  // namespace

Condensed condense(const Problem& whole) {
  Condensed small{{whole.saw, {}, whole.needs, whole.items, whole.recipes}, {}, unitsOf(whole)};
  for (std::size_t n = 0; n < small.units.size(); ++n) {
    small.problem.needs[n].amount /= small.units[n];
    small.problem.needs[n].shortage *= small.units[n];
  }
  for (Item& item : small.problem.items) item.supplies /= small.units[index(item.need)];
  for (Recipe& recipe : small.problem.recipes)
    for (Supply& use : recipe.uses) use.amount /= small.units[index(use.need)];

  std::map<std::tuple<Worth, std::size_t, Tick, std::size_t>, std::vector<int>> bySize;
  for (const Stock& stock : whole.stock) {
    std::vector<int>& same = bySize[{stock.cost, stock.profile.low.size(), stock.profile.width(),
                                     stock.zones.front().size()}];
    const auto found = std::find_if(same.begin(), same.end(), [&](int other) {
      return alike(stock, small.problem.stock[index(other)]);
    });
    if (found != same.end()) {
      small.stockOf.push_back(*found);
      small.problem.stock[index(*found)].copies += stock.copies;
      small.problem.stock[index(*found)].least += stock.least;
      continue;
    }
    small.stockOf.push_back(static_cast<int>(small.problem.stock.size()));
    same.push_back(small.stockOf.back());
    small.problem.stock.push_back(stock);
  }
  return small;
}

Solution expand(const Solution& solution, const Condensed& condensed, const Problem& whole) {
  std::vector<std::vector<int>> copies(condensed.problem.stock.size());
  for (const bool forced : {true, false})
    for (std::size_t s = 0; s < whole.stock.size(); ++s) {
      const Stock& stock = whole.stock[s];
      std::vector<int>& list = copies[index(condensed.stockOf[s])];
      list.insert(list.end(), index(forced ? stock.least : stock.copies - stock.least),
                  static_cast<int>(s));
    }
  Solution made = solution;
  made.cuts.clear();
  std::vector<std::size_t> next(copies.size(), 0);
  for (const StockCut& cut : solution.cuts)
    for (int copy = 0; copy < cut.times; ++copy) {
      const int stock = copies[index(cut.stock)][next[index(cut.stock)]++];
      if (copy > 0 && made.cuts.back().stock == stock)
        ++made.cuts.back().times;
      else
        made.cuts.push_back({stock, 1, cut.pattern});
    }
  std::stable_sort(made.cuts.begin(), made.cuts.end(),
                   [](const StockCut& a, const StockCut& b) { return a.stock < b.stock; });
  for (Shortage& shortage : made.shortages)
    shortage.amount *= condensed.units[index(shortage.need)];
  return made;
}

}  // namespace flitch::optimizer
