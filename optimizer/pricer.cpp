#include "optimizer/pricer.h"

#include <algorithm>

#include "optimizer/plain_programme.h"

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

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
  // From the back: a divided node whose successor is no deeper holds nothing.
  for (std::size_t c = kept.cells.size(); c-- > 0;)
    if (kept.cells[c].item == Cell::divided &&
        (c + 1 == kept.cells.size() || kept.cells[c + 1].depth <= kept.cells[c].depth))
      kept.cells.erase(kept.cells.begin() + static_cast<std::ptrdiff_t>(c));
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
  if (problem.saw.first != FirstCut::y) lays_.emplace_back(problem, stock, FirstCut::x);
  if (problem.saw.first != FirstCut::x) lays_.emplace_back(problem, stock, FirstCut::y);
  for (const Lay& lay : lays_) programmes_.emplace_back(lay, problem.saw);
}

std::vector<Worth> Pricer::valuesOf(std::span<const Priced> priced) const {
  std::vector<Worth> values(problem_.items.size(), 0);
  for (const Priced& p : priced)
    if (p.cap > 0) values[index(p.item)] = p.value;
  return values;
}

Worth Pricer::bound(std::span<const Priced> priced) {
  const std::vector<Worth> values = valuesOf(priced);
  Worth most = 0;
  for (Programme& programme : programmes_) most = std::max(most, programme.columnBound(values));
  return most;
}

Best Pricer::free(std::span<const Worth> values, const Ask& ask) {
  Best best;
  best.pattern.first = lays_.front().first;
  Worth floor = ask.floor;
  for (std::size_t l = 0; l < lays_.size(); ++l) {
    Filled filled;
    bool done = false;
    if (isPlain(lays_[l])) {
      filled = plainBest(lays_[l], problem_.saw, values, best.work, ask.halt);
      done = filled.value > 0 || ask.halt == nullptr || !ask.halt->now();
    }
    if (!done) filled = programmes_[l].run(values, ask.reach, floor, best.work, ask.halt);
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
  std::vector<Worth> values = valuesOf(priced);
  Best best = free(values, ask);
  best.capsKept = keepsCaps(best.pattern, priced, problem_.items.size());
  if (best.capsKept || ask.caps == Caps::drop) return best;
  return capped(priced, std::move(values), ask, std::move(best));
}

Best Pricer::capped(std::span<const Priced> priced, std::vector<Worth> values, const Ask&,
                    Best relaxed) {
  Best best = std::move(relaxed);
  best.pattern = withinCaps(best.pattern, priced);
  best.value = worthOf(best.pattern, values, problem_, stock_);
  if (best.value < 0) {
    best.pattern.cells.clear();
    best.value = 0;
  }
  best.capsKept = true;
  return best;
}

}  // namespace flitch::optimizer
