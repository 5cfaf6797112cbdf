#include "optimizer/programme.h"

#include <algorithm>

#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

bool holds(const Runs& runs, Tick place) { return nextPlace(runs, place) == place; }

}  // namespace

void Programme::prepare(std::span<const Worth> values) {
  const Worth own = saw_.stages == 3 ? lay_.cutU : lay_.cutV;
  net_.clear();
  for (const Worth value : values) net_.push_back(value - own);
  live_.assign(lay_.kinds.size(), {});
  changes_.assign(index(lay_.width) + 1, {});
  widest_ = 0;
  horizon_ = lay_.length;
  kindsInUse_.clear();
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    const StripKind& kind = lay_.kinds[k];
    for (std::size_t j = 0; j < kind.items.size(); ++j)
      if (net_[index(kind.items[j])] > 0) live_[k].push_back(static_cast<int>(j));
    if (live_[k].empty()) continue;
    widest_ = std::max(widest_, kind.width);
    kindsInUse_.push_back(k);
    for (std::size_t v = 1; v < kind.viewAt.size(); ++v)
      if (kind.viewAt[v] != kind.viewAt[v - 1]) changes_[v].push_back(k);
  }
  chains_.resize(lay_.kinds.size());
  known_.resize(lay_.kinds.size());
  stripWorth_.resize(lay_.kinds.size());
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    chains_[k].resize(lay_.kinds[k].views.size());
    known_[k].assign(lay_.kinds[k].views.size(), false);
    stripWorth_[k].assign(lay_.kinds[k].views.size(), -1);
  }
}

// ---- a strip ---------------------------------------------------------------------------------

namespace {

/// Worth of the best link that ends by `next`.
template <class Link>
Worth valueAt(const std::vector<Link>& chain, Tick next) {
  const auto after = std::upper_bound(chain.begin(), chain.end(), next,
                                      [](Tick n, const Link& l) { return n < l.next; });
  return (after - 1)->value;
}

/// Puts a link in its place unless an earlier one is worth as much; drops those it beats. Links up
/// to `done` are already gone on from; all others end later.
template <class Link>
void put(std::vector<Link>& chain, Link link) {
  auto after = std::upper_bound(chain.begin(), chain.end(), link.next,
                                [](Tick next, const Link& l) { return next < l.next; });
  const auto before = after - 1;  // the start of the chain always stands before
  if (before->value >= link.value) return;
  auto end = after;
  while (end != chain.end() && end->value <= link.value) ++end;
  if (before->next == link.next) {
    *before = link;
    chain.erase(after, end);
  } else if (after != end) {
    *after = link;
    chain.erase(after + 1, end);
  } else {
    chain.insert(after, link);
  }
}

}  // namespace

Programme::Chain Programme::chain(const StripKind& kind, const StripKind::View& view, Tick u1) {
  Chain links;
  links.push_back({u1, 0, -1, -1, u1, 0, 0, 0});
  for (std::size_t l = 0; l < links.size(); ++l) layPieces(links, l, kind, view);
  if (kind.offcutWorth.empty()) return links;

  // The same again with offcuts; what pieces alone reach beats many of them at once.
  const Chain pieces = std::move(links);
  links.clear();
  links.push_back(pieces.front());
  for (std::size_t l = 0; l < links.size(); ++l) {
    layPieces(links, l, kind, view);
    layOffcuts(links, l, kind, view, pieces);
  }
  const Worth cell = lay_.cellWorth(0) * kind.width;
  for (std::size_t l = 0; l < links.size(); ++l) {
    links[l].slack = links[l].value - cell * links[l].next;
    if (l > 0) links[l].slack = std::max(links[l].slack, links[l - 1].slack);
  }
  return links;
}

void Programme::layPieces(Chain& links, std::size_t l, const StripKind& kind,
                          const StripKind::View& view) {
  const std::vector<int>& live = live_[static_cast<std::size_t>(&kind - lay_.kinds.data())];
  work_ += live.size();
  const Tick next = links[l].next;
  const Worth value = links[l].value;
  for (const int j : live) {
    const int item = kind.items[index(j)];
    const Tick at = nextPlace(view.starts[index(j)], next);
    if (at < 0 || at + lay_.itemLength[index(item)] > horizon_) continue;
    put(links, {at + lay_.itemLength[index(item)] + lay_.kerfU, value + net_[index(item)],
                static_cast<int>(l), item, at, 0, 0, 0});
  }
}

