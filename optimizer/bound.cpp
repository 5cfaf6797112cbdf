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
    if (value > 0) prices.push_back({static_cast<int>(i), value});
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
      unit_ = unit;
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
  best_ = unit_;
  return bound_;
}

Worth Multipliers::round(Worth cost, Pricers& pricers, const Halt& halt, Filling& spent) {
  ++rounds_;
  const std::vector<Priced> prices = pricesAt(problem_, unit_);
  std::vector<Worth> z;
  std::vector<double> lack;
  for (const Need& need : problem_.needs) lack.push_back(static_cast<double>(need.amount));
  for (std::size_t s = 0; s < problem_.stock.size(); ++s) {
    const Stock& stock = problem_.stock[s];
    // A board far from paying need not be priced to the end.
    const Best best = pricers.of(static_cast<int>(s))
                          .best(prices, {.caps = Caps::drop,
                                         .reach = Reach::all,
                                         .floor = stock.cost / 10 * 9,
                                         .halt = &halt});
    ++spent.priced;
    spent.effort += best.work + 100;
    z.push_back(best.upperBound);
    const int copies = best.value > stock.cost ? stock.copies : stock.least;
    const std::vector<std::int64_t> units = supplies(best.pattern, problem_);
    for (std::size_t n = 0; n < units.size(); ++n)
      lack[n] -= static_cast<double>(units[n]) * copies;
  }
  const Worth bound = lagrangian(problem_, unit_, z);
  if (bound > bound_) {
    bound_ = bound;
    best_ = unit_;
    sinceBetter_ = 0;
  } else if (++sinceBetter_ == 3) {
    stride_ /= 2;
    unit_ = best_;
    sinceBetter_ = 0;
  }
  // The step is measured in money, so a need of dear units is not moved more than one of cheap
  // ones.
  double norm = 0;
  for (std::size_t n = 0; n < lack.size(); ++n) {
    const double scale = static_cast<double>(std::max<Worth>(1, problem_.needs[n].shortage));
    norm += lack[n] * lack[n] * scale * scale;
  }
  if (norm <= 0 || halt.now()) return bound;
  const double step = stride_ * static_cast<double>(std::max<Worth>(1, cost - bound)) / norm;
  for (std::size_t n = 0; n < lack.size(); ++n) {
    const double scale = static_cast<double>(std::max<Worth>(1, problem_.needs[n].shortage));
    const double moved = static_cast<double>(unit_[n]) + step * lack[n] * scale * scale;
    unit_[n] =
        static_cast<Worth>(std::clamp(moved, 0.0, static_cast<double>(problem_.needs[n].shortage)));
    unit_[n] = std::min(unit_[n], problem_.needs[n].shortage);
  }
  return bound;
}

}  // namespace flitch::optimizer
