#include "optimizer/dive.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numeric>

#include "optimizer/corner.h"
#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

constexpr int roundsOfStep = 4;
constexpr double largeShare = 0.6;
constexpr double stepShare = 0.15;  ///< of the boards that the programme opens
constexpr double fewLeft = 6;       ///< boards that the programme opens
constexpr std::size_t cornerBoards = 14;

/// Columns taken as they are, each so often.
struct Taken {
  std::size_t column;
  long times;
};

std::vector<Taken> takeLarge(const std::vector<Column>& columns, std::vector<double> shares,
                             const Problem& rest, std::mt19937_64& random) {
  std::vector<std::size_t> order;
  double opened = 0;
  for (std::size_t c = 0; c < shares.size(); ++c) {
    if (shares[c] < 1e-6) continue;
    opened += shares[c];
    // Up to a sixteenth up or down.
    shares[c] += static_cast<double>(random() % 128) / 1024.0 - 1.0 / 16;
    order.push_back(c);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return shares[a] > shares[b]; });
  const long most = std::max(1L, std::lround(opened * stepShare));
  std::vector<int> left;
  for (const Stock& stock : rest.stock) left.push_back(stock.copies);
  std::vector<std::int64_t> missing = wanted(rest);
  std::vector<Taken> taken;
  long sum = 0;
  for (const std::size_t c : order) {
    const Column& column = columns[c];
    if (sum >= most || (sum > 0 && shares[c] < largeShare)) break;
    long times = std::max(1L, static_cast<long>(std::floor(shares[c] + 1 - largeShare)));
    times = std::min({times, most - sum, static_cast<long>(left[index(column.stock)])});
    // No more copies than are wholly used.
    for (std::size_t n = 0; n < missing.size(); ++n)
      if (column.units[n] > 0)
        times = std::min(times, static_cast<long>(missing[n] / column.units[n]));
    if (times <= 0) {
      if (!taken.empty() || c != order.back()) continue;
      times = 1;
    }
    for (std::size_t n = 0; n < missing.size(); ++n)
      missing[n] = std::max<std::int64_t>(0, missing[n] - times * column.units[n]);
    left[index(column.stock)] -= static_cast<int>(times);
    sum += times;
    taken.push_back({c, times});
  }
  return taken;
}

}  // namespace

std::optional<Draft> dive(const Problem& problem, const Multipliers& root, Pricers& pricers,
                          std::mt19937_64& random, const Halt& halt, Filling& spent) {
  Draft draft(problem);
  Problem rest;
  rest.saw = problem.saw;
  rest.items = problem.items;
  rest.needs = problem.needs;
  rest.recipes = problem.recipes;
  for (const Stock& stock : problem.stock) {
    rest.stock.push_back({stock.copies,
                          stock.cost,
                          stock.profile,
                          {},
                          stock.itemClass,
                          stock.offcuts,
                          stock.least,
                          {}});
  }
  auto known = std::make_unique<Multipliers>(rest, root);
  const auto missing = [&] {
    return std::any_of(rest.needs.begin(), rest.needs.end(),
                       [](const Need& need) { return need.amount > 0; });
  };
  while (missing()) {
    for (int round = 0; round < roundsOfStep && !known->converged(); ++round) {
      if (halt.now()) return std::nullopt;
      known->round(pricers, halt, spent);
    }
    const std::vector<double> shares = known->shares();
    if (shares.empty() || halt.now()) return std::nullopt;
    const std::vector<Column>& columns = known->master().columns();
    const double boards = std::accumulate(shares.begin(), shares.end(), 0.0);
    if (boards < 1e-6) break;
    if (boards <= fewLeft) {
      std::vector<int> allowed;
      for (std::size_t c = 0; c < shares.size(); ++c)
        if (shares[c] > 1e-6) allowed.push_back(columns[c].stock);
      std::vector<int> order;
      for (std::size_t s = 0; s < rest.stock.size(); ++s)
        if (rest.stock[s].copies > 0) order.push_back(static_cast<int>(s));
      std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
        return known->reduced()[index(a)] < known->reduced()[index(b)];
      });
      for (const int s : order)
        if (allowed.size() < cornerBoards) allowed.push_back(s);
      std::sort(allowed.begin(), allowed.end());
      allowed.erase(std::unique(allowed.begin(), allowed.end()), allowed.end());
      const Corner corner(draft, problem, allowed);
      const std::optional<Draft> last =
          planCorner(corner, *known, pricers, std::numeric_limits<Worth>::max() / 4, halt, spent);
      if (!last) return std::nullopt;
      for (const Opened& board : last->boards())
        draft.add({corner.stock[index(board.stock)], board.pattern});
      break;
    }
    const std::vector<Taken> taken = takeLarge(columns, shares, rest, random);
    if (taken.empty()) break;
    for (const Taken& take : taken)
      for (long copy = 0; copy < take.times; ++copy)
        draft.add({columns[take.column].stock, columns[take.column].pattern});
    for (std::size_t n = 0; n < rest.needs.size(); ++n)
      rest.needs[n] = draft.rest(static_cast<int>(n));
    for (std::size_t s = 0; s < rest.stock.size(); ++s) {
      rest.stock[s].copies = draft.copiesLeft(static_cast<int>(s));
      const int opened = problem.stock[s].copies - rest.stock[s].copies;
      rest.stock[s].least = std::max(0, problem.stock[s].least - opened);
    }
    known = std::make_unique<Multipliers>(rest, *known);
  }
  draft.tidy();
  openForced(draft, problem);
  return draft;
}

}  // namespace flitch::optimizer