void Programme::layOffcuts(Chain& links, std::size_t l, const StripKind& kind,
                           const StripKind::View& view, const Chain& pieces) {
  const Link from = links[l];
  const Tick kerf = lay_.kerfU;
  const std::vector<Worth>& worth = kind.offcutWorth;
  const auto beaten = [&](Tick next, Worth value) {
    ++work_;
    return valueAt(pieces, next) >= value || valueAt(links, next) >= value;
  };
  for (const Run& clear : view.clear) {
    const Tick a = std::max(clear.from, from.next), end = clear.to + 1;
    if (a >= horizon_) break;
    if (end - a < lay_.leastU()) continue;
    const Worth base = from.value - lay_.cutU;
    // Up to the mark, or a little less where the mark is thinner than a kerf.
    for (Tick b = std::max(a + lay_.leastU(), end - kerf); b <= end; ++b)
      if (const Worth value = base + worth[index(b - a)]; !beaten(b + kerf, value))
        put(links, {b + kerf, value, static_cast<int>(l), -1, b, a, b, 0});
    if (quick_) continue;
    // Up to a piece. If the piece could lie at a and all between is clear, the two may change
    // places, so the offcut comes later and nothing is lost.
    for (const int j : live_[static_cast<std::size_t>(&kind - lay_.kinds.data())]) {
      const int item = kind.items[index(j)];
      const Tick size = lay_.itemLength[index(item)];
      const Worth both = base + net_[index(item)];
      Tick least = a + lay_.leastU() + kerf;
      if (holds(view.starts[index(j)], a)) least = std::max(least, end - size + 1);
      // All places lo to hi, halved until the last is worth no more than what ends before the
      // first.
      const auto all = [&](const auto& self, Tick lo, Tick hi) -> void {
        if (lo > hi || beaten(lo + size + kerf, both + worth[index(hi - kerf - a)])) return;
        if (lo == hi)
          return put(links, {lo + size + kerf, both + worth[index(lo - kerf - a)],
                             static_cast<int>(l), item, lo, a, lo - kerf, 0});
        const Tick middle = lo + (hi - lo) / 2;
        self(self, lo, middle);
        self(self, middle + 1, hi);
      };
      for (const Run& run : view.starts[index(j)])
        all(all, std::max(run.from, least), std::min({run.to, end + kerf, horizon_ - size}));
    }
  }
}

Worth Programme::worthOf(const Chain& links, const StripKind& kind, const StripKind::View& view,
                         Tick u2, Trail* trail) const {
  auto last = std::upper_bound(links.begin(), links.end(), u2 + lay_.kerfU,
                               [](Tick next, const Link& l) { return next < l.next; });
  --last;
  Worth most = last->value;
  if (trail != nullptr) *trail = {static_cast<int>(last - links.begin()), 0, 0};
  if (kind.offcutWorth.empty()) return most;
  const Worth reach = lay_.cellWorth(0) * kind.width * u2 - lay_.cutU;
  for (auto link = last + 1; link != links.begin();) {
    --link;
    if (link->slack + reach <= most) break;  // no link from here back can gain enough
    if (link->next >= u2) continue;
    for (const Run& clear : view.clear) {
      const Tick a = std::max(clear.from, link->next), b = std::min(u2, clear.to + 1);
      if (b - a < lay_.leastU()) continue;
      const Worth worth = link->value + kind.offcutWorth[index(b - a)] - lay_.cutU;
      if (worth <= most) continue;
      most = worth;
      if (trail != nullptr) *trail = {static_cast<int>(link - links.begin()), a, b};
    }
  }
  return most;
}

Worth Programme::single(const StripKind& kind, const StripKind::View& view, Tick u1, Tick u2,
                        int* item, Tick* at) const {
  Worth most = 0;
  for (const int j : live_[static_cast<std::size_t>(&kind - lay_.kinds.data())]) {
    const int i = kind.items[index(j)];
    const Tick size = lay_.itemLength[index(i)];
    if (net_[index(i)] + lay_.cutV <= most) continue;
    const Tick place = nextPlace(view.starts[index(j)], u1);
    if (place < 0 || place + size > u2) continue;
    if (!saw_.trim && (place != u1 || size != u2 - u1)) continue;
    most = net_[index(i)] + lay_.cutV;  // the strip's cut is the piece's own
    if (item != nullptr) {
      *item = i;
      *at = place;
    }
  }
  return most;
}

Worth Programme::stripWorth(std::size_t k, int v, Tick u1, Tick u2) {
  Worth& worth = stripWorth_[k][index(v)];
  if (worth >= 0) return worth;
  const StripKind& kind = lay_.kinds[k];
  const StripKind::View& view = kind.views[index(v)];
  if (saw_.stages == 2) {
    worth = single(kind, view, u1, u2, nullptr, nullptr);
  } else {
    if (!known_[k][index(v)]) {
      chains_[k][index(v)] = chain(kind, view, u1);
      known_[k][index(v)] = true;
    }
    worth = worthOf(chains_[k][index(v)], kind, view, u2, nullptr);
  }
  return worth;
}

// ---- a section -------------------------------------------------------------------------------

