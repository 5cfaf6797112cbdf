#include "optimizer/bound.h"

#include <algorithm>
#include <cstdlib>
#include <numeric>

#include "optimizer/recipes.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t leastColumns = 30;  ///< a round looks for at least so many
constexpr std::size_t leastShare = 8;     ///< boards asked before the columns are counted
constexpr int mostIdle = 8;               ///< rounds that gain nothing
constexpr std::size_t mostKnown = 20;     ///< columns of a board taken over

}  // namespace

Worth lagrangian(const Problem& problem, std::span<const Worth> unit, std::span<const Worth> z) {
  Wide sum = 0;
  for (std::size_t n = 0; n < problem.needs.size(); ++n)
    sum += Wide{problem.needs[n].amount} * unit[n];
  for (const Recipe& recipe : problem.recipes)
    sum += mostTimes(problem, recipe) * std::min<Wide>(0, reducedCost(recipe, unit));
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    const Stock& stock = problem.stock[s];
    const Worth reduced = stock.cost - z[s];
    sum += Wide{stock.least} * reduced +
           Wide{stock.copies - stock.least} * std::min<Worth>(0, reduced);
  }
  return static_cast<Worth>(sum);
}

Worth costStep(const Problem& problem) {
  Worth step = std::gcd(problem.saw.crosscut, problem.saw.rip);
  for (const Stock& stock : problem.stock) {
    if (!stock.offcuts.bands.empty()) return 1;
    step = std::gcd(step, stock.cost);
  }
  for (const Need& need : problem.needs) step = std::gcd(step, need.shortage);
  for (const Item& item : problem.items) step = std::gcd(step, item.extra);
  for (const Recipe& recipe : problem.recipes) step = std::gcd(step, recipe.cost);
  return std::max<Worth>(1, step);
}

std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit) {
  const std::vector<std::int64_t> most = wanted(problem);
  std::vector<Priced> prices;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    const Worth value = unit[static_cast<std::size_t>(item.need)] * item.supplies - item.extra;
    const std::int64_t amount = most[static_cast<std::size_t>(item.need)];
    if (value <= 0) continue;
    prices.push_back({static_cast<int>(i), value});
    if (item.extra >= 0) prices.back().cap = (amount + item.supplies - 1) / item.supplies;
  }
  return prices;
}

Multipliers::Multipliers(const Problem& rest, const Multipliers& before)
    : problem_(rest),
      master_(rest),
      wanted_(flitch::optimizer::wanted(rest)),
      best_(before.best_),
      nothing_(before.nothing_),
      last_(before.last_),
      rations_(before.rations_),
      pauses_(before.pauses_),
      single_(before.single_),
      forPlans_(true) {
  for (std::size_t n = 0; n < best_.size(); ++n)
    best_[n] = std::min(best_[n], rest.needs[n].shortage);
  for (std::size_t s = 0; s < rest.stock.size(); ++s)
    worth_.push_back(last_[s].unit.empty()
                         ? before.worth_[s]
                         : carriedBound(rest, rest.stock[s], last_[s], best_, Caps::drop));
  bound_ = lagrangian(rest, best_, worth_);
  std::vector<std::size_t> most;
  for (const Stock& stock : rest.stock)
    most.push_back(stock.copies == 0   ? 0
                   : stock.copies == 1 ? mostKnown
                                       : before.master_.columns().size());
  const auto known = cheapestColumns(before.master_.columns(), best_, wanted_, most);
  for (std::size_t s = 0; s < known.size(); ++s)
    for (const Column* column : known[s]) master_.add(static_cast<int>(s), column->pattern);
}

