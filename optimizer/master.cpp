#include "optimizer/master.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>

#include "optimizer/recipes.h"

namespace flitch::optimizer {
namespace {

std::uint64_t hashOf(int stock, const std::vector<std::int64_t>& units) {
  std::uint64_t hash = static_cast<std::uint64_t>(stock) + 1;
  for (const std::int64_t u : units)
    hash = (hash ^ static_cast<std::uint64_t>(u)) * 0x9E3779B97F4A7C15ULL;
  return hash;
}

}  // namespace

std::vector<std::vector<const Column*>> cheapestColumns(const std::vector<Column>& columns,
                                                        std::span<const Worth> unit,
                                                        std::span<const std::int64_t> wanted,
                                                        std::span<const std::size_t> most) {
  struct Scored {
    Worth excess;
    const Column* column;
  };
  std::vector<std::vector<Scored>> scored(most.size());
  for (const Column& column : columns) {
    const auto s = static_cast<std::size_t>(column.stock);
    if (most[s] == 0) continue;
    Worth excess = column.cost;
    for (std::size_t n = 0; n < unit.size(); ++n)
      excess -= unit[n] * std::min(column.units[n], wanted[n]);
    scored[s].push_back({excess, &column});
  }
  std::vector<std::vector<const Column*>> cheapest(most.size());
  for (std::size_t s = 0; s < most.size(); ++s) {
    std::stable_sort(scored[s].begin(), scored[s].end(),
                     [](const Scored& a, const Scored& b) { return a.excess < b.excess; });
    for (std::size_t c = 0; c < std::min(most[s], scored[s].size()); ++c)
      cheapest[s].push_back(scored[s][c].column);
  }
  return cheapest;
}

RecipeColumn::RecipeColumn(const Recipe& recipe) : rows{recipe.makes}, values{1} {
  for (const Supply& use : recipe.uses) {
    rows.push_back(use.need);
    values.push_back(-static_cast<double>(use.amount));
  }
}

/// The programme in CLP; goes on from its last basis when columns come in.
class Master::Programme {
 public:
  explicit Programme(const Problem& problem)
      : needs_(static_cast<int>(problem.needs.size())),
        fixed_(needs_ + static_cast<int>(problem.stock.size() + problem.recipes.size())) {
    model_.setLogLevel(0);
    model_.resize(0, 0);
    for (const Need& need : problem.needs)
      model_.addRow(0, nullptr, nullptr, static_cast<double>(need.amount), COIN_DBL_MAX);
    for (const Stock& stock : problem.stock)
      model_.addRow(0, nullptr, nullptr, stock.least, stock.copies);
    // Shortages, and a board opened uncut where it must be opened.
    const double one = 1;
    for (int n = 0; n < needs_; ++n)
      model_.addColumn(1, &n, &one, 0, COIN_DBL_MAX,
                       static_cast<double>(problem.needs[static_cast<std::size_t>(n)].shortage));
    for (std::size_t s = 0; s < problem.stock.size(); ++s) {
      const int row = needs_ + static_cast<int>(s);
      model_.addColumn(1, &row, &one, 0, COIN_DBL_MAX, static_cast<double>(problem.stock[s].cost));
    }
    for (const Recipe& recipe : problem.recipes) {
      const RecipeColumn column(recipe);
      model_.addColumn(static_cast<int>(column.rows.size()), column.rows.data(),
                       column.values.data(), 0, static_cast<double>(mostTimes(problem, recipe)),
                       static_cast<double>(recipe.cost));
    }
  }

  [[nodiscard]] bool solve(const std::vector<Column>& columns) {
    std::vector<CoinBigIndex> starts{0};
    std::vector<int> at;
    std::vector<double> value, lower, upper, costs;
    for (; taken_ < columns.size(); ++taken_) {
      const Column& column = columns[taken_];
      for (int n = 0; n < needs_; ++n)
        if (const std::int64_t u = column.units[static_cast<std::size_t>(n)]; u > 0) {
          at.push_back(n);
          value.push_back(static_cast<double>(u));
        }
      at.push_back(needs_ + column.stock);
      value.push_back(1);
      starts.push_back(static_cast<CoinBigIndex>(at.size()));
      lower.push_back(0);
      upper.push_back(COIN_DBL_MAX);
      costs.push_back(static_cast<double>(column.cost));
    }
    if (!costs.empty())
      model_.addColumns(static_cast<int>(costs.size()), lower.data(), upper.data(), costs.data(),
                        starts.data(), at.data(), value.data());
    model_.primal(1);
    return model_.status() == 0;
  }
  [[nodiscard]] double value() const { return model_.objectiveValue(); }
  [[nodiscard]] double dual(int need) const { return model_.getRowPrice()[need]; }
  [[nodiscard]] std::vector<double> shares() const {
    const double* x = model_.getColSolution();
    return {x + fixed_, x + fixed_ + static_cast<std::ptrdiff_t>(taken_)};
  }

 private:
  int needs_, fixed_;
  std::size_t taken_ = 0;
  ClpSimplex model_;
};

Master::Master(const Problem& problem) : problem_(problem), wanted_(wanted(problem)) {}
Master::~Master() = default;
Master::Master(Master&&) noexcept = default;

bool Master::add(int stock, const Pattern& pattern) {
  Column column{stock, cost(pattern, problem_, problem_.stock[static_cast<std::size_t>(stock)]),
                supplies(pattern, problem_), pattern};
  for (std::size_t n = 0; n < column.units.size(); ++n)
    column.units[n] = std::min(column.units[n], wanted_[n]);
  std::vector<std::size_t>& alike = byUnits_[hashOf(stock, column.units)];
  for (const std::size_t other : alike)
    if (columns_[other].stock == stock && columns_[other].units == column.units &&
        columns_[other].cost <= column.cost)
      return false;
  alike.push_back(columns_.size());
  columns_.push_back(std::move(column));
  return true;
}

std::vector<Worth> Master::multipliers() {
  if (!programme_) programme_ = std::make_unique<Programme>(problem_);
  if (!programme_->solve(columns_)) return {};
  std::vector<Worth> unit;
  for (std::size_t n = 0; n < problem_.needs.size(); ++n) {
    const Worth most = problem_.needs[n].shortage;
    const double dual =
        std::clamp(programme_->dual(static_cast<int>(n)), 0.0, static_cast<double>(most));
    unit.push_back(std::min(most, static_cast<Worth>(std::floor(dual))));
  }
  return unit;
}

double Master::value() const { return programme_ ? programme_->value() : 0; }

std::vector<double> Master::shares() const {
  return programme_ ? programme_->shares() : std::vector<double>{};
}

}  // namespace flitch::optimizer