Worth Programme::offcutsIn(const Runs& runs, Tick u1, Tick u2, Tick dv,
                           std::vector<Run>* where) const {
  if (runs.size() == 1 && runs[0].from == u1 && runs[0].to == u2 - 1) {
    if (where != nullptr) where->push_back(runs[0]);
    return lay_.offcutWorth(u2 - u1, dv);  // the strip itself is the offcut
  }
  if (saw_.stages == 2) return 0;
  bool apart = true;  // by a kerf and more: each run is an offcut or none
  for (std::size_t r = 1; r < runs.size(); ++r)
    apart = apart && runs[r].from >= runs[r - 1].to + 1 + lay_.kerfU;
  if (apart) {
    Worth sum = 0;
    for (const Run& run : runs) {
      const Worth more = lay_.offcutWorth(run.to + 1 - run.from, dv) - lay_.cutU;
      if (more <= 0) continue;
      sum += more;
      if (where != nullptr) where->push_back(run);
    }
    return sum;
  }
  struct State {
    Tick next;
    Worth value;
    std::size_t before;
    Run run;
  };
  std::vector<State> states{{u1, 0, 0, {}}};
  // States that may still lead to the best: worth more, or ending before the next run begins.
  std::vector<std::size_t> open{0}, next;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    const Tick end = runs[r].to + 1;
    const bool thin = r + 1 < runs.size() && runs[r + 1].from < end + lay_.kerfU;
    next = open;
    for (const std::size_t from : open) {
      const Tick start = std::max(runs[r].from, states[from].next);
      for (Tick b = std::max(start + lay_.leastU(), thin ? end - lay_.kerfU : end); b <= end; ++b) {
        const Worth more = lay_.offcutWorth(b - start, dv) - lay_.cutU;
        if (more <= 0) continue;
        states.push_back({b + lay_.kerfU, states[from].value + more, from, {start, b - 1}});
        next.push_back(states.size() - 1);
      }
    }
    const Tick nextStart = r + 1 < runs.size() ? runs[r + 1].from : u2 + lay_.kerfU;
    std::sort(next.begin(), next.end(), [&](std::size_t x, std::size_t y) {
      const Tick tx = std::max(states[x].next, nextStart), ty = std::max(states[y].next, nextStart);
      return tx != ty ? tx < ty : states[x].value > states[y].value;
    });
    open.clear();
    for (const std::size_t state : next)
      if (open.empty() || states[state].value > states[open.back()].value) open.push_back(state);
  }
  const auto best = states.begin() + static_cast<std::ptrdiff_t>(open.back());
  if (where != nullptr)
    for (auto s = static_cast<std::size_t>(best - states.begin()); s != 0; s = states[s].before)
      where->insert(where->begin(), states[s].run);
  return best->value;
}

namespace {

/// Hard cells and marks that a section meets, and the rows where they change.
struct Scenery {
  std::vector<Rect> hard, marks;
  std::vector<char> event;

  Scenery(const Lay& lay, Tick u1, Tick u2) : event(index(lay.width) + 1, 0) {
    const auto mark = [&](Tick row) {
      if (row >= 0 && row <= lay.width) event[index(row)] = 1;
    };
    // Where two rows of offcuts adjoin, the border lies where hard cells change, or one of the two
    // has a size at which the rate steps, or a row of such follows up to the next change.
    std::vector<char> ends(index(lay.width + lay.kerfV) + 1, 0);
    const auto markBefore = [&](Tick end) {
      mark(end);
      if (end >= 0) ends[index(end)] = 1;
    };
    if (u1 < u2) markBefore(lay.width);
    for (const Rect& r : lay.hard)
      if (r.x < u2 && u1 < r.x + r.dx) {
        hard.push_back(r);
        markBefore(r.y);
        mark(r.y + r.dy);
      }
    for (Tick end = lay.width; end > 0; --end) {
      if (ends[index(end)] == 0) continue;
      for (const Tick size : lay.offcutSteps) {
        mark(end - size);
        if (end - size - lay.kerfV > 0) ends[index(end - size - lay.kerfV)] = 1;
      }
    }
    for (const Rect& r : lay.marks)
      if (r.x <= u2 && u1 <= r.x + r.dx) marks.push_back(r);
  }

  /// End of the rows from v on that no mark meets.
  [[nodiscard]] Tick plainUntil(Tick v, Tick width) const {
    Tick end = width;
    for (const Rect& r : marks) {
      if (r.y <= v && v <= r.y + r.dy) return v;
      if (r.y > v) end = std::min(end, r.y - 1);
    }
    return end;
  }

  /// Cells of [u1, u2) free of hard cells in rows v1 to v2.
  [[nodiscard]] Runs clear(Tick u1, Tick u2, Tick v1, Tick v2) const {
    Runs runs{{u1, u2 - 1}};
    for (const Rect& r : hard) {
      if (r.y >= v2 || v1 >= r.y + r.dy) continue;
      Runs left;
      for (const Run& run : runs) {
        if (run.from < r.x) left.push_back({run.from, std::min(run.to, r.x - 1)});
        if (run.to >= r.x + r.dx) left.push_back({std::max(run.from, r.x + r.dx), run.to});
      }
      runs = std::move(left);
    }
    return runs;
  }

  /// First row after v at which a hard cell begins.
  [[nodiscard]] Tick nextHard(Tick v, Tick width) const {
    Tick next = width;
    for (const Rect& r : hard)
      if (r.y > v) next = std::min(next, r.y);
    return next;
  }
};

}  // namespace

Worth Programme::offcutRow(Tick u1, Tick u2, Tick v1, Tick v2, std::vector<Run>* where) const {
  return offcutsIn(Scenery(lay_, u1, u2).clear(u1, u2, v1, v2), u1, u2, v2 - v1, where);
}