namespace {

/// Prices of units by the wood of their smallest item, at twice what a cell of the dearest stock
/// costs, none above its shortage; what a recipe makes at what that uses. O(items + recipes).
std::vector<Worth> pricesByArea(const Problem& problem) {
  const Tick kerfX = problem.saw.kerfX, kerfY = problem.saw.kerfY;
  double dearest = 0;
  for (const Stock& stock : problem.stock) {
    const double cells =
        double{1} * (stock.profile.length() + kerfX) * (stock.profile.width() + kerfY);
    dearest = std::max(dearest, static_cast<double>(stock.cost) / std::max(1.0, cells));
  }
  std::vector<Worth> unit;
  for (const Need& need : problem.needs) unit.push_back(need.shortage);
  const auto lower = [&](int need, double price) {
    Worth& at = unit[static_cast<std::size_t>(need)];
    if (price < static_cast<double>(at)) at = static_cast<Worth>(price);
  };
  for (const Item& item : problem.items) {
    const double cells = double{1} * (item.length + kerfX) * (item.width + kerfY);
    lower(item.need, 2 * dearest * cells / static_cast<double>(item.supplies));
  }
  for (const Recipe& recipe : problem.recipes) {
    double uses = static_cast<double>(recipe.cost);
    for (const Supply& use : recipe.uses) {
      uses += static_cast<double>(use.amount) *
              static_cast<double>(unit[static_cast<std::size_t>(use.need)]);
    }
    lower(recipe.makes, std::max(0.0, uses));
  }
  return unit;
}

}  // namespace

Worth Multipliers::start(Pricers& pricers, const Halt& halt, Filling& spent) {
  std::vector<Worth> shortages;
  for (const Need& need : problem_.needs) shortages.push_back(need.shortage);
  startAlong(shortages, pricers, halt, spent);
  startAlong(pricesByArea(problem_), pricers, halt, spent);
  between(std::vector<Worth>(shortages.size(), 0), nothing_, best_, worth_);
  return bound_;
}

void Multipliers::startAlong(const std::vector<Worth>& most, Pricers& pricers, const Halt& halt,
                             Filling& spent) {
  constexpr int shares = 128;
  const auto at = [&](int share) {
    std::vector<Worth> unit;
    for (const Worth price : most) unit.push_back(static_cast<Worth>(Wide{price} * share / shares));
    return unit;
  };
  const auto boundAt = [&](int share) {
    const std::vector<Worth> unit = at(share);
    const std::vector<Priced> prices = pricesAt(problem_, unit);
    std::vector<Worth> z(problem_.stock.size());
    pricers.crew().each(
        z.size(), [&](std::size_t s) { z[s] = pricers.of(static_cast<int>(s)).bound(prices); });
    spent.priced += z.size();
    spent.effort += z.size() * 1000;
    const Worth bound = lagrangian(problem_, unit, z);
    if (share == 0) nothing_ = z;
    offer(bound, unit, std::move(z));
    return bound;
  };
  if (nothing_.empty()) {
    boundAt(0);
  } else {
    // Of prices by area what a full board is worth: where that is little better, so are the rest,
    // and the exact rounds are as near.
    const Worth before = bound_;
    if (boundAt(shares / 2) <= before + before / 4) return;
  }
  boundAt(shares);
  bool bars = true;
  for (std::size_t s = 0; s < problem_.stock.size(); ++s)
    bars = bars && pricers.of(static_cast<int>(s)).isBar();
  if (bars) caps_ = Caps::keep;
  int lo = 0, hi = shares;
  while (hi - lo > 2 && !halt.now()) {
    const int left = lo + (hi - lo) * 2 / 5, right = hi - (hi - lo) * 2 / 5;
    if (boundAt(left) < boundAt(right))
      lo = left;
    else
      hi = right;
  }
}

void Multipliers::offer(Worth bound, std::vector<Worth> unit, std::vector<Worth> z) {
  if (bound <= bound_) return;
  bound_ = bound;
  best_ = std::move(unit);
  worth_ = std::move(z);
}

