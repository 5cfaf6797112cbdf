#include "optimizer/ration.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <cmath>

#include "optimizer/bound.h"
#include "optimizer/index.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr Worth fine = 1000;  ///< of a board's cost: what is not worth another pricing
constexpr std::uint64_t mostWork = 1000000;  ///< of a pricing: where offcuts tie it takes seconds
constexpr int turns = 3, quickTurns = 8;

/// The lines below the bound: least of  t + over  over  t + units rho >= worth, t >= 0,
/// 0 <= rho <= steepest, over >= worth of u units - u (steepest - rho) for all u.
class Lines {
 public:
  explicit Lines(const UnitWorths& worths) : worths_(worths) {}

  /// False: known already.
  bool add(const std::vector<std::int64_t>& units, Worth worth) {
    for (const Line& line : lines_)
      if (line.units == units && line.worth >= worth) return false;
    lines_.push_back({units, worth});
    return true;
  }
  /// The greatest of the lines at these prices.
  [[nodiscard]] double at(std::span<const Worth> prices) const {
    double back = 0, most = 0;
    for (std::size_t n = 0; n < prices.size(); ++n)
      back += static_cast<double>(worths_.over(n, worths_.steepest(n) - prices[n]));
    for (const Line& line : lines_) {
      double own = static_cast<double>(line.worth);
      for (std::size_t n = 0; n < prices.size(); ++n)
        own -= static_cast<double>(prices[n]) * static_cast<double>(line.units[n]);
      most = std::max(most, own);
    }
    return most + back;
  }
  /// The prices at which the lines are least, and how much that is.
  [[nodiscard]] bool solve(std::vector<double>& prices, double& least) const {
    std::vector<std::size_t> needs;  // prices of others stay at nothing
    for (std::size_t n = 0; n < worths_.needs(); ++n)
      if (worths_.steepest(n) > 0 &&
          std::any_of(lines_.begin(), lines_.end(), [&](const Line& line) {
            return worths_.of(n, line.units[n]) < worths_.steepest(n) * line.units[n];
          }))
        needs.push_back(n);
    ClpSimplex model;
    model.setLogLevel(0);
    const int columns = static_cast<int>(needs.size()) + 1;
    model.resize(0, columns);
    model.setObjectiveCoefficient(0, 1);
    const auto addRow = [&](const std::vector<int>& at, const std::vector<double>& values,
                            double atLeast) {
      model.addRow(static_cast<int>(at.size()), at.data(), values.data(), atLeast, COIN_DBL_MAX);
    };
    int tables = 0;
    for (std::size_t at = 0; at < needs.size(); ++at) {
      const std::size_t n = needs[at];
      const int column = static_cast<int>(at) + 1;
      // In shares of the steepest worth, all of a size.
      const auto unit = static_cast<double>(worths_.steepest(n));
      model.setColumnBounds(column, 0, 1);
      if (!worths_.isTable(n)) {
        model.setObjectiveCoefficient(column, unit * static_cast<double>(worths_.wanted(n)));
        continue;
      }
      model.addColumn(0, nullptr, nullptr, 0, COIN_DBL_MAX, 1);
      const int over = columns + tables++;
      for (std::int64_t u = 1; u <= worths_.wanted(n); ++u) {
        const double all = unit * static_cast<double>(u);
        addRow({over, column}, {1, -all}, static_cast<double>(worths_.of(n, u)) - all);
      }
    }
    for (const Line& line : lines_) {
      std::vector<int> at{0};
      std::vector<double> values{1};
      for (std::size_t k = 0; k < needs.size(); ++k)
        if (const std::int64_t units = line.units[needs[k]]; units > 0) {
          at.push_back(static_cast<int>(k) + 1);
          values.push_back(static_cast<double>(worths_.steepest(needs[k])) *
                           static_cast<double>(units));
        }
      addRow(at, values, static_cast<double>(line.worth));
    }
    model.dual();
    if (model.status() != 0) return false;
    least = model.objectiveValue();
    prices.assign(worths_.needs(), 0);
    for (std::size_t k = 0; k < needs.size(); ++k) {
      const double share = std::clamp(model.getColSolution()[k + 1], 0.0, 1.0);
      prices[needs[k]] = share * static_cast<double>(worths_.steepest(needs[k]));
    }
    return true;
  }