void Programme::boundRows(Tick u1, Tick u2, bool offcuts) {
  const Tick width = lay_.width, kerf = lay_.kerfV;
  fromRow_.assign(index(width + kerf) + 1, 0);
  std::vector<Tick> clear;
  if (offcuts) {
    clear.assign(index(width), u2 - u1);
    for (const Rect& r : lay_.hard) {
      const Tick taken = std::min(r.x + r.dx, u2) - std::max(r.x, u1);
      if (taken <= 0) continue;
      // Marks may overlap: only the largest is counted.
      for (Tick v = std::max<Tick>(0, r.y); v < std::min(width, r.y + r.dy); ++v)
        clear[index(v)] = std::min(clear[index(v)], u2 - u1 - taken);
    }
  }
  const Worth cell = offcuts ? lay_.cellWorth(fraction) : 0;
  work_ += index(width) * kindsInUse_.size();
  struct Strips {
    Tick last;               ///< row they may start at
    const int* viewAt;       ///< by row
    const Worth* worth;      ///< by view
    const Worth* fromAbove;  ///< fromRow_ behind a strip, by row
  };
  std::vector<Strips> strips;
  for (const std::size_t k : kindsInUse_) {
    const StripKind& kind = lay_.kinds[k];
    Worth most = 0;
    for (std::size_t v = 0; v < kind.views.size(); ++v)
      most = std::max(most, stripWorth(k, static_cast<int>(v), u1, u2));
    if (most > lay_.cutV)
      strips.push_back({width - kind.width, kind.viewAt.data(), stripWorth_[k].data(),
                        fromRow_.data() + kind.width + kerf});
  }
  for (Tick v = width - 1; v >= 0; --v) {
    Worth most = fromRow_[index(v) + 1];
    if (offcuts) most += ((cell * clear[index(v)]) >> fraction) + 1;
    for (const Strips& s : strips) {
      if (v > s.last) break;
      most = std::max(most, s.fromAbove[v] - lay_.cutV + s.worth[s.viewAt[v]]);
    }
    fromRow_[index(v)] = most;
  }
}

Worth Programme::stack(Tick u1, Tick u2, Worth need, std::vector<Strip>* strips) {
  const Tick width = lay_.width, kerf = lay_.kerfV;
  const bool offcuts = u2 - u1 >= lay_.leastU() && lay_.leastV() <= width;
  for (auto& worths : stripWorth_) std::fill(worths.begin(), worths.end(), -1);
  boundRows(u1, u2, offcuts);
  if (strips == nullptr && (!offcuts || fromRow_[0] <= need)) return fromRow_[0];

  const std::size_t rows = index(width + kerf) + 1;
  std::vector<Worth> row(rows, -1), afterOffcut(rows, -1);
  std::vector<Step> how(rows), howOffcut(rows);
  std::vector<Tick> plainEnd(rows, 0);
  std::vector<char> isStepping(rows, 0);
  row[0] = 0;
  const Scenery scenery = offcuts ? Scenery(lay_, u1, u2) : Scenery(lay_, 0, -1);

  const auto lay = [&](std::size_t k, Tick v, Worth base, Tick before, bool beforeIsOffcut) {
    const StripKind& kind = lay_.kinds[k];
    if (live_[k].empty() || v + kind.width > width) return;
    ++work_;
    const Worth worth = stripWorth(k, kind.viewAt[index(v)], u1, u2) - lay_.cutV;
    if (worth <= 0) return;
    const std::size_t at = index(v + kind.width + kerf);
    if (base + worth <= row[at] || base + worth + fromRow_[at] <= need) return;
    row[at] = base + worth;
    how[at] = {before, beforeIsOffcut, {static_cast<int>(k), v, v + kind.width}};
  };
  const Worth cell = lay_.cellWorth(fraction);
  const auto emit = [&](Tick v1, Worth base, Tick before, bool beforeIsOffcut) {
    const Tick plain = scenery.plainUntil(v1, width);
    for (Tick v = v1; v < width;) {
      const Tick end = scenery.nextHard(v, width);
      const Runs runs = scenery.clear(u1, u2, v1, v + 1);
      if (std::none_of(runs.begin(), runs.end(),
                       [&](const Run& r) { return r.to - r.from + 1 >= lay_.leastU(); }))
        break;
      Worth clearCells = 0;  // most worth of a row of them
      for (const Run& r : runs) clearCells += cell * (r.to - r.from + 1);
      for (Tick v2 = std::max(v + 1, v1 + lay_.leastV()); v2 <= end; ++v2) {
        const Tick next = v2 + kerf;
        // Within plain rows a strip after the offcut could as well lie before it.
        const bool stepping =
            std::binary_search(lay_.offcutSteps.begin(), lay_.offcutSteps.end(), v2 - v1);
        if (quick_ && v2 < end) continue;
        if (v2 < end && !stepping && next + widest_ <= plain &&
            (next > width || !scenery.event[index(next)]))
          continue;
        if (base + (((clearCells * (v2 - v1)) >> fraction) + 1) + fromRow_[index(next)] <= need)
          continue;
        ++work_;
        const Worth worth = offcutsIn(runs, u1, u2, v2 - v1, nullptr) - lay_.cutV;
        const std::size_t at = index(next);
        if (worth <= 0 || base + worth + fromRow_[at] <= need) continue;
        const Step step{before, beforeIsOffcut, {-1, v1, v2}};
        if (v2 == end) {
          if (base + worth > row[at]) {
            row[at] = base + worth;
            how[at] = step;
          }
        } else if (base + worth > afterOffcut[at]) {
          afterOffcut[at] = base + worth;
          howOffcut[at] = step;
          plainEnd[at] = plain;
          isStepping[at] = stepping ? 1 : 0;
        }
      }
      v = end;
    }
  };

  Worth running = 0;
  Tick last = 0;
  for (Tick v = 0; v < width; ++v) {
    const bool rises = v == 0 || row[index(v)] > running;
    if (rises) {
      running = row[index(v)];
      last = v;
      for (const std::size_t k : kindsInUse_) lay(k, v, running, last, false);
    } else {
      for (const std::size_t k : changes_[index(v)]) lay(k, v, running, last, false);
    }
    if (!offcuts || std::max(running, afterOffcut[index(v)]) + fromRow_[index(v)] <= need) continue;
    if (rises || scenery.event[index(v)]) emit(v, running, last, false);
    if (afterOffcut[index(v)] > running) {
      for (const std::size_t k : kindsInUse_)
        if (v + lay_.kinds[k].width > plainEnd[index(v)]) lay(k, v, afterOffcut[index(v)], v, true);
      if (scenery.event[index(v)] || isStepping[index(v)] != 0)
        emit(v, afterOffcut[index(v)], v, true);
    }
  }
  bool lastIsOffcut = false;
  for (std::size_t v = 0; v < rows; ++v) {
    if (row[v] > running) {
      running = row[v];
      last = static_cast<Tick>(v);
      lastIsOffcut = false;
    }
    if (afterOffcut[v] > running) {
      running = afterOffcut[v];
      last = static_cast<Tick>(v);
      lastIsOffcut = true;
    }
  }
  if (strips == nullptr) return std::max(running, std::min(need, fromRow_[0]));
  while (last > 0) {
    const Step& step = lastIsOffcut ? howOffcut[index(last)] : how[index(last)];
    strips->insert(strips->begin(), step.strip);
    last = step.before;
    lastIsOffcut = step.beforeIsOffcut;
  }
  return running;
}

