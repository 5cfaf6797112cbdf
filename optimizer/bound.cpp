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
    const std::int64_t amount = problem.needs[static_cast<std::size_t>(item.need)].amount;
    if (value <= 0) continue;
    prices.push_back({static_cast<int>(i), value});
    if (item.extra >= 0) prices.back().cap = (amount + item.supplies - 1) / item.supplies;
  }
  return prices;
}

Worth Multipliers::start(Pricers& pricers, const Halt& halt, Filling& spent) {
  constexpr int shares = 128;
  const auto at = [&](int share) {
    std::vector<Worth> unit;
    for (const Need& need : problem_.needs)
      unit.push_back(static_cast<Worth>(Wide{need.shortage} * share / shares));
    return unit;
  };
  const auto boundAt = [&](int share) {
    const std::vector<Worth> unit = at(share);
    const std::vector<Priced> prices = pricesAt(problem_, unit);
    std::vector<Worth> z;
    for (std::size_t s = 0; s < problem_.stock.size(); ++s)
      z.push_back(pricers.of(static_cast<int>(s)).bound(prices));
    spent.priced += z.size();
    spent.effort += z.size() * 1000;
    const Worth bound = lagrangian(problem_, unit, z);
    if (bound > bound_) {
      bound_ = bound;
      best_ = unit;
    }
    return bound;
  };
  boundAt(shares);
  int lo = 0, hi = shares;
  while (hi - lo > 2 && !halt.now()) {
    const int left = lo + (hi - lo) * 2 / 5, right = hi - (hi - lo) * 2 / 5;
    if (boundAt(left) < boundAt(right))
      lo = left;
    else
      hi = right;
  }
  return bound_;
}

Worth Multipliers::round(Pricers& pricers, const Halt& halt, Filling& spent) {
  std::vector<Worth> unit = master_.multipliers();
  if (unit.empty()) {
    converged_ = true;
    return bound_;
  }
  if (smooth_)
    for (std::size_t n = 0; n < unit.size(); ++n)
      unit[n] = static_cast<Worth>((Wide{unit[n]} * 2 + Wide{best_[n]} * 3) / 5);
  const std::vector<Priced> prices = pricesAt(problem_, unit);
  std::vector<Worth> z;
  bool fresh = false;
  for (std::size_t s = 0; s < problem_.stock.size(); ++s) {
    const Stock& stock = problem_.stock[s];
    // A board far from paying need not be priced to the end.
    const Best best = pricers.of(static_cast<int>(s))
                          .best(prices, {.caps = caps_,
                                         .reach = Reach::all,
                                         .states = 20000,
                                         .floor = stock.cost / 10 * 9,
                                         .halt = &halt});
    ++spent.priced;
    spent.effort += best.work + 100;
    z.push_back(best.upperBound);
    if (best.value > stock.cost) fresh = master_.add(static_cast<int>(s), best.pattern) || fresh;
  }
  const Worth bound = lagrangian(problem_, unit, z);
  if (bound > bound_) {
    bound_ = bound;
    best_ = std::move(unit);
  }
  // Between two sets of multipliers nothing new may show; then the master's own are asked.
  // Caps are kept once the cheaper bound without them has come to its end.
  if (!fresh && !smooth_ && !halt.now()) {
    converged_ = caps_ == Caps::keep;
    caps_ = Caps::keep;
  }
  smooth_ = fresh;
  return bound;
}

}  // namespace flitch::optimizer
