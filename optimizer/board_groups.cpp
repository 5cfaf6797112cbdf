#include "optimizer/board_groups.h"

#include <map>

#include "optimizer/index.h"

namespace flitch::optimizer {

BoardGroups::BoardGroups(const Problem& problem, const std::vector<const Column*>& columns) {
  constexpr std::size_t most = 8;
  std::vector<std::vector<char>> supplies(problem.stock.size());
  for (const Column* column : columns) {
    std::vector<char>& own = supplies[index(column->stock)];
    own.resize(problem.needs.size(), 0);
    for (std::size_t n = 0; n < own.size(); ++n)
      if (column->units[n] > 0) own[n] = 1;
  }
  std::vector<char> known(problem.stock.size(), 0);
  for (const Column* column : columns) known[index(column->stock)] = 1;
  std::map<std::vector<char>, std::vector<std::size_t>> alike;
  stocks.emplace_back();
  for (std::size_t s = 0; s < supplies.size(); ++s) {
    if (known[s] == 0) continue;
    stocks[0].push_back(s);
    alike[supplies[s]].push_back(s);
  }
  if (alike.size() > 1 && alike.size() <= most)
    for (auto& [same, group] : alike) stocks.push_back(std::move(group));
  of.resize(problem.stock.size());
  for (std::size_t g = 0; g < stocks.size(); ++g)
    for (const std::size_t s : stocks[g]) of[s].push_back(g);
}

}  // namespace flitch::optimizer