// ---- the board -------------------------------------------------------------------------------

Worth Programme::needed(Tick u2, Worth base) const {
  const Tick next = u2 + lay_.kerfU;
  return std::max(best_[index(next)], incumbent_ - rest(next)) - base;
}

void Programme::reach(Tick at, Worth value, const Reached& how) {
  if (value <= best_[index(at)]) return;
  reached_[index(at)] = how;
  for (std::size_t u = index(at); u < best_.size() && best_[u] < value; ++u) best_[u] = value;
  incumbent_ = std::max(incumbent_, value);
}

Worth Programme::section(Tick u1, Tick u2, Worth base, bool afterOffcut) {
  if (halted_ || (halt_ != nullptr && halt_->now())) {
    halted_ = true;
    return 0;  // the run is given up; nothing is read from this
  }
  const Worth worth = stack(u1, u2, needed(u2, base) + lay_.cutU, nullptr);
  if (worth - lay_.cutU > needed(u2, base))
    reach(u2 + lay_.kerfU, base + worth - lay_.cutU, {u1, afterOffcut, u1, u2, false});
  return worth;
}

void Programme::between(Tick u1, Tick lo, Tick hi, Worth most, Worth base, bool afterOffcut) {
  // No section that ends in lo to hi is worth more than `most`, nor than its columns allow.
  const auto hopeless = [&](Tick u2) {
    return std::min(most, sectionBound(u1, u2)) - lay_.cutU <= needed(u2, base);
  };
  while (lo <= hi) {
    if (most - lay_.cutU <= needed(lo, base)) return;
    while (hi >= lo && hopeless(hi)) --hi;
    while (lo <= hi && hopeless(lo)) ++lo;
    if (lo > hi) return;
    const Tick mid = lo + (hi - lo) / 2;
    const Worth worth = section(u1, mid, base, afterOffcut);
    between(u1, lo, mid - 1, worth, base, afterOffcut);
    if (worth == most) return;  // longer ones are worth no more
    lo = mid + 1;
  }
}

