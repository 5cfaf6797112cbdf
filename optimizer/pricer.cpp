#include "optimizer/pricer.h"

#include <algorithm>

#include "optimizer/bar_programme.h"
#include "optimizer/index.h"
#include "optimizer/plain_programme.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

std::vector<std::int64_t> counts(const Pattern& pattern, std::size_t items) {
  std::vector<std::int64_t> count(items, 0);
  for (const Cell& cell : pattern.cells)
    if (cell.item >= 0) ++count[index(cell.item)];
  return count;
}

bool keepsCaps(const Pattern& pattern, std::span<const Priced> priced, std::size_t items) {
  const std::vector<std::int64_t> count = counts(pattern, items);
  return std::all_of(priced.begin(), priced.end(),
                     [&](const Priced& p) { return count[index(p.item)] <= p.cap; });
}

}  // namespace

Pattern withinCaps(const Pattern& pattern, std::span<const Priced> priced) {
  std::vector<std::int64_t> left;
  for (const Priced& p : priced) {
    if (left.size() <= index(p.item)) left.resize(index(p.item) + 1, 0);
    left[index(p.item)] = p.cap;
  }
  Pattern kept{pattern.first, {}};
  for (const Cell& cell : pattern.cells)
    if (cell.item < 0 || (index(cell.item) < left.size() && left[index(cell.item)]-- > 0))
      kept.cells.push_back(cell);
  dropEmpty(kept);
  return kept;
}

Worth worthOf(const Pattern& pattern, std::span<const Worth> values, const Problem& problem,
              const Stock& stock) {
  Worth sum = stock.cost - cost(pattern, problem, stock);
  for (const Cell& cell : pattern.cells)
    if (cell.item >= 0) sum += values[index(cell.item)] + problem.items[index(cell.item)].extra;
  return sum;
}

Pricer::Pricer(const Problem& problem, const Stock& stock) : problem_(problem), stock_(stock) {
  for (const FirstCut first : {FirstCut::x, FirstCut::y})
    if (allows(problem, stock, first)) lays_.emplace_back(problem, stock, first);
  for (const Lay& lay : lays_) programmes_.emplace_back(lay, problem.saw);
}

std::vector<Worth> Pricer::valuesOf(std::span<const Priced> priced) const {
  std::vector<Worth> values(problem_.items.size(), 0);
  for (const Priced& p : priced)
    if (p.cap > 0) values[index(p.item)] = p.value;
  return values;
}

bool Pricer::isBar() const {
  return lays_.size() == 1 && flitch::optimizer::isBar(lays_.front(), problem_.saw);
}

Worth Pricer::bound(std::span<const Priced> priced) {
  const std::vector<Worth> values = valuesOf(priced);
  Worth most = 0;
  for (Programme& programme : programmes_) {
    programme.forget();  // sharper bounds of an earlier pricing would make this one's depend on it
    most = std::max(most, programme.columnBound(values));
  }
  return most;
}

Best Pricer::free(std::span<const Worth> values, const Ask& ask) {
  Best best;
  best.pattern.first = lays_.front().first;
  Worth floor = ask.floor;
  for (Programme& programme : programmes_) programme.forget();
  // A good pattern found in a fraction of the time spares most of the exact work.
  if (ask.reach == Reach::all)
    for (std::size_t l = 0; l < lays_.size(); ++l) {
      if (isPlain(lays_[l])) continue;
      Filled quick = programmes_[l].run(values, Reach::quick, floor, best.work, ask.halt, ask.most);
      if (quick.value <= best.value) continue;
      best.value = quick.value;
      best.pattern = std::move(quick.pattern);
      floor = std::max(floor, best.value);
    }
  for (std::size_t l = 0; l < lays_.size(); ++l) {
    Filled filled;
    bool done = false;
    if (isPlain(lays_[l])) {
      filled = plainBest(lays_[l], problem_.saw, values, best.work, ask.halt);
      done = filled.value > 0 || ask.halt == nullptr || !ask.halt->now();
    }
    if (!done)
      filled =
          programmes_[l].run(values, ask.reach, floor, best.work, ask.halt, ask.most, ask.ruled);
    best.upperBound = std::max(best.upperBound, filled.upperBound);
    if (filled.value > best.value) {
      best.value = filled.value;
      best.pattern = std::move(filled.pattern);
    }
    floor = std::max(floor, best.value);
  }
  return best;
}

