#include "optimizer/components.h"

#include <algorithm>
#include <boost/graph/adjacency_list.hpp>
#include <boost/graph/connected_components.hpp>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

bool fits(const Item& item, int cls, const Stock& stock) {
  return cls != noClass && item.length <= stock.profile.length() &&
         item.width <= stock.profile.width();
}

/// Opening it can never pay: nothing fits, it need not be opened, and the whole of it as one offcut
/// (the most offcuts alone can be worth) does not bring back its cost.
bool idle(const Stock& stock, const Problem& problem) {
  for (std::size_t i = 0; i < problem.items.size(); ++i)
    if (fits(problem.items[i], stock.itemClass[i], stock)) return false;
  return stock.least == 0 &&
         stock.offcuts.worth(stock.profile.length(), stock.profile.width()) <= stock.cost;
}

/// Weakest first.
int strength(BoundKind kind) { return static_cast<int>(kind); }

/// Worst first: stopped, effort spent, time up, good enough, closed.
int goodness(Ending ending) {
  switch (ending) {
    case Ending::stopped: return 0;
    case Ending::effortSpent: return 1;
    case Ending::timeUp: return 2;
    case Ending::goodEnough: return 3;
    case Ending::closed: return 4;
  }
  return 0;
}

}  // namespace

std::vector<Component> split(const Problem& problem) {
  using Graph = boost::adjacency_list<boost::vecS, boost::vecS, boost::undirectedS>;
  const std::size_t needs = problem.needs.size(), items = problem.items.size();
  const std::size_t recipes = problem.recipes.size();
  const std::size_t firstItem = needs, firstRecipe = needs + items;
  const std::size_t firstStock = firstRecipe + recipes;
  Graph graph(firstStock + problem.stock.size());
  for (std::size_t i = 0; i < items; ++i)
    boost::add_edge(firstItem + i, index(problem.items[i].need), graph);
  for (std::size_t r = 0; r < recipes; ++r) {
    for (const Supply& supply : problem.recipes[r].uses)
      boost::add_edge(firstRecipe + r, index(supply.need), graph);
    boost::add_edge(firstRecipe + r, index(problem.recipes[r].makes), graph);
  }
  for (std::size_t s = 0; s < problem.stock.size(); ++s)
    for (std::size_t i = 0; i < items; ++i)
      if (fits(problem.items[i], problem.stock[s].itemClass[i], problem.stock[s]))
        boost::add_edge(firstStock + s, firstItem + i, graph);

  std::vector<std::size_t> number(boost::num_vertices(graph));
  const std::size_t count = number.empty() ? 0 : boost::connected_components(graph, number.data());
  std::vector<Component> parts(count);
  std::vector<int> need(needs), local(items);
  for (std::size_t n = 0; n < needs; ++n) {
    Component& part = parts[number[n]];
    need[n] = static_cast<int>(part.needs.size());
    part.needs.push_back(static_cast<int>(n));
    part.problem.needs.push_back(problem.needs[n]);
  }
  for (std::size_t i = 0; i < items; ++i) {
    Component& part = parts[number[firstItem + i]];
    part.items.push_back(static_cast<int>(i));
    part.problem.items.push_back(problem.items[i]);
    part.problem.items.back().need = need[index(problem.items[i].need)];
  }
  for (std::size_t r = 0; r < recipes; ++r) {
    Component& part = parts[number[firstRecipe + r]];
    part.recipes.push_back(static_cast<int>(r));
    Recipe recipe = problem.recipes[r];
    for (Supply& supply : recipe.uses) supply.need = need[index(supply.need)];
    recipe.makes = need[index(recipe.makes)];
    part.problem.recipes.push_back(std::move(recipe));
  }
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    if (idle(problem.stock[s], problem)) continue;
    Component& part = parts[number[firstStock + s]];
    part.stock.push_back(static_cast<int>(s));
    Stock stock = problem.stock[s];
    stock.itemClass.clear();
    for (const int i : part.items) stock.itemClass.push_back(problem.stock[s].itemClass[index(i)]);
    part.problem.stock.push_back(std::move(stock));
  }
  for (Component& part : parts) part.problem.saw = problem.saw;
  std::erase_if(parts, [](const Component& part) {
    return part.needs.empty() && part.stock.empty() && part.recipes.empty();
  });
  return parts;
}

Solution join(const std::vector<Component>& components, const std::vector<Solution>& solutions) {
  Solution all;
  all.ending = Ending::closed;
  all.boundKind = BoundKind::exact;
  for (std::size_t c = 0; c < components.size(); ++c) {
    const Component& part = components[c];
    const Solution& own = solutions[c];
    for (StockCut cut : own.cuts) {
      cut.stock = part.stock[index(cut.stock)];
      for (Cell& cell : cut.pattern.cells)
        if (cell.item >= 0) cell.item = part.items[index(cell.item)];
      all.cuts.push_back(std::move(cut));
    }
    for (RecipeUse use : own.recipes) {
      use.recipe = part.recipes[index(use.recipe)];
      all.recipes.push_back(use);
    }
    for (Shortage shortage : own.shortages) {
      shortage.need = part.needs[index(shortage.need)];
      all.shortages.push_back(shortage);
    }
    all.cost += own.cost;
    all.bound += own.bound;
    if (strength(own.boundKind) < strength(all.boundKind)) all.boundKind = own.boundKind;
    if (goodness(own.ending) < goodness(all.ending)) all.ending = own.ending;
    all.statistics.effort += own.statistics.effort;
    all.statistics.priced += own.statistics.priced;
    all.statistics.nodes += own.statistics.nodes;
    all.statistics.seconds += own.statistics.seconds;
    all.statistics.firstPlanSeconds += own.statistics.firstPlanSeconds;
  }
  std::stable_sort(all.cuts.begin(), all.cuts.end(),
                   [](const StockCut& a, const StockCut& b) { return a.stock < b.stock; });
  std::sort(all.recipes.begin(), all.recipes.end(),
            [](const RecipeUse& a, const RecipeUse& b) { return a.recipe < b.recipe; });
  std::sort(all.shortages.begin(), all.shortages.end(),
            [](const Shortage& a, const Shortage& b) { return a.need < b.need; });
  return all;
}

}  // namespace flitch::optimizer