void Multipliers::between(std::span<const Worth> unit0, std::span<const Worth> z0,
                          std::span<const Worth> unit1, std::span<const Worth> z1) {
  constexpr int bits = 20;
  const auto mean = [](Worth a, Worth b, Wide share) {
    return (Wide{a} << bits) + (Wide{b} - a) * share;  // in 2^-bits
  };
  std::vector<Worth> unit(unit0.size()), z(z0.size());
  const auto at = [&](std::int64_t share) {
    for (std::size_t n = 0; n < unit.size(); ++n)
      unit[n] = static_cast<Worth>(mean(unit0[n], unit1[n], share) >> bits);
    for (std::size_t s = 0; s < z.size(); ++s)
      z[s] = static_cast<Worth>((mean(z0[s], z1[s], share) + (Wide{1} << bits) - 1) >> bits);
    return lagrangian(problem_, unit, z);
  };
  // Concave but for rounding.
  std::int64_t lo = 0, hi = std::int64_t{1} << bits;
  while (hi - lo > 2) {
    const std::int64_t left = lo + (hi - lo) / 3, right = hi - (hi - lo) / 3;
    if (at(left) < at(right))
      lo = left;
    else
      hi = right;
  }
  const Worth bound = at((lo + hi) / 2);
  offer(bound, unit, z);
}

Worth carriedBound(const Problem& problem, const Stock& stock, const PricedAt& before,
                   std::span<const Worth> unit, Caps caps) {
  std::vector<Worth> rises;
  for (const Item& item : problem.items) {
    const auto valueAt = [&](std::span<const Worth> at) {
      return std::max<Worth>(0,
                             at[static_cast<std::size_t>(item.need)] * item.supplies - item.extra);
    };
    rises.push_back(valueAt(unit) - valueAt(before.unit));
  }
  return lifted(problem, stock, before.most, rises, caps);
}

Worth lifted(const Problem& problem, const Stock& stock, Worth before, std::span<const Worth> rises,
             Caps caps) {
  struct Rise {
    Worth each;
    std::int64_t cells, copies;
  };
  const Tick kerfX = problem.saw.kerfX, kerfY = problem.saw.kerfY;
  const std::int64_t area =
      std::int64_t{stock.profile.length() + kerfX} * (stock.profile.width() + kerfY);
  const std::vector<std::int64_t> most = wanted(problem);
  std::vector<Rise> order;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    if (stock.itemClass[i] == noClass || rises[i] <= 0) continue;
    const std::int64_t cells = std::int64_t{item.length + kerfX} * (item.width + kerfY);
    const std::int64_t amount = most[static_cast<std::size_t>(item.need)];
    std::int64_t copies = area / cells;
    if (item.extra >= 0 && caps == Caps::keep)
      copies = std::min(copies, (amount + item.supplies - 1) / item.supplies);
    if (copies > 0) order.push_back({rises[i], cells, copies});
  }
  std::sort(order.begin(), order.end(), [](const Rise& a, const Rise& b) {
    return Wide{a.each} * b.cells > Wide{b.each} * a.cells;
  });
  Wide sum = before;
  std::int64_t left = area;
  for (const Rise& rise : order) {
    const std::int64_t taken = std::min(left, rise.copies * rise.cells);
    sum += (Wide{rise.each} * taken + rise.cells - 1) / rise.cells;
    left -= taken;
  }
  return static_cast<Worth>(std::min(sum, Wide{std::numeric_limits<Worth>::max() / 4}));
}

BoardWorth Multipliers::ask(Pricers& pricers, int s, const UnitWorths& worths,
                            std::span<const Priced> prices, const Halt& halt) const {
  const Stock& stock = problem_.stock[static_cast<std::size_t>(s)];
  const bool bar = pricers.of(s).isBar();
  Depth depth = caps_ == Caps::keep ? pauses_.depth(static_cast<std::size_t>(s)) : Depth::rationed;
  if (forPlans_ || bar || reach_ == Reach::quick) depth = Depth::free;
  // Pricing stops somewhat below the cost, so that the figure serves for later multipliers too.
  return boardWorth(pricers, problem_, s, prices,
                    {.worths = worths,
                     .depth = depth,
                     .caps = forPlans_ || bar ? Caps::keep : Caps::drop,
                     .reach = reach_,
                     .rations = rations_[static_cast<std::size_t>(s)],
                     .floor = stock.cost / 10 * 9,
                     .cost = stock.cost,
                     .halt = &halt});
}

std::vector<double> Multipliers::shares() {
  return master_.multipliers().empty() ? std::vector<double>{} : master_.shares();
}

