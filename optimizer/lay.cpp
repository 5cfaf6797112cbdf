#include "optimizer/lay.h"

#include <algorithm>
#include <map>

#include "optimizer/index.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

/// From where on the two are the same.
Tick sameFrom(const Runs& a, const Runs& b) {
  std::size_t i = a.size(), j = b.size();
  while (i > 0 && j > 0 && a[i - 1] == b[j - 1]) --i, --j;
  if (i == 0 && j == 0) return 0;
  if (i == 0) return b[j - 1].to + 1;
  if (j == 0) return a[i - 1].to + 1;
  if (a[i - 1].to != b[j - 1].to) return std::max(a[i - 1].to, b[j - 1].to) + 1;
  return std::max(a[i - 1].from, b[j - 1].from);
}

Tick sameFrom(const StripKind::View& a, const StripKind::View& b) {
  Tick from = sameFrom(a.clear, b.clear);
  for (std::size_t i = 0; i < a.starts.size(); ++i)
    from = std::max(from, sameFrom(a.starts[i], b.starts[i]));
  return from;
}

/// Sets what earlier view the last one is like, and from where.
void compareWithEarlier(std::vector<StripKind::View>& views) {
  constexpr std::size_t compared = 16;  // the nearest; marks come and go from row to row
  StripKind::View& last = views.back();
  const std::size_t n = views.size() - 1;
  for (std::size_t v = n; v-- > 0;) {
    if (v > 0 && n - v > compared) continue;
    const Tick from = sameFrom(views[v], last);
    if (last.like >= 0 && from >= last.likeFrom) continue;
    last.like = static_cast<int>(v);
    last.likeFrom = from;
  }
}

}  // namespace

Lay::Lay(const Problem& problem, const Stock& stock, FirstCut firstCut)
    : Places(problem, stock, firstCut), rule_(&stock.offcuts) {
  const bool x = first == FirstCut::x;
  const Saw& saw = problem.saw;
  cutU = x ? saw.crosscut : saw.rip;
  cutV = x ? saw.rip : saw.crosscut;

  const bool worthless =
      rule_->bands.empty() || rule_->worth(stock.profile.length(), stock.profile.width()) == 0;
  const Tick shortest = std::max<Tick>(1, rule_->leastLength);
  const Tick narrowest = std::max<Tick>(1, rule_->leastWidth);
  leastU_ = worthless ? length + 1 : (x ? shortest : narrowest);
  leastV_ = worthless ? width + 1 : (x ? narrowest : shortest);

  if (leastV_ <= width) offcutSteps.push_back(leastV_);
  if (!x && leastV_ <= width)
    for (const KeepRule::Band& band : rule_->bands)
      if (band.from > leastV_ && band.from <= width) offcutSteps.push_back(band.from);

  findMarks(stock);
  std::map<Tick, std::vector<int>> byWidth;
  for (std::size_t i = 0; i < problem.items.size(); ++i)
    if (itemLength[i] > 0) byWidth[itemWidth[i]].push_back(static_cast<int>(i));
  if (saw.trim && saw.stages == 3 && !plain) {
    // A strip may be wider than its pieces: to dodge a mark it may have any width.
    std::vector<int> narrower;
    for (Tick w = 1; w <= width; ++w) {
      if (const auto found = byWidth.find(w); found != byWidth.end())
        narrower.insert(narrower.end(), found->second.begin(), found->second.end());
      if (!narrower.empty()) addKind(w, narrower, true);
    }
  } else {
    std::vector<int> narrower;
    for (const auto& [w, items] : byWidth) {
      narrower.insert(narrower.end(), items.begin(), items.end());
      addKind(w, saw.trim && saw.stages == 3 ? narrower : items, false);
    }
  }
  findBands();
  findChanges();
  if (leastU_ <= length && leastV_ <= width)
    for (Tick u = 0; u <= length; ++u) wholeOffcut.push_back(offcutWorth(u, width));
}

void Lay::findMarks(const Stock& stock) {
  const std::vector<Rect> beyond = outside(stock.profile);
  plain = beyond.empty();
  for (const auto& zones : stock.zones) plain = plain && zones.empty();

  const auto keep = [this](std::vector<Rect>& list, const Rect& onBoard) {
    const Rect r = turned(onBoard);
    if (std::find(list.begin(), list.end(), r) == list.end()) list.push_back(r);
  };
  for (const Rect& r : beyond) {
    keep(marks, r);
    keep(hard, r);
  }
  for (const auto& zones : stock.zones)
    for (const Zone& zone : zones) {
      keep(marks, zone.where);
      const Rect at = turned(zone.where);
      const bool on = at.x < length && at.x + at.dx > 0 && at.y < width && at.y + at.dy > 0;
      if (has(zone.barred, rule_->cls) && at.dx > 0 && at.dy > 0 && on) keep(hard, zone.where);
    }
}

