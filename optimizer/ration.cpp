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

/// The lines below the bound: least of  t + wanted rho  over  t + units rho >= worth, t >= 0,
/// 0 <= rho <= unit.
class Lines {
 public:
  Lines(std::span<const Worth> unit, std::span<const std::int64_t> wanted)
      : unit_(unit), wanted_(wanted) {}

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
    for (std::size_t n = 0; n < unit_.size(); ++n)
      back += static_cast<double>(prices[n]) * static_cast<double>(wanted_[n]);
    for (const Line& line : lines_) {
      double own = static_cast<double>(line.worth);
      for (std::size_t n = 0; n < unit_.size(); ++n)
        own -= static_cast<double>(prices[n]) * static_cast<double>(line.units[n]);
      most = std::max(most, own);
    }
    return most + back;
  }
  /// The prices at which the lines are least, and how much that is.
  [[nodiscard]] bool solve(std::vector<double>& prices, double& least) const {
    std::vector<int> needs;  // prices of others stay at nothing
    for (std::size_t n = 0; n < unit_.size(); ++n)
      if (unit_[n] > 0 && std::any_of(lines_.begin(), lines_.end(),
                                      [&](const Line& line) { return line.units[n] > wanted_[n]; }))
        needs.push_back(static_cast<int>(n));
    ClpSimplex model;
    model.setLogLevel(0);
    model.resize(0, static_cast<int>(needs.size()) + 1);
    model.setObjectiveCoefficient(0, 1);
    for (std::size_t at = 0; at < needs.size(); ++at) {
      const int column = static_cast<int>(at) + 1;
      // In shares of the multiplier, all of a size.
      const auto unit = static_cast<double>(unit_[index(needs[at])]);
      model.setColumnBounds(column, 0, 1);
      model.setObjectiveCoefficient(column, unit * static_cast<double>(wanted_[index(needs[at])]));
    }
    for (const Line& line : lines_) {
      std::vector<int> columns{0};
      std::vector<double> values{1};
      for (std::size_t at = 0; at < needs.size(); ++at)
        if (const std::int64_t units = line.units[index(needs[at])]; units > 0) {
          columns.push_back(static_cast<int>(at) + 1);
          values.push_back(static_cast<double>(unit_[index(needs[at])]) *
                           static_cast<double>(units));
        }
      model.addRow(static_cast<int>(columns.size()), columns.data(), values.data(),
                   static_cast<double>(line.worth), COIN_DBL_MAX);
    }
    model.dual();
    if (model.status() != 0) return false;
    least = model.objectiveValue();
    prices.assign(unit_.size(), 0);
    for (std::size_t at = 0; at < needs.size(); ++at) {
      const double share = std::clamp(model.getColSolution()[at + 1], 0.0, 1.0);
      prices[index(needs[at])] = share * static_cast<double>(unit_[index(needs[at])]);
    }
    return true;
  }

 private:
  struct Line {
    std::vector<std::int64_t> units;
    Worth worth;
  };
  std::span<const Worth> unit_;
  std::span<const std::int64_t> wanted_;
  std::vector<Line> lines_;
};

}  // namespace

Rationed ration(Pricer& pricer, const Problem& problem, const Stock& stock, const Best& free,
                const Ration& ask) {
  const std::size_t needs = problem.needs.size();
  Rationed found;
  found.most = free.upperBound;
  found.prices.assign(needs, 0);
  Lines lines(ask.unit, ask.wanted);
  Worth enough = ask.floor;  // what is known to be reached, or need not be told apart
  /// Takes a pattern as a line; false: known already.
  const auto take = [&](const Pattern& pattern) {
    if (pattern.cells.empty()) return false;
    const std::vector<std::int64_t> units = supplies(pattern, problem);
    Worth counted = stock.cost - cost(pattern, problem, stock), worth = counted;
    for (std::size_t n = 0; n < needs; ++n) {
      worth += ask.unit[n] * units[n];
      counted += ask.unit[n] * std::min(units[n], ask.wanted[n]);
    }
    enough = std::max(enough, counted);
    if (!lines.add(units, worth)) return false;
    found.patterns.push_back(pattern);
    return true;
  };
  /// Takes the best pattern at some prices; the bound there.
  const auto price = [&](std::span<const Worth> prices, Reach reach, bool& fresh) {
    std::vector<Worth> lowered(ask.unit.begin(), ask.unit.end());
    Wide back = 0;
    for (std::size_t n = 0; n < needs; ++n) {
      lowered[n] -= prices[n];
      back += Wide{prices[n]} * ask.wanted[n];
    }
    const Wide floor = std::max<Wide>(0, enough - back);
    const Best best = pricer.best(pricesAt(problem, lowered), {.caps = Caps::drop,
                                                               .reach = reach,
                                                               .floor = static_cast<Worth>(floor),
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
    centre[n] = std::min(ask.prices[n], ask.unit[n]);
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
                                    0, ask.unit[n]);
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