void Programme::sections(Tick u1, Tick beyond, Worth base, bool afterOffcut, Reach reachOf) {
  if (base + rest(u1) <= incumbent_) return;
  for (auto& known : known_) std::fill(known.begin(), known.end(), false);
  const bool growing = saw_.stages == 3 || saw_.trim;
  if (growing && reachOf == Reach::all) {
    const auto hopeless = [&](Tick u2) {
      return sectionBound(u1, u2) - lay_.cutU <= needed(u2, base);
    };
    Tick lo = std::max(u1, beyond) + 1;
    horizon_ = lay_.length;
    while (horizon_ >= lo && hopeless(horizon_)) --horizon_;
    // Between two breaks a longer section is worth no less.
    for (const Tick end : breaks_) {
      if (end < lo) continue;
      Tick hi = std::min(end, horizon_);
      while (hi >= lo && hopeless(hi)) --hi;
      if (hi >= lo) between(u1, lo, hi - 1, section(u1, hi, base, afterOffcut), base, afterOffcut);
      lo = end + 1;
    }
    horizon_ = lay_.length;
    return;
  }
  std::vector<Tick> ends;
  for (const auto size : lay_.itemLength)
    if (size > 0 && u1 + size <= lay_.length) ends.push_back(u1 + size);
  if (growing) {
    ends.push_back(lay_.length);
  } else if (lay_.leastU() <= lay_.length) {
    for (Tick u2 = u1 + lay_.leastU(); u2 <= lay_.length; ++u2) ends.push_back(u2);
  }
  std::sort(ends.begin(), ends.end(), std::greater<>());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  for (const Tick u2 : ends)
    if (u2 > beyond && sectionBound(u1, u2) - lay_.cutU > needed(u2, base))
      section(u1, u2, base, afterOffcut);
}

void Programme::findBreaks() {
  // A strip free of hard cells over its whole length is an offcut without a further cut. That makes
  // a section worth less once it takes in a hard cell, so it may begin just behind one and end just
  // before one; everywhere else a section that sees more is worth no less.
  breaks_ = {lay_.length};
  freshStarts_.clear();
  if (lay_.leastU() <= lay_.length && lay_.leastV() <= lay_.width)
    for (const Rect& r : lay_.hard) {
      if (r.x > 0 && r.x < lay_.length) breaks_.push_back(r.x);
      if (r.x + r.dx < lay_.length) freshStarts_.push_back(r.x + r.dx);
    }
  for (std::vector<Tick>* list : {&breaks_, &freshStarts_}) {
    std::sort(list->begin(), list->end());
    list->erase(std::unique(list->begin(), list->end()), list->end());
  }
}

Tick Programme::plainUntil(Tick u) const {
  Tick end = lay_.length;
  for (const Rect& r : lay_.marks) {
    if (r.x <= u && u <= r.x + r.dx) return u;
    if (r.x > u) end = std::min(end, r.x - 1);
  }
  return end;
}

Filled Programme::run(std::span<const Worth> values, Reach reachOf, Worth floor,
                      std::uint64_t& work, const Halt* halt) {
  Filled filled;
  filled.upperBound = columnBound(values);
  if (filled.upperBound <= floor) return filled;
  work_ = 0;
  sharpen();
  const Worth bound = rest(0);
  filled.upperBound = bound;
  if (bound <= floor) return filled;
  const std::size_t places = index(lay_.length + lay_.kerfU) + 1;
  best_.assign(places, 0);
  bestAfterOffcut_.assign(places, -1);
  reached_.assign(places, {});
  reachedByOffcut_.assign(places, {});
  incumbent_ = floor;
  horizon_ = lay_.length;
  findBreaks();
  // Columns that one offcut may take whole.
  Runs whole;
  if (lay_.leastU() <= lay_.length && lay_.leastV() <= lay_.width)
    whole = lay_.clearAlong(0, lay_.width);
  const bool everywhere = saw_.stages == 2 && !saw_.trim;  // such sections do not grow
  halt_ = halt;
  halted_ = false;
  quick_ = reachOf == Reach::quick;
  for (Tick u = 0; u < lay_.length; ++u) {
    if (halted_) break;
    const bool rises = u == 0 || best_[index(u)] > best_[index(u) - 1];
    const bool fresh = std::binary_search(freshStarts_.begin(), freshStarts_.end(), u);
    if (rises || fresh || everywhere) sections(u, 0, best_[index(u)], false, reachOf);
    for (const Run& run : whole) {
      if (u < run.from || u > run.to || (!rises && u != run.from)) continue;
      const bool chained = bestAfterOffcut_[index(u)] > best_[index(u)];
      const Worth base = chained ? bestAfterOffcut_[index(u)] : best_[index(u)];
      for (Tick u2 = u + lay_.leastU(); u2 <= run.to + 1; ++u2) {
        const Worth value = base + lay_.offcutWorth(u2 - u, lay_.width) - lay_.cutU;
        const std::size_t at = index(u2 + lay_.kerfU);
        const Reached how{u, chained, u, u2, true};
        if (u2 == run.to + 1) {
          reach(u2 + lay_.kerfU, value, how);
        } else if (value > bestAfterOffcut_[at]) {
          bestAfterOffcut_[at] = value;
          reachedByOffcut_[at] = how;
          incumbent_ = std::max(incumbent_, value);
        }
      }
    }
    if (bestAfterOffcut_[index(u)] > best_[index(u)])
      sections(u, plainUntil(reachedByOffcut_[index(u)].from), bestAfterOffcut_[index(u)], true,
               reachOf);
  }
  work += work_;
  filled.pattern = build();
  filled.value =
      std::max(best_.back(), *std::max_element(bestAfterOffcut_.begin(), bestAfterOffcut_.end()));
  if (reachOf == Reach::all && !halted_)
    filled.upperBound = std::min(bound, std::max(filled.value, floor));
  return filled;
}

// ---- the pattern -----------------------------------------------------------------------------

