#include "optimizer/bar_kinds.h"

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>
#include <stdexcept>
#include <string>

namespace flitch::optimizer {
namespace {

[[noreturn]] void refuse(const std::string& what, std::size_t index) {
  throw std::invalid_argument("bars: " + what + " " + std::to_string(index));
}

constexpr std::int64_t mostPieces = 1 << 20;

void validate(const BarProblem& problem) {
  if (problem.bars.empty()) throw std::invalid_argument("bars: none");
  if (problem.kerf < 0) throw std::invalid_argument("bars: kerf below zero");
  Tick longest = 0;
  for (std::size_t b = 0; b < problem.bars.size(); ++b) {
    const BarStock& bar = problem.bars[b];
    if (bar.length <= 0) refuse("length of bar", b);
    if (bar.cost <= 0 || bar.cost > dearestBar) refuse("cost of bar", b);
    longest = std::max(longest, bar.length);
  }
  std::int64_t pieces = 0;
  for (std::size_t n = 0; n < problem.needs.size(); ++n) {
    const BarNeed& need = problem.needs[n];
    if (need.length <= 0 || need.length > longest) refuse("length of need", n);
    if (need.amount <= 0 || need.amount > mostPieces) refuse("amount of need", n);
    pieces += need.amount;
    if (pieces > mostPieces) refuse("too many pieces, at need", n);
  }
}

}  // namespace

Worth upToStep(Wide dividend, Wide divisor, Worth step) {
  const Wide whole = (dividend + divisor - 1) / divisor;
  return static_cast<Worth>((whole + step - 1) / step * step);
}

BarKinds::BarKinds(const BarProblem& problem) {
  validate(problem);
  std::map<Tick, std::vector<std::size_t>, std::greater<>> byLength;
  for (std::size_t n = 0; n < problem.needs.size(); ++n)
    byLength[problem.needs[n].length].push_back(n);
  for (const auto& [length, alike] : byLength) {
    size.push_back(std::int64_t{length} + problem.kerf);
    wanted.push_back(std::accumulate(
        alike.begin(), alike.end(), std::int64_t{0},
        [&](std::int64_t sum, std::size_t n) { return sum + problem.needs[n].amount; }));
    needs.push_back(alike);
  }
  for (const BarStock& bar : problem.bars) {
    room.push_back(std::int64_t{bar.length} + problem.kerf);
    cost.push_back(bar.cost);
  }
}

std::int64_t BarKinds::longest() const { return *std::max_element(room.begin(), room.end()); }

int BarKinds::cheapestBar(std::int64_t least) const {
  int cheapest = -1;
  for (std::size_t b = 0; b < room.size(); ++b) {
    if (room[b] < least) continue;
    const bool better = cheapest < 0 || cost[b] < cost[static_cast<std::size_t>(cheapest)];
    if (better) cheapest = static_cast<int>(b);
  }
  return cheapest;
}

Worth BarKinds::continuousBound(const std::vector<std::int64_t>& some, Worth step) const {
  const std::int64_t all =
      std::inner_product(some.begin(), some.end(), size.begin(), std::int64_t{0});
  if (all == 0) return 0;
  std::size_t least = 0;
  for (std::size_t b = 1; b < room.size(); ++b)
    if (Wide{cost[b]} * room[least] < Wide{cost[least]} * room[b]) least = b;
  return upToStep(Wide{all} * cost[least], room[least], step);
}

}  // namespace flitch::optimizer
