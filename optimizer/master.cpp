#include "optimizer/master.h"

#include <ClpSimplex.hpp>
#include <CoinBuild.hpp>
#include <algorithm>
#include <cmath>

namespace flitch::optimizer {

bool Master::add(int stock, const Pattern& pattern) {
  Column column{stock, cost(pattern, problem_, problem_.stock[static_cast<std::size_t>(stock)]),
                supplies(pattern, problem_)};
  if (std::find(columns_.begin(), columns_.end(), column) != columns_.end()) return false;
  columns_.push_back(std::move(column));
  return true;
}

std::vector<Worth> Master::multipliers() const {
  const int needs = static_cast<int>(problem_.needs.size());
  const int rows = needs + static_cast<int>(problem_.stock.size());
  ClpSimplex model;
  model.setLogLevel(0);
  model.resize(0, 0);
  for (const Need& need : problem_.needs)
    model.addRow(0, nullptr, nullptr, static_cast<double>(need.amount), COIN_DBL_MAX);
  for (const Stock& stock : problem_.stock)
    model.addRow(0, nullptr, nullptr, stock.least, stock.copies);
  // Shortages, and a board opened uncut where it must be opened.
  for (int n = 0; n < needs; ++n) {
    const double one = 1;
    model.addColumn(1, &n, &one, 0, COIN_DBL_MAX,
                    static_cast<double>(problem_.needs[static_cast<std::size_t>(n)].shortage));
  }
  for (int r = needs; r < rows; ++r) {
    const double one = 1;
    model.addColumn(1, &r, &one, 0, COIN_DBL_MAX,
                    static_cast<double>(problem_.stock[static_cast<std::size_t>(r - needs)].cost));
  }
  for (const Column& column : columns_) {
    std::vector<int> at;
    std::vector<double> value;
    for (int n = 0; n < needs; ++n)
      if (column.units[static_cast<std::size_t>(n)] > 0) {
        at.push_back(n);
        value.push_back(static_cast<double>(column.units[static_cast<std::size_t>(n)]));
      }
    at.push_back(needs + column.stock);
    value.push_back(1);
    model.addColumn(static_cast<int>(at.size()), at.data(), value.data(), 0, COIN_DBL_MAX,
                    static_cast<double>(column.cost));
  }
  model.primal(1);
  if (model.status() != 0) return {};
  std::vector<Worth> unit;
  for (int n = 0; n < needs; ++n) {
    const Worth most = problem_.needs[static_cast<std::size_t>(n)].shortage;
    const double dual = std::clamp(model.dualRowSolution()[n], 0.0, static_cast<double>(most));
    unit.push_back(std::min(most, static_cast<Worth>(std::floor(dual))));
  }
  return unit;
}

}  // namespace flitch::optimizer