void Programme::buildStrip(const Strip& strip, Tick u1, Tick u2, Pattern& pattern) {
  const auto cell = [&](int depth, Tick u, Tick v, Tick du, Tick dv, int item) {
    Cell made{depth, lay_.onBoard(u, v, du, dv), item, 0};
    if (item >= 0) made.orientation = lay_.orientationAt(item, u, v);
    pattern.cells.push_back(made);
  };
  const Tick dv = strip.to - strip.at;
  if (strip.kind < 0) {
    std::vector<Run> offcuts;
    offcutRow(u1, u2, strip.at, strip.to, &offcuts);
    const bool whole = offcuts.size() == 1 && offcuts[0].from == u1 && offcuts[0].to == u2 - 1;
    cell(2, u1, strip.at, u2 - u1, dv, whole ? Cell::offcut : Cell::divided);
    if (!whole)
      for (const Run& run : offcuts)
        cell(3, run.from, strip.at, run.to - run.from + 1, dv, Cell::offcut);
    return;
  }
  const StripKind& kind = lay_.kinds[index(strip.kind)];
  const StripKind::View& view = kind.views[index(kind.viewAt[index(strip.at)])];
  if (saw_.stages == 2) {
    int item = -1;
    Tick at = u1;
    single(kind, view, u1, u2, &item, &at);
    return cell(2, at, strip.at, lay_.itemLength[index(item)], dv, item);
  }
  cell(2, u1, strip.at, u2 - u1, dv, Cell::divided);
  const Chain links = chain(kind, view, u1);
  Trail trail;
  worthOf(links, kind, view, u2, &trail);
  std::vector<int> order;
  for (int l = trail.after; l > 0; l = links[index(l)].before) order.push_back(l);
  for (auto l = order.rbegin(); l != order.rend(); ++l) {
    const Link& link = links[index(*l)];
    if (link.offcutFrom < link.offcutTo)
      cell(3, link.offcutFrom, strip.at, link.offcutTo - link.offcutFrom, dv, Cell::offcut);
    if (link.item < 0) continue;
    Tick side = 0;  // where strips may be wider than pieces, the nearest place across
    while (lay_.orientationAt(link.item, link.at, strip.at + side) < 0) ++side;
    cell(3, link.at, strip.at + side, lay_.itemLength[index(link.item)],
         lay_.itemWidth[index(link.item)], link.item);
  }
  if (trail.from < trail.to) cell(3, trail.from, strip.at, trail.to - trail.from, dv, Cell::offcut);
}

void Programme::buildSection(Tick u1, Tick u2, Pattern& pattern) {
  std::vector<Strip> strips;
  for (auto& known : known_) std::fill(known.begin(), known.end(), false);
  stack(u1, u2, -1, &strips);
  pattern.cells.push_back({1, lay_.onBoard(u1, 0, u2 - u1, lay_.width), Cell::divided, 0});
  for (const Strip& strip : strips) buildStrip(strip, u1, u2, pattern);
}

Pattern Programme::build() {
  Pattern pattern;
  pattern.first = lay_.first;
  const auto offcutLast = std::max_element(bestAfterOffcut_.begin(), bestAfterOffcut_.end());
  bool afterOffcut = *offcutLast > best_.back();
  Tick at = afterOffcut ? static_cast<Tick>(offcutLast - bestAfterOffcut_.begin())
                        : static_cast<Tick>(best_.size()) - 1;
  std::vector<Reached> path;
  for (;;) {
    if (!afterOffcut) {
      while (at > 0 && best_[index(at) - 1] == best_[index(at)]) --at;
      if (at == 0) break;
    }
    path.push_back(afterOffcut ? reachedByOffcut_[index(at)] : reached_[index(at)]);
    at = path.back().before;
    afterOffcut = path.back().beforeIsOffcut;
  }
  for (auto part = path.rbegin(); part != path.rend(); ++part) {
    if (part->offcut)
      pattern.cells.push_back(
          {1, lay_.onBoard(part->from, 0, part->to - part->from, lay_.width), Cell::offcut, 0});
    else
      buildSection(part->from, part->to, pattern);
  }
  return pattern;
}

// ---- the bound -------------------------------------------------------------------------------

Worth Programme::columns(Tick u1, Tick u2) const {
  const Worth open = toEnd_[index(u2)] - toEnd_[index(u1)];
  return (open + (Worth{1} << fraction) - 1) >> fraction;
}

Worth Programme::sectionBound(Tick u1, Tick u2) {
  return std::min(columns(u1, u2 + lay_.kerfU), clear_.section(u2 - u1));
}

