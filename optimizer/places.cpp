#include "optimizer/places.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {

Tick nextPlace(const Runs& runs, Tick from) {
  for (const Run& run : runs)
    if (run.to >= from) return std::max(run.from, from);
  return -1;
}

Runs complement(Runs taken, Tick last) {
  std::sort(taken.begin(), taken.end(), [](const Run& a, const Run& b) { return a.from < b.from; });
  Runs free;
  Tick next = 0;
  for (const Run& run : taken) {
    if (run.to < next) continue;
    if (run.from > last) break;
    if (run.from > next) free.push_back({next, run.from - 1});
    next = run.to + 1;
  }
  if (next <= last) free.push_back({next, last});
  return free;
}

Runs unite(Runs a, const Runs& b) {
  a.insert(a.end(), b.begin(), b.end());
  std::sort(a.begin(), a.end(), [](const Run& l, const Run& r) { return l.from < r.from; });
  Runs all;
  for (const Run& run : a) {
    if (!all.empty() && run.from <= all.back().to + 1)
      all.back().to = std::max(all.back().to, run.to);
    else
      all.push_back(run);
  }
  return all;
}

std::vector<Rect> outside(const Profile& profile) {
  std::vector<Rect> parts;
  const Tick width = profile.width();
  for (Tick x = 0; x < profile.length();) {
    const Tick low = profile.low[index(x)], high = profile.high[index(x)];
    Tick end = x + 1;
    while (end < profile.length() && profile.low[index(end)] == low &&
           profile.high[index(end)] == high)
      ++end;
    if (low >= high) {
      parts.push_back({x, 0, end - x, width});
    } else {
      if (low > 0) parts.push_back({x, 0, end - x, low});
      if (high < width) parts.push_back({x, high, end - x, width - high});
    }
    x = end;
  }
  return parts;
}

Places::Places(const Problem& problem, const Stock& stock, FirstCut firstCut) : first(firstCut) {
  const bool x = first == FirstCut::x;
  length = x ? stock.profile.length() : stock.profile.width();
  width = x ? stock.profile.width() : stock.profile.length();
  kerfU = x ? problem.saw.kerfX : problem.saw.kerfY;
  kerfV = x ? problem.saw.kerfY : problem.saw.kerfX;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    Tick du = x ? item.length : item.width, dv = x ? item.width : item.length;
    if (stock.itemClass[i] == noClass || du > length || dv > width) du = dv = 0;
    itemLength.push_back(du);
    itemWidth.push_back(dv);
  }
  barStarts(problem, stock);
}

void Places::barStarts(const Problem& problem, const Stock& stock) {
  const bool x = first == FirstCut::x;
  const std::vector<Rect> beyond = outside(stock.profile);
  barred_.resize(problem.items.size());
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const int cls = stock.itemClass[i];
    if (cls == noClass) continue;
    const Tick l = problem.items[i].length, w = problem.items[i].width;
    for (int o = 0; o < orientations; ++o) {
      std::vector<Barred>& list = barred_[i][index(o)];
      const auto add = [&](Tick x0, Tick x1, Tick y0, Tick y1) {
        if (x0 <= x1 && y0 <= y1)
          list.push_back(x ? Barred{x0, x1, y0, y1} : Barred{y0, y1, x0, x1});
      };
      const auto overlap = [&](const Rect& r) {
        if (r.dx > 0 && r.dy > 0) add(r.x - l + 1, r.x + r.dx - 1, r.y - w + 1, r.y + r.dy - 1);
      };
      for (const Rect& r : beyond) overlap(r);
      for (const Zone& zone : stock.zones[index(o)]) {
        const Rect& r = zone.where;
        if (has(zone.barred, cls)) overlap(r);
        if (r.dx == 0) continue;
        if (has(zone.nearEdge, cls)) add(r.x - l + 1, r.x + r.dx - 1, r.y, r.y + r.dy);
        if (has(zone.farEdge, cls)) add(r.x - l + 1, r.x + r.dx - 1, r.y - w, r.y + r.dy - w);
      }
    }
  }
}

Rect Places::turned(const Rect& onBoard) const {
  return first == FirstCut::x ? onBoard : Rect{onBoard.y, onBoard.x, onBoard.dy, onBoard.dx};
}

Runs Places::startsAt(int item, Tick v) const {
  const Tick last = length - itemLength[index(item)];
  Runs any;
  for (const std::vector<Barred>& list : barred_[index(item)]) {
    Runs taken;
    for (const Barred& b : list)
      if (b.v0 <= v && v <= b.v1) taken.push_back({b.u0, b.u1});
    if (taken.empty()) return {{0, last}};
    any = unite(std::move(any), complement(std::move(taken), last));
  }
  return any;
}

int Places::orientationAt(int item, Tick u, Tick v) const {
  for (int o = 0; o < orientations; ++o) {
    const std::vector<Barred>& list = barred_[index(item)][index(o)];
    if (std::none_of(list.begin(), list.end(), [&](const Barred& b) {
          return b.u0 <= u && u <= b.u1 && b.v0 <= v && v <= b.v1;
        }))
      return o;
  }
  return -1;
}

}  // namespace flitch::optimizer