Worth Multipliers::round(Pricers& pricers, const Halt& halt, Filling& spent, Worth trifle) {
  std::vector<Worth> unit = master_.multipliers();
  if (unit.empty()) {
    converged_ = true;
    return bound_;
  }
  if (smooth_)
    for (std::size_t n = 0; n < unit.size(); ++n)
      unit[n] = static_cast<Worth>((Wide{unit[n]} * 2 + Wide{best_[n]} * 3) / 5);
  const auto prices = pricesAt(problem_, unit);
  const UnitWorths worths(unit, wanted_);
  std::vector<Worth> z(problem_.stock.size());
  pricers.crew().each(z.size(), [&](std::size_t s) {
    z[s] = last_[s].unit.empty() ? pricers.of(static_cast<int>(s)).bound(prices)
                                 : carriedBound(problem_, problem_.stock[s], last_[s], unit, caps_);
  });
  std::vector<int> order;
  for (std::size_t s = 0; s < z.size(); ++s)
    if (z[s] > problem_.stock[s].cost || problem_.stock[s].least > 0)
      order.push_back(static_cast<int>(s));
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const auto promise = [&](int s) {
      return z[static_cast<std::size_t>(s)] - problem_.stock[static_cast<std::size_t>(s)].cost;
    };
    return promise(a) > promise(b);
  });
  const std::size_t enough = std::max(leastColumns, problem_.needs.size());
  const std::size_t share = std::max(leastShare, problem_.stock.size() / 12);
  std::size_t found = 0, asked = 0;
  while (asked < order.size() && found < enough) {
    std::vector<BoardWorth> answers(std::min(share, order.size() - asked));
    pricers.crew().each(answers.size(), [&](std::size_t a) {
      answers[a] = ask(pricers, order[asked + a], worths, prices, halt);
    });
    for (BoardWorth& answer : answers) {
      const auto s = static_cast<std::size_t>(order[asked++]);
      spent += answer.spent;
      if (caps_ == Caps::keep) pauses_.told(s, answer);
      if (!answer.rations.empty()) rations_[s] = std::move(answer.rations);
      bool fresh = false;
      for (const Pattern& pattern : answer.patterns)
        fresh = master_.add(static_cast<int>(s), pattern) || fresh;
      if (fresh) ++found;
      if (answer.most > z[s]) continue;
      z[s] = answer.most;
      last_[s] = {unit, z[s]};
    }
  }
  const bool all = asked == order.size(), fresh = found > 0;
  spent.effort += 1000 + 10 * z.size();  // a round that asks no board counts too
  reduced_.clear();
  for (std::size_t s = 0; s < z.size(); ++s) reduced_.push_back(problem_.stock[s].cost - z[s]);
  const Worth before = bound_;
  between(std::vector<Worth>(unit.size(), 0), nothing_, unit, z);
  between(best_, worth_, unit, z);
  const Worth bound = lagrangian(problem_, unit, z);
  offer(bound, std::move(unit), std::move(z));
  // Quick pricing has done its work once most boards bring nothing new.
  if (forPlans_) {
    converged_ = !fresh && all && !smooth_;
    smooth_ = fresh;
    return bound_;
  }
  if (reach_ == Reach::quick && found * 5 <= order.size()) {
    reach_ = Reach::all;
    if (single_) caps_ = Caps::keep;
    smooth_ = true;
    idle_ = 0;
    return bound_;
  }
  // Between two sets of multipliers nothing new may show; then the master's own are asked. Of many
  // equal boards caps are kept once the cheaper bound without them has come to its end.
  idle_ = bound_ - before > std::abs(bound_) / 5000 ? 0 : idle_ + 1;
  const bool near = master_.value() < static_cast<double>(bound_ + trifle);
  const bool ended = (!fresh && all && !smooth_) || (single_ && (near || idle_ == mostIdle));
  if (reach_ == Reach::all && ended && !halt.now()) {
    converged_ = caps_ == Caps::keep;
    caps_ = Caps::keep;
  }
  smooth_ = fresh;
  return bound_;
}

}  // namespace flitch::optimizer