 private:
  struct Line {
    std::vector<std::int64_t> units;
    Worth worth;  ///< each unit at its steepest
  };
  const UnitWorths& worths_;
  std::vector<Line> lines_;
};

}  // namespace

Rationed ration(Pricer& pricer, const Problem& problem, const Stock& stock, const Best& free,
                const Ration& ask) {
  const std::size_t needs = problem.needs.size();
  const UnitWorths& worths = ask.worths;
  Rationed found;
  found.most = free.upperBound;
  found.prices.assign(needs, 0);
  Lines lines(worths);
  Worth enough = ask.floor;  // what is known to be reached, or need not be told apart
  /// Takes a pattern as a line; false: known already.
  const auto take = [&](const Pattern& pattern) {
    if (pattern.cells.empty()) return false;
    const std::vector<std::int64_t> units = supplies(pattern, problem);
    const Worth kept = stock.cost - cost(pattern, problem, stock);
    Worth worth = kept;
    for (std::size_t n = 0; n < needs; ++n) worth += worths.steepest(n) * units[n];
    enough = std::max(enough, kept + worths.of(units));
    if (!lines.add(units, worth)) return false;
    found.patterns.push_back(pattern);
    return true;
  };
  /// Takes the best pattern at some prices; the bound there.
  const auto price = [&](std::span<const Worth> prices, Reach reach, bool& fresh) {
    std::vector<Worth> lowered(worths.steepest().begin(), worths.steepest().end());
    Wide back = 0;
    for (std::size_t n = 0; n < needs; ++n) {
      lowered[n] -= prices[n];
      back += worths.over(n, lowered[n]);
    }
    const Wide floor = std::max<Wide>(0, enough - back);
    const Best best = pricer.best(pricesAt(problem, lowered), {.caps = Caps::drop,
                                                               .reach = reach,
                                                               .floor = static_cast<Worth>(floor),
                                                               .ruled = true,
                                                               .halt = ask.halt,
                                                               .most = mostWork});
    found.work += best.work;
    ++found.asked;
    fresh = take(best.pattern);
    return static_cast<Worth>(
        std::min(std::max(back + best.upperBound, Wide{enough}), Wide{found.most}));
  };
  const auto halted = [&] { return ask.halt != nullptr && ask.halt->now(); };
  take(free.pattern);
  const double tolerance = static_cast<double>(stock.cost / fine);
  std::vector<Worth> centre(needs, 0);
  for (std::size_t n = 0; n < ask.prices.size(); ++n)
    centre[n] = std::min(ask.prices[n], worths.steepest(n));
  bool fresh = false;
  for (int turn = 0; turn < turns && found.most > enough && !halted(); ++turn) {
    // Quick patterns lead to good prices, an exact one tells what they are worth.
    for (int quick = 0; quick < quickTurns && !halted(); ++quick) {
      std::vector<double> lowest;
      double least = 0;
      if (!lines.solve(lowest, least) || lines.at(centre) - least <= tolerance) break;
      std::vector<Worth> next(needs, 0);
      for (std::size_t n = 0; n < needs; ++n)
        next[n] = std::clamp<Worth>(std::llround((lowest[n] + static_cast<double>(centre[n])) / 2),
                                    0, worths.steepest(n));
      price(next, Reach::quick, fresh);
      if (lines.at(next) < lines.at(centre))
        centre = std::move(next);
      else if (!fresh)
        break;
    }
    const Worth most = price(centre, Reach::all, fresh);
    found.most = std::min(found.most, most);
    found.prices = centre;
    if (!fresh) break;
  }
  return found;
}

}  // namespace flitch::optimizer
