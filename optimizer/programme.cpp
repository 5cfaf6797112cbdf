// The board: sections one behind the other, and the pattern they make.
#include "optimizer/programme.h"
#include "optimizer/index.h"

#include <algorithm>
#include <array>
#include <atomic>

#include "optimizer/workspace.h"

namespace flitch::optimizer {
namespace {

/// Adds what is done while it lives.
struct Spent {
  const Workspace& space;
  std::uint64_t& sum;
  std::uint64_t before = space.work();
  Spent(const Workspace& w, std::uint64_t& s) : space(w), sum(s) {}
  Spent(const Spent&) = delete;
  Spent& operator=(const Spent&) = delete;
  ~Spent() { sum += space.work() - before; }
};

std::uint64_t nextId() {
  static std::atomic<std::uint64_t> last = 0;
  return ++last;
}

}  // namespace

Workspace& Workspace::of(FirstCut first) {
  thread_local std::array<Workspace, 2> spaces;
  return spaces[first == FirstCut::x ? 0 : 1];
}

void Workspace::reach(Tick at, Worth value, const Programme::Reached& how) {
  if (value <= best[index(at)]) return;
  reached[index(at)] = how;
  for (std::size_t u = index(at); u < best.size() && best[u] < value; ++u) best[u] = value;
  incumbent = std::max(incumbent, value);
}

void Workspace::findBreaks() {
  // A strip free of hard cells over its whole length is an offcut without a further cut. That makes
  // a section worth less once it takes in a hard cell, so it may begin just behind one and end just
  // before one; everywhere else a section that sees more is worth no less.
  const Lay& lay = *pricing.lay;
  const bool offcuts = lay.leastU() <= lay.length && lay.leastV() <= lay.width;
  breaks = {lay.length};
  freshStarts.clear();
  whole.clear();
  if (offcuts) {
    whole = lay.clearAlong(0, lay.width);
    for (const Rect& r : lay.hard) {
      if (r.x > 0 && r.x < lay.length) breaks.push_back(r.x);
      if (r.x + r.dx < lay.length) freshStarts.push_back(r.x + r.dx);
    }
  }
  for (std::vector<Tick>* list : {&breaks, &freshStarts}) {
    std::sort(list->begin(), list->end());
    list->erase(std::unique(list->begin(), list->end()), list->end());
  }
}

Programme::Programme(const Lay& lay, const Saw& saw)
    : lay_(lay), saw_(saw), rule_(lay), id_(nextId()) {
  for (const std::vector<Tick>* rows : {&rule_.changes, &rule_.lateRows})
    for (const Tick row : *rows) ruledRows_.push_back(row - lay.kerfV);
  for (const std::vector<Tick>* places : {&rule_.fresh, &rule_.late})
    for (const Tick place : *places) ruledEnds_.push_back(place - lay.kerfU);
  std::sort(ruledRows_.begin(), ruledRows_.end());
  std::sort(ruledEnds_.begin(), ruledEnds_.end());
}

Workspace& Programme::prepare(std::span<const Worth> values) {
  Workspace& w = Workspace::of(lay_.first);
  if (w.owner == id_ && std::equal(values.begin(), values.end(), w.values.begin(), w.values.end()))
    return w;
  w.owner = id_;
  w.values.assign(values.begin(), values.end());
  w.pricing.set(lay_, saw_, values);
  w.sharp = false;
  w.rest.price(w.pricing);
  return w;
}

void Programme::forget() {
  Workspace& w = Workspace::of(lay_.first);
  if (w.owner == id_) w.owner = 0;
}

Worth Programme::columnBound(std::span<const Worth> values) { return prepare(values).rest.from(0); }

void Programme::sharpen(Workspace& w) {
  if (w.sharp) return;
  w.sharp = true;
  w.clear.price(w.pricing);
  w.sections.price(w.pricing, w.clear);
  w.rest.sharpen(w.clear);
}

Worth Programme::section(Workspace& w, Tick u1, Tick u2, Worth base, bool afterOffcut) {
  if (w.stopped()) return 0;  // the run is given up; nothing is read from this
  const Tick next = u2 + lay_.kerfU;
  const Worth need = w.needed(next) - base + lay_.cutU;
  const Worth worth = w.sections.worth(u2, need);
  if (worth > need)
    w.reach(next, base + worth - lay_.cutU,
            {u1, afterOffcut, u1, u2, false, worth, w.sections.allowed()});
  return worth;
}

void Programme::between(Workspace& w, Tick u1, Tick lo, Tick hi, Worth most, Worth base,
                        bool afterOffcut) {
  // No section that ends in lo to hi is worth more than `most`, nor than its columns allow.
  const auto needed = [&](Tick u2) { return w.needed(u2 + lay_.kerfU) - base + lay_.cutU; };
  const auto hopeless = [&](Tick u2) {
    return std::min(most, w.rest.section(u1, u2)) <= needed(u2);
  };
  while (lo <= hi) {
    if (most <= needed(lo)) return;
    while (hi >= lo && hopeless(hi)) --hi;
    while (lo <= hi && hopeless(lo)) ++lo;
    if (lo > hi) return;
    const Tick mid = lo + (hi - lo) / 2;
    const Worth worth = section(w, u1, mid, base, afterOffcut);
    between(w, u1, lo, mid - 1, worth, base, afterOffcut);
    if (worth == most) return;  // longer ones are worth no more
    lo = mid + 1;
  }
}

void Programme::ruledSections(Workspace& w, Tick u1, Worth base, bool afterOffcut) {
  if (base + w.rest.from(u1) <= w.incumbent) return;
  bool started = false;
  const auto end = [&](Tick u2) {
    if (u2 - u1 < lay_.leastU() || u2 > lay_.length) return;
    const Tick next = u2 + lay_.kerfU;
    if (w.rest.section(u1, u2) - lay_.cutU <= w.needed(next) - base) return;
    if (!started) w.sections.start(u1, lay_.length, OffcutsIn::ruled);
    started = true;
    section(w, u1, u2, base, afterOffcut);
  };
  for (const Tick edge : rule_.edges) end(edge);
  for (auto size = rule_.lengths.rbegin(); size != rule_.lengths.rend(); ++size) end(u1 + *size);
}

void Programme::bareSections(Workspace& w, Tick u1, Worth base, bool afterOffcut) {
  if (base + w.rest.from(u1) <= w.incumbent) return;
  Tick hi = lay_.length;
  while (hi > u1 && w.rest.section(u1, hi) - lay_.cutU <= w.needed(hi + lay_.kerfU) - base) --hi;
  if (hi == u1) return;
  w.sections.start(u1, hi, OffcutsIn::nowhere);
  const Worth worth = section(w, u1, hi, base, afterOffcut);
  between(w, u1, u1 + 1, hi - 1, worth, base, afterOffcut);
}

void Programme::sections(Workspace& w, Tick u1, Tick beyond, Worth base, bool afterOffcut,
                         Reach reach) {
  if (base + w.rest.from(u1) <= w.incumbent) return;
  const auto hopeless = [&](Tick u2) {
    return w.rest.section(u1, u2) - lay_.cutU <= w.needed(u2 + lay_.kerfU) - base;
  };
  const bool growing = saw_.stages == 3 || saw_.trim;
  if (growing && reach == Reach::all) {
    Tick lo = std::max(u1, beyond) + 1, horizon = lay_.length;
    while (horizon >= lo && hopeless(horizon)) --horizon;
    if (horizon < lo) return;
    w.sections.start(u1, horizon, OffcutsIn::anywhere);
    // Between two breaks a longer section is worth no less.
    for (const Tick end : w.breaks) {
      if (end < lo) continue;
      Tick hi = std::min(end, horizon);
      while (hi >= lo && hopeless(hi)) --hi;
      if (hi >= lo) {
        const Worth worth = section(w, u1, hi, base, afterOffcut);
        between(w, u1, lo, hi - 1, worth, base, afterOffcut);
      }
      lo = end + 1;
    }
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
  w.sections.start(u1, lay_.length,
                   reach == Reach::quick ? OffcutsIn::bounded : OffcutsIn::anywhere);
  for (const Tick u2 : ends)
    if (u2 > beyond && !hopeless(u2)) section(w, u1, u2, base, afterOffcut);
}

Tick Programme::plainUntil(Tick u) const {
  Tick end = lay_.length;
  for (const Rect& r : lay_.marks) {
    if (r.x <= u && u <= r.x + r.dx) return u;
    if (r.x > u) end = std::min(end, r.x - 1);
  }
  return end;
}

void Programme::wholeOffcuts(Workspace& w, Tick u, bool rises) {
  for (const Run& run : w.whole) {
    if (u < run.from || u > run.to || (!rises && u != run.from)) continue;
    const bool chained = w.bestAfterOffcut[index(u)] > w.best[index(u)];
    const Worth base = (chained ? w.bestAfterOffcut[index(u)] : w.best[index(u)]) - lay_.cutU;
    for (Tick u2 = u + lay_.leastU(); u2 <= run.to + 1; ++u2) {
      if (ruled_ && u2 <= run.to && !std::binary_search(ruledEnds_.begin(), ruledEnds_.end(), u2))
        continue;
      const Tick next = u2 + lay_.kerfU;
      const Worth value = base + lay_.wholeOffcut[index(u2 - u)];
      if (value + w.rest.from(next) <= w.incumbent) continue;
      const Reached how{u, chained, u, u2, true, 0};
      if (u2 == run.to + 1) {
        w.reach(next, value, how);
      } else if (value > w.bestAfterOffcut[index(next)]) {
        w.bestAfterOffcut[index(next)] = value;
        w.reachedByOffcut[index(next)] = how;
        w.incumbent = std::max(w.incumbent, value);
      }
    }
  }
}

Filled Programme::run(std::span<const Worth> values, Reach reach, Worth floor, std::uint64_t& work,
                      const Halt* halt, std::uint64_t most, bool ruled) {
  Filled filled;
  Workspace& w = prepare(values);
  const Spent spent{w, work};
  filled.upperBound = w.rest.from(0);
  if (filled.upperBound <= floor) return filled;
  w.halt = halt;
  w.halted = false;
  w.mostWork = most < std::numeric_limits<std::uint64_t>::max() - w.work()
                   ? w.work() + most
                   : std::numeric_limits<std::uint64_t>::max();
  w.nextLook = 0;
  sharpen(w);
  // Where marks leave much of the board useless that bound is far off.
  if (reach == Reach::all && !lay_.marks.empty() && w.rest.from(0) > floor + floor / 5)
    w.rest.sharpenByMarks(w.sections, halt);
  filled.upperBound = w.rest.from(0);
  if (filled.upperBound <= floor) return filled;
  const std::size_t places = index(lay_.length + lay_.kerfU) + 1;
  w.best.assign(places, 0);
  w.bestAfterOffcut.assign(places, -1);
  w.reached.assign(places, {});
  w.reachedByOffcut.assign(places, {});
  w.incumbent = floor;
  w.findBreaks();
  const bool everywhere = saw_.stages == 2 && !saw_.trim;  // such sections do not grow
  ruled_ = ruled && reach == Reach::all && saw_.stages == 3 && !saw_.trim && rule_.keeps;
  w.sections.rule(&ruledRows_);
  for (Tick u = 0; u < lay_.length && !w.halted; ++u) {
    const bool rises = u == 0 || w.best[index(u)] > w.best[index(u) - 1];
    const bool fresh = std::binary_search(w.freshStarts.begin(), w.freshStarts.end(), u);
    if (ruled_) {
      // A section that holds offcuts does not grow: it begins where another ends, wherever.
      ruledSections(w, u, w.best[index(u)], false);
      if (rises) bareSections(w, u, w.best[index(u)], false);
      wholeOffcuts(w, u, rises);
      if (const Worth after = w.bestAfterOffcut[index(u)]; after > w.best[index(u)]) {
        ruledSections(w, u, after, true);
        bareSections(w, u, after, true);
      }
      continue;
    }
    if (rises || fresh || everywhere) sections(w, u, 0, w.best[index(u)], false, reach);
    wholeOffcuts(w, u, rises);
    if (w.bestAfterOffcut[index(u)] > w.best[index(u)])
      sections(w, u, plainUntil(w.reachedByOffcut[index(u)].from), w.bestAfterOffcut[index(u)],
               true, reach);
  }
  build(w, filled);
  if (reach == Reach::all && !w.halted)
    filled.upperBound = std::min(filled.upperBound, std::max(filled.value, floor));
  return filled;
}

void Programme::build(Workspace& w, Filled& filled) {
  filled.pattern.first = lay_.first;
  const auto offcutLast = std::max_element(w.bestAfterOffcut.begin(), w.bestAfterOffcut.end());
  bool afterOffcut = *offcutLast > w.best.back();
  Tick at = afterOffcut ? static_cast<Tick>(offcutLast - w.bestAfterOffcut.begin())
                        : static_cast<Tick>(w.best.size()) - 1;
  std::vector<Reached> path;
  for (;;) {
    if (!afterOffcut) {
      while (at > 0 && w.best[index(at) - 1] == w.best[index(at)]) --at;
      if (at == 0) break;
    }
    path.push_back(afterOffcut ? w.reachedByOffcut[index(at)] : w.reached[index(at)]);
    at = path.back().before;
    afterOffcut = path.back().beforeIsOffcut;
  }
  for (auto part = path.rbegin(); part != path.rend(); ++part) {
    const Tick length = part->to - part->from;
    filled.value -= lay_.cutU;
    if (part->offcut) {
      filled.value += lay_.wholeOffcut[index(length)];
      filled.pattern.cells.push_back(
          {1, lay_.onBoard(part->from, 0, length, lay_.width), Cell::offcut, 0});
    } else {
      // Exactly, also after a quick run: few sections, and often a better offcut.
      const OffcutsIn offcuts =
          part->offcuts == OffcutsIn::bounded ? OffcutsIn::anywhere : part->offcuts;
      filled.value += w.sections.build(part->from, part->to, part->worth, offcuts, filled.pattern);
    }
  }
}

}  // namespace flitch::optimizer
