// What a section can be worth: a stack of strips and rows of offcuts.
#include "optimizer/programme.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

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

}  // namespace flitch::optimizer