Runs Lay::clearAlong(Tick v, Tick dv) const {
  Runs taken;
  for (const Rect& r : hard)
    if (r.y < v + dv && v < r.y + r.dy) taken.push_back({r.x, r.x + r.dx - 1});
  return complement(std::move(taken), length - 1);
}

bool Lay::liesApart(const StripKind& kind, const StripKind::View& view) const {
  for (std::size_t i = 0; i < kind.items.size(); ++i)
    for (const Run& run : view.starts[i]) {
      const Tick last = run.to + itemLength[index(kind.items[i])] - 1;
      if (std::none_of(view.clear.begin(), view.clear.end(),
                       [&](const Run& c) { return c.from <= run.from && last <= c.to; }))
        return false;
    }
  return true;
}

void Lay::findBands() {
  std::vector<Tick> borders{0, width};
  for (const Rect& r : hard)
    for (const Tick border : {r.y, r.y + r.dy})
      if (border > 0 && border < width) borders.push_back(border);
  std::sort(borders.begin(), borders.end());
  borders.erase(std::unique(borders.begin(), borders.end()), borders.end());
  for (std::size_t b = 0; b + 1 < borders.size(); ++b)
    bands.push_back({borders[b], borders[b + 1], clearAlong(borders[b], 1)});
}

void Lay::findChanges() {
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const std::vector<int>& viewAt = kinds[k].viewAt;
    for (std::size_t v = 0; v + 1 < viewAt.size(); ++v)
      if (viewAt[v] != viewAt[v + 1])
        viewChanges.push_back(
            {static_cast<Tick>(v), static_cast<int>(k), viewAt[v], viewAt[v + 1]});
  }
  std::stable_sort(viewChanges.begin(), viewChanges.end(),
                   [this](const ViewChange& a, const ViewChange& b) {
                     return a.row + kinds[index(a.kind)].width > b.row + kinds[index(b.kind)].width;
                   });
}

void Lay::addKind(Tick w, std::vector<int> items, bool anywhere) {
  StripKind kind;
  kind.width = w;
  kind.items = std::move(items);
  const Tick last = width - w;
  std::vector<bool> changes(index(last) + 1, anywhere);
  changes[0] = true;
  const auto change = [&](Tick v) {
    if (v > 0 && v <= last) changes[index(v)] = true;
  };
  for (const int item : kind.items)
    for (const std::vector<Barred>& list : barred(item))
      for (const Barred& b : list) {
        change(b.v0);
        change(b.v1 + 1);
      }
  const bool offcuts = w >= leastV_ && leastU_ <= length;
  if (offcuts)
    for (const Rect& r : hard) {
      change(r.y - w + 1);
      change(r.y + r.dy);
    }
  if (offcuts)
    for (Tick u = 0; u <= length; ++u) kind.offcutWorth.push_back(offcutWorth(u, w));
  for (Tick v = 0; v <= last; ++v) {
    if (!changes[index(v)]) {
      kind.viewAt.push_back(kind.viewAt.back());
      continue;
    }
    StripKind::View view;
    for (const int item : kind.items) {
      Runs starts = startsAt(item, v);
      if (anywhere)
        for (Tick side = 1; side <= w - itemWidth[index(item)]; ++side)
          starts = unite(std::move(starts), startsAt(item, v + side));
      view.starts.push_back(std::move(starts));
    }
    if (offcuts) view.clear = clearAlong(v, w);
    const auto same = std::find_if(kind.views.begin(), kind.views.end(),
                                   [&](const StripKind::View& o) { return o.same(view); });
    kind.viewAt.push_back(static_cast<int>(same - kind.views.begin()));
    if (same != kind.views.end()) continue;
    if (offcuts) view.apart = liesApart(kind, view);
    kind.views.push_back(std::move(view));
    compareWithEarlier(kind.views);
  }
  kinds.push_back(std::move(kind));
}

Rect Lay::onBoard(Tick u, Tick v, Tick du, Tick dv) const {
  return first == FirstCut::x ? Rect{u, v, du, dv} : Rect{v, u, dv, du};
}

Worth Lay::offcutWorth(Tick du, Tick dv) const {
  return first == FirstCut::x ? rule_->worth(du, dv) : rule_->worth(dv, du);
}

Worth Lay::cellWorth(int fraction) const {
  if (rule_->bands.empty()) return 0;
  Wide rate = 0;
  for (const KeepRule::Band& band : rule_->bands) rate = std::max(rate, Wide{band.rate});
  rate <<= fraction;
  return static_cast<Worth>((rate + (Wide{1} << 30) - 1) >> 30);
}

}  // namespace flitch::optimizer
