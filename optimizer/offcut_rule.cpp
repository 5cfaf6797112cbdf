#include "optimizer/offcut_rule.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

void tidy(std::vector<Tick>& list) {
  std::sort(list.begin(), list.end());
  list.erase(std::unique(list.begin(), list.end()), list.end());
}

bool holds(const std::vector<Tick>& list, Tick value) {
  return std::binary_search(list.begin(), list.end(), value);
}

/// Judges the offcuts of one pattern.
class Judge {
 public:
  Judge(const Pattern& pattern, const Lay& lay) : pattern_(pattern), lay_(lay), rule_(lay) {}

  [[nodiscard]] std::vector<char> stray() {
    std::vector<char> stray(pattern_.cells.size(), 0);
    std::size_t section = 0, strip = 0;
    Tick free = 0;  // where a section may begin at once
    for (std::size_t c = 0; c < pattern_.cells.size(); ++c) {
      const Cell& cell = pattern_.cells[c];
      if (cell.depth == 1) {
        section = c;
        const Rect at = turned(c);
        begins_ = at.x == 0 || at.x == free || holds(rule_.fresh, at.x);
        free = at.x + at.dx + lay_.kerfU;
      } else if (cell.depth == 2) {
        strip = c;
      }
      if (cell.item != Cell::offcut) continue;
      const bool allowed = cell.depth == 1   ? wholeWidth(c)
                           : cell.depth == 2 ? inSection(section) && rowEnds(c, section)
                                             : inSection(section) && inStrip(c, strip, section);
      stray[c] = allowed ? 0 : 1;
    }
    return stray;
  }

 private:
  [[nodiscard]] Rect turned(std::size_t c) const {
    const Rect& r = pattern_.cells[c].where;
    return lay_.first == FirstCut::x ? r : Rect{r.y, r.x, r.dy, r.dx};
  }
  [[nodiscard]] bool wholeWidth(std::size_t c) const {
    const Rect at = turned(c);
    const Tick end = at.x + at.dx;
    const Tick next = end + lay_.kerfU;
    return holds(rule_.edges, end) || holds(rule_.fresh, next) || holds(rule_.late, next);
  }
  [[nodiscard]] bool inSection(std::size_t section) const {
    const Rect at = turned(section);
    return begins_ && rule_.allows(at.x, at.x + at.dx);
  }
  /// Rows of offcut end at the board's side, before barred cells or a change.
  [[nodiscard]] bool rowEnds(std::size_t c, std::size_t section) const {
    const Rect at = turned(c), in = turned(section);
    const Tick end = at.y + at.dy;
    const Tick next = end + lay_.kerfV;
    if (end == lay_.width || holds(rule_.changes, next) || holds(rule_.lateRows, next)) return true;
    return std::any_of(lay_.hard.begin(), lay_.hard.end(), [&](const Rect& r) {
      return r.y == end && r.x < in.x + in.dx && in.x < r.x + r.dx;
    });
  }
  [[nodiscard]] bool inStrip(std::size_t c, std::size_t strip, std::size_t section) const {
    const Rect at = turned(c), own = turned(strip);
    const auto kind = std::find_if(lay_.kinds.begin(), lay_.kinds.end(),
                                   [&](const StripKind& k) { return k.width == own.dy; });
    const Tick end = at.x + at.dx;
    const bool pieces = hasPieces(strip);
    if (!pieces && kind == lay_.kinds.end()) return rowEnds(strip, section);
    if (!pieces && rowEnds(strip, section)) return true;
    if (end == own.x + own.dx) return true;
    for (const Run& run : lay_.clearAlong(own.y, own.dy))
      if (run.from <= at.x && end <= run.to + 1 && end >= run.to + 1 - lay_.kerfU) return true;
    if (c + 1 == pattern_.cells.size() || pattern_.cells[c + 1].depth != 3) return false;
    const Rect next = turned(c + 1);
    const int item = pattern_.cells[c + 1].item;
    if (item < 0 || next.x != end + lay_.kerfU || kind == lay_.kinds.end()) return false;
    const auto place = std::find(kind->items.begin(), kind->items.end(), item);
    const StripKind::View& view = kind->views[index(kind->viewAt[index(own.y)])];
    const Runs& starts = view.starts[static_cast<std::size_t>(place - kind->items.begin())];
    return std::any_of(starts.begin(), starts.end(),
                       [&](const Run& run) { return run.from == next.x; });
  }
  [[nodiscard]] bool hasPieces(std::size_t strip) const {
    for (std::size_t c = strip + 1; c < pattern_.cells.size() && pattern_.cells[c].depth == 3; ++c)
      if (pattern_.cells[c].item >= 0) return true;
    return false;
  }

  const Pattern& pattern_;
  const Lay& lay_;
  OffcutRule rule_;
  bool begins_ = false;
};

}  // namespace

OffcutRule::OffcutRule(const Lay& lay)
    : keeps(lay.leastU() <= lay.length && lay.leastV() <= lay.width), edges{lay.length} {
  if (!keeps) return;
  for (const Rect& r : lay.hard)
    if (r.x > 0 && r.x < lay.length) edges.push_back(r.x);
  for (const Tick size : lay.itemLength)
    if (size >= lay.leastU()) lengths.push_back(size);
  for (const std::vector<Rect>* list : {&lay.hard, &lay.marks})
    for (const Rect& r : *list)
      if (const Tick end = r.x + r.dx; end > 0 && end < lay.length) fresh.push_back(end);
  for (const StripKind& kind : lay.kinds)
    for (std::size_t v = 1; v < kind.viewAt.size(); ++v)
      if (kind.viewAt[v] != kind.viewAt[v - 1]) changes.push_back(static_cast<Tick>(v));
  for (const Tick edge : edges)
    for (const Tick size : lay.itemLength)
      if (size > 0 && size < edge) late.push_back(edge - size);
  for (const StripKind& kind : lay.kinds)
    if (kind.width < lay.width) lateRows.push_back(lay.width - kind.width);
  for (std::vector<Tick>* list : {&edges, &lengths, &fresh, &changes, &late, &lateRows})
    tidy(*list);
  whole = lay.clearAlong(0, lay.width);
}

bool OffcutRule::allows(Tick from, Tick to) const {
  return keeps && (holds(lengths, to - from) || holds(edges, to));
}

Pattern keptToRule(const Pattern& pattern, const Lay& lay) {
  const std::vector<char> stray = Judge(pattern, lay).stray();
  if (std::find(stray.begin(), stray.end(), 1) == stray.end()) return pattern;
  Pattern kept{pattern.first, {}};
  for (std::size_t c = 0; c < stray.size(); ++c)
    if (stray[c] == 0) kept.cells.push_back(pattern.cells[c]);
  dropEmpty(kept);
  return kept;
}

}  // namespace flitch::optimizer