Best Pricer::best(std::span<const Priced> priced, const Ask& ask) {
  if (isBar()) return barBest(lays_.front(), priced, ask.caps, ask.halt);
  std::vector<Worth> values = valuesOf(priced);
  Best best = free(values, ask);
  best.capsKept = keepsCaps(best.pattern, priced, problem_.items.size());
  if (best.capsKept || ask.caps == Caps::drop) return best;
  return capped(priced, std::move(values), ask, std::move(best));
}

/// First prices on the limits that are broken: the free programme at values less rho, plus rho
/// times the caps, bounds the value for any rho >= 0. What is left open is closed by counting.
Best Pricer::capped(std::span<const Priced> priced, std::vector<Worth> values, const Ask& ask,
                    Best relaxed) {
  Best best;
  best.pattern.first = lays_.front().first;
  best.upperBound = relaxed.upperBound;
  best.work = relaxed.work;
  const auto take = [&](const Pattern& found) {
    Pattern kept = withinCaps(found, priced);
    const Worth value = worthOf(kept, values, problem_, stock_);
    if (value <= best.value) return;
    best.value = value;
    best.pattern = std::move(kept);
  };
  take(relaxed.pattern);

  std::vector<Worth> lowered = values, bestLowered = values;
  std::vector<CountedProgramme::Limit> limits;
  std::vector<std::int64_t> held = counts(relaxed.pattern, values.size());
  const auto note = [&] {
    for (const Priced& p : priced)
      if (held[index(p.item)] > p.cap &&
          std::none_of(limits.begin(), limits.end(),
                       [&](const auto& limit) { return limit.item == p.item; }))
        limits.push_back({p.item, p.cap});
  };
  for (int round = 0; round < (ask.reach == Reach::all ? rounds : quickRounds); ++round) {
    note();
    // Prices go up on what is too many, as much as the surplus is of all of them; down again, by
    // less and less, where the price has left too few.
    Wide back = 0;
    for (const Priced& p : priced) {
      const std::size_t i = index(p.item);
      if (held[i] > p.cap)
        lowered[i] -= lowered[i] / held[i] * (held[i] - p.cap) / (round / 2 + 1);
      else if (held[i] < p.cap && lowered[i] < values[i])
        lowered[i] += (values[i] - lowered[i]) / (2 + round);
      if (lowered[i] < values[i]) back += Wide{values[i] - lowered[i]} * p.cap;
    }
    Ask lower = ask;
    const Worth aim = std::max(best.value, ask.floor);
    lower.floor = static_cast<Worth>(std::max(Wide{0}, aim - back));
    Best tried = free(lowered, lower);
    best.work += tried.work;
    const Wide bound = std::max(back + tried.upperBound, Wide{aim});
    if (bound < best.upperBound) {
      best.upperBound = static_cast<Worth>(bound);
      bestLowered = lowered;
    }
    take(tried.pattern);
    if (std::max(best.value, ask.floor) >= best.upperBound) return best;
    if (tried.pattern.cells.empty()) break;  // halted
    held = counts(tried.pattern, values.size());
  }
  note();
  for (auto& limit : limits)
    limit.price = values[index(limit.item)] - bestLowered[index(limit.item)];
  if (ask.reach == Reach::all) count(priced, values, ask, std::move(limits), best);
  return best;
}

void Pricer::count(std::span<const Priced> priced, std::span<const Worth> values, const Ask& ask,
                   std::vector<CountedProgramme::Limit> limits, Best& best) {
  for (;;) {
    if (limits.size() > CountedProgramme::mostLimits) return;
    for (const auto& limit : limits)
      if (limit.cap > CountedProgramme::largestLimit) return;
    Filled most;
    Worth floor = std::max(best.value, ask.floor);
    for (Programme& programme : programmes_) {
      std::optional<Filled> filled =
          CountedProgramme(programme, limits).run(values, floor, ask.states, ask.halt);
      if (!filled) return;
      if (filled->value > floor) {
        floor = filled->value;
        most = std::move(*filled);
      }
    }
    best.upperBound = std::min(best.upperBound, floor);
    if (most.value <= best.value) return;
    const std::vector<std::int64_t> found = counts(most.pattern, values.size());
    bool kept = true;
    for (const Priced& p : priced)
      if (found[index(p.item)] > p.cap) {
        kept = false;
        limits.push_back({p.item, p.cap});
      }
    if (kept) {
      best.value = most.value;
      best.pattern = std::move(most.pattern);
      return;
    }
    Pattern within = withinCaps(most.pattern, priced);
    const Worth value = worthOf(within, values, problem_, stock_);
    if (value > best.value) {
      best.value = value;
      best.pattern = std::move(within);
    }
  }
}

}  // namespace flitch::optimizer