void Programme::sharpen() {
  if (sharp_) return;
  sharp_ = true;
  clear_.price(net_, kindsInUse_);
  const Tick kerf = lay_.kerfU, length = lay_.length;
  const Worth cell = lay_.leastV() <= lay_.width ? lay_.cellWorth(fraction) * lay_.width : 0;
  // What a section of each length brings at most, one that is an offcut as a whole included.
  std::vector<Worth> gain(index(length) + 1, 0);
  const Tick stride = std::max<Tick>(1, length / 256);  // rounded up: a little loose, in less time
  for (Tick l = 1; l <= length; ++l) {
    gain[index(l)] = clear_.section(std::min(length, (l + stride - 1) / stride * stride));
    if (l >= lay_.leastU()) gain[index(l)] = std::max(gain[index(l)], ((cell * l) >> fraction) + 1);
  }
  std::fill(rest_.begin() + length, rest_.end(), 0);
  for (Tick u = length - 1; u >= 0; --u) {
    Worth most = rest_[index(u) + 1];
    const Worth least = columns(u, length + kerf);
    for (Tick l = 1; l <= length - u; ++l) {
      const Worth after = rest_[index(u + l + kerf)] - lay_.cutU;
      if (gain[index(l)] + after <= most) continue;
      most = std::max(most, std::min(gain[index(l)], columns(u, u + l + kerf)) + after);
    }
    rest_[index(u)] = std::min(most, least);
  }
  work_ += index(length) * index(length) / 2;
}

Worth Programme::columnBound(std::span<const Worth> values) {
  if (!rest_.empty() && std::equal(values.begin(), values.end(), values_.begin(), values_.end()))
    return rest(0);
  values_.assign(values.begin(), values.end());
  sharp_ = false;
  prepare(values);
  const Tick columns = lay_.length + lay_.kerfU;
  // Coarser where the rows are many.
  const Tick block =
      std::max<Tick>(1, columns / std::clamp<Tick>(16384 / std::max<Tick>(1, lay_.width), 8, 64));
  const std::size_t blocks = index((columns + block - 1) / block);
  const bool offcuts = lay_.leastU() <= lay_.length && lay_.leastV() <= lay_.width;

  // density[k][view][block]: the dearest piece over a column of the block, per column.
  std::vector<std::vector<std::vector<Worth>>> density(lay_.kinds.size());
  for (std::size_t k = 0; k < lay_.kinds.size(); ++k) {
    if (live_[k].empty()) continue;
    const StripKind& kind = lay_.kinds[k];
    density[k].assign(kind.views.size(), std::vector<Worth>(blocks, 0));
    for (std::size_t v = 0; v < kind.views.size(); ++v)
      for (const int j : live_[k]) {
        const int item = kind.items[index(j)];
        const Tick size = lay_.itemLength[index(item)] + lay_.kerfU;
        const Worth whole = net_[index(item)] + (saw_.stages == 2 ? lay_.cutV : 0);
        const Worth each = ((whole << fraction) + size - 1) / size;
        for (const Run& run : kind.views[v].starts[index(j)])
          for (Tick b = run.from / block; b <= (run.to + size - 1) / block; ++b)
            density[k][v][index(b)] = std::max(density[k][v][index(b)], each);
      }
  }
  Worth filler = 0;
  if (offcuts) filler = lay_.cellWorth(fraction);

  toEnd_.assign(index(columns) + 1, 0);
  std::vector<Worth> row(index(lay_.width + lay_.kerfV) + 1);
  std::vector<std::vector<Worth>> inBlock(lay_.kinds.size());
  for (const std::size_t k : kindsInUse_) inBlock[k].resize(lay_.kinds[k].views.size());
  for (std::size_t b = 0; b < blocks; ++b) {
    const Tick u1 = static_cast<Tick>(b) * block, u2 = std::min(u1 + block, columns);
    std::fill(row.begin(), row.end(), 0);
    std::vector<char> hard(index(lay_.width), 0);
    if (offcuts)
      for (const Rect& r : lay_.hard)
        if (r.x <= u1 && r.x + r.dx >= u2)
          std::fill(hard.begin() + std::max<Tick>(0, r.y),
                    hard.begin() + std::min(lay_.width, r.y + r.dy), 1);
    struct Strips {
      Tick last;          ///< row they may start at
      const int* viewAt;  ///< by row
      const Worth* worth;
      Worth* behind;  ///< row behind a strip, by row
    };
    std::vector<Strips> strips;
    for (const std::size_t k : kindsInUse_) {
      const StripKind& kind = lay_.kinds[k];
      std::vector<Worth>& worth = inBlock[k];
      Worth any = 0;
      for (std::size_t v = 0; v < kind.views.size(); ++v)
        any = std::max(any, worth[v] = density[k][v][b]);
      if (any > 0)
        strips.push_back({lay_.width - kind.width, kind.viewAt.data(), worth.data(),
                          row.data() + kind.width + lay_.kerfV});
    }
    for (Tick v = 0; v < lay_.width; ++v) {
      const Worth base = row[index(v)];
      const Worth next = base + (filler > 0 && hard[index(v)] == 0 ? filler : 0);
      row[index(v) + 1] = std::max(row[index(v) + 1], next);
      for (const Strips& s : strips) {
        if (v > s.last) break;
        s.behind[v] = std::max(s.behind[v], base + s.worth[s.viewAt[v]]);
      }
    }
    const Worth most = *std::max_element(row.begin(), row.end());
    for (Tick u = u1; u < u2; ++u) toEnd_[index(u) + 1] = toEnd_[index(u)] + most;
  }
  rest_.resize(toEnd_.size());
  for (Tick u = 0; u <= columns; ++u) rest_[index(u)] = this->columns(u, columns);
  return rest(0);
}

}  // namespace flitch::optimizer
