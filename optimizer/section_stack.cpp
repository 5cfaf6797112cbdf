// The exact worth of a section: a stack of strips and rows of offcuts.
#include <algorithm>

#include "optimizer/index.h"
#include "optimizer/sections.h"

namespace flitch::optimizer {

void Sections::look() {
  const Lay& lay = *pricing_->lay;
  hard_.clear();
  marks_.clear();
  border_.assign(index(lay.width) + 1, 0);
  if (perRow_ == 0) return;
  const auto mark = [&](Tick row) {
    if (row >= 0 && row <= lay.width) border_[index(row)] = 1;
  };
  // Where two rows of offcuts adjoin, the border lies where hard cells change, or one of the two
  // has a size at which the rate steps, or a row of such follows up to the next change.
  ends_.assign(index(lay.width + lay.kerfV) + 1, 0);
  const auto markBefore = [&](Tick end) {
    mark(end);
    if (end >= 0) ends_[index(end)] = 1;
  };
  markBefore(lay.width);
  for (const Rect& r : lay.hard)
    if (r.x < u2_ && u1_ < r.x + r.dx) {
      hard_.push_back(r);
      markBefore(r.y);
      mark(r.y + r.dy);
    }
  for (Tick end = lay.width; end > 0; --end) {
    if (ends_[index(end)] == 0) continue;
    for (const Tick size : lay.offcutSteps) {
      mark(end - size);
      if (end - size - lay.kerfV > 0) ends_[index(end - size - lay.kerfV)] = 1;
    }
  }
  for (const Rect& r : lay.marks)
    if (r.x <= u2_ && u1_ <= r.x + r.dx) marks_.push_back(r);
}

/// End of the rows from v on that no mark meets.
Tick Sections::plainUntil(Tick v) const {
  Tick end = pricing_->lay->width;
  for (const Rect& r : marks_) {
    if (r.y <= v && v <= r.y + r.dy) return v;
    if (r.y > v) end = std::min(end, r.y - 1);
  }
  return end;
}

void Sections::clearOf(Tick v1, Tick v2, Runs& runs) {
  runs.assign(1, {u1_, u2_ - 1});
  for (const Rect& r : hard_) {
    if (r.y >= v2 || v1 >= r.y + r.dy) continue;
    left_.clear();
    for (const Run& run : runs) {
      if (run.from < r.x) left_.push_back({run.from, std::min(run.to, r.x - 1)});
      if (run.to >= r.x + r.dx) left_.push_back({std::max(run.from, r.x + r.dx), run.to});
    }
    std::swap(runs, left_);
  }
}

Worth Sections::offcutsIn(const Runs& runs, Tick dv, std::vector<Run>* where) const {
  const Lay& lay = *pricing_->lay;
  if (runs.size() == 1 && runs[0].from == u1_ && runs[0].to == u2_ - 1) {
    if (where != nullptr) where->push_back(runs[0]);
    return lay.offcutWorth(u2_ - u1_, dv);  // the strip itself is the offcut
  }
  if (pricing_->saw->stages == 2) return 0;
  bool apart = true;  // by a kerf and more: each run is an offcut or none
  for (std::size_t r = 1; r < runs.size(); ++r)
    apart = apart && runs[r].from >= runs[r - 1].to + 1 + lay.kerfU;
  if (apart) {
    Worth sum = 0;
    for (const Run& run : runs) {
      const Worth more = lay.offcutWorth(run.to + 1 - run.from, dv) - lay.cutU;
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
  std::vector<State> states{{u1_, 0, 0, {}}};
  // States that may still lead to the best: worth more, or ending before the next run begins.
  std::vector<std::size_t> open{0}, next;
  for (std::size_t r = 0; r < runs.size(); ++r) {
    const Tick end = runs[r].to + 1;
    const bool thin = r + 1 < runs.size() && runs[r + 1].from < end + lay.kerfU;
    next = open;
    for (const std::size_t from : open) {
      const Tick start = std::max(runs[r].from, states[from].next);
      for (Tick b = std::max(start + lay.leastU(), thin ? end - lay.kerfU : end); b <= end; ++b) {
        const Worth more = lay.offcutWorth(b - start, dv) - lay.cutU;
        if (more <= 0) continue;
        states.push_back({b + lay.kerfU, states[from].value + more, from, {start, b - 1}});
        next.push_back(states.size() - 1);
      }
    }
    const Tick nextStart = r + 1 < runs.size() ? runs[r + 1].from : u2_ + lay.kerfU;
    std::sort(next.begin(), next.end(), [&](std::size_t x, std::size_t y) {
      const Tick tx = std::max(states[x].next, nextStart), ty = std::max(states[y].next, nextStart);
      return tx != ty ? tx < ty : states[x].value > states[y].value;
    });
    open.clear();
    for (const std::size_t state : next)
      if (open.empty() || states[state].value > states[open.back()].value) open.push_back(state);
  }
  if (where != nullptr)
    for (std::size_t s = open.back(); s != 0; s = states[s].before)
      where->insert(where->begin(), states[s].run);
  return states[open.back()].value;
}

void Sections::lay(std::size_t k, Tick v, Worth base, Tick before, bool beforeIsOffcut,
                   Worth need) {
  const Lay& lay = *pricing_->lay;
  const StripKind& kind = lay.kinds[k];
  if (v + kind.width > lay.width) return;
  const std::size_t at = index(v + kind.width + lay.kerfV);
  // What the strip must pass to be of use.
  const Worth asked = std::max({row_[at] - base, need - fromRow_[at] - base, Worth{0}}) + lay.cutV;
  if (clear_->strip(k)[u2_ - u1_] <= asked) return;
  ++work;
  const Worth worth = strips.worth(k, kind.viewAt[index(v)], asked);
  if (worth <= asked) return;
  row_[at] = base + worth - lay.cutV;
  how_[at] = {before, beforeIsOffcut, {static_cast<int>(k), v, v + kind.width}};
}

void Sections::offcutsFrom(Tick v1, Worth base, Tick before, bool beforeIsOffcut, Worth need) {
  const Lay& lay = *pricing_->lay;
  const Tick width = lay.width, plain = plainUntil(v1);
  for (Tick v = v1; v < width;) {
    Tick end = width;  // the first row at which a hard cell begins
    for (const Rect& r : hard_)
      if (r.y > v) end = std::min(end, r.y);
    clearOf(v1, v + 1, runs_);
    Tick cells = 0, longest = 0;
    for (const Run& r : runs_) {
      cells += r.to - r.from + 1;
      longest = std::max(longest, r.to - r.from + 1);
    }
    if (longest < lay.leastU()) break;
    const Worth perRow = pricing_->cell * cells;
    const Tick first = std::max(v + 1, v1 + lay.leastV());
    const bool bounded = offcuts_ == OffcutsIn::bounded, ruled = offcuts_ == OffcutsIn::ruled;
    for (Tick v2 = bounded ? std::max(first, end) : first; v2 <= end; ++v2) {
      if (ruled && v2 < end && !std::binary_search(rowEnds_->begin(), rowEnds_->end(), v2))
        continue;
      ++work;
      const std::size_t at = index(v2 + lay.kerfV);
      // With each row more the offcut gains no more than what is left loses.
      if (base + ((perRow * (v2 - v1)) >> fraction) + fromRow_[at] < need) break;
      // Within plain rows a strip after the offcut could as well lie before it.
      const bool stepping =
          std::binary_search(lay.offcutSteps.begin(), lay.offcutSteps.end(), v2 - v1);
      if (!ruled && v2 < end && !stepping && v2 + lay.kerfV + pricing_->widest <= plain &&
          (v2 + lay.kerfV > width || border_[at] == 0))
        continue;
      const Worth worth = offcutsIn(runs_, v2 - v1, nullptr) - lay.cutV;
      if (worth <= 0 || base + worth + fromRow_[at] <= need) continue;
      const Step step{before, beforeIsOffcut, {-1, v1, v2}};
      if (v2 == end) {
        if (base + worth <= row_[at]) continue;
        row_[at] = base + worth;
        how_[at] = step;
      } else if (base + worth > afterOffcut_[at]) {
        afterOffcut_[at] = base + worth;
        howOffcut_[at] = step;
        plainEnd_[at] = ruled ? 0 : plain;
        stepping_[at] = ruled || stepping ? 1 : 0;
      }
    }
    v = end;
  }
}

Worth Sections::exactly(Worth need, std::vector<Strip>* stack) {
  const Lay& lay = *pricing_->lay;
  const Tick width = lay.width;
  const std::size_t rows = index(width + lay.kerfV) + 1;
  row_.assign(rows, -1);
  afterOffcut_.assign(rows, -1);
  how_.resize(rows);
  howOffcut_.resize(rows);
  plainEnd_.assign(rows, 0);
  stepping_.assign(rows, 0);
  row_[0] = 0;
  fromRow();
  look();
  Worth running = 0;
  Tick last = 0;
  for (Tick v = 0; v < width; ++v) {
    const std::size_t here = index(v);
    const bool rises = v == 0 || row_[here] > running;
    if (rises) {
      running = row_[here];
      last = v;
    }
    if (std::max(running, afterOffcut_[here]) + fromRow_[here] <= need) continue;
    for (const std::size_t k : rises ? pricing_->kinds : pricing_->changes[here])
      this->lay(k, v, running, last, false, need);
    if (perRow_ == 0) continue;
    if (rises || border_[here] != 0) offcutsFrom(v, running, last, false, need);
    if (afterOffcut_[here] <= running) continue;
    for (const std::size_t k : pricing_->kinds)
      if (v + lay.kinds[k].width > plainEnd_[here])
        this->lay(k, v, afterOffcut_[here], v, true, need);
    if (border_[here] != 0 || stepping_[here] != 0)
      offcutsFrom(v, afterOffcut_[here], v, true, need);
  }
  bool lastIsOffcut = false;
  for (std::size_t v = 0; v < rows; ++v) {
    if (row_[v] > running) {
      running = row_[v];
      last = static_cast<Tick>(v);
      lastIsOffcut = false;
    }
    if (afterOffcut_[v] > running) {
      running = afterOffcut_[v];
      last = static_cast<Tick>(v);
      lastIsOffcut = true;
    }
  }
  if (stack != nullptr)
    while (last > 0) {
      const Step& step = lastIsOffcut ? howOffcut_[index(last)] : how_[index(last)];
      stack->insert(stack->begin(), step.strip);
      last = step.before;
      lastIsOffcut = step.beforeIsOffcut;
    }
  return std::max(running, need);
}

Worth Sections::offcutRow(Tick u1, Tick u2, Tick v1, Tick v2, std::vector<Run>* where) {
  u1_ = u1;
  u2_ = u2;
  hard_.clear();
  for (const Rect& r : pricing_->lay->hard)
    if (r.x < u2 && u1 < r.x + r.dx) hard_.push_back(r);
  clearOf(v1, v2, runs_);
  return offcutsIn(runs_, v2 - v1, where);
}

void Sections::buildOffcutRow(Tick u1, Tick u2, Tick v1, Tick v2, Pattern& pattern) {
  const Lay& lay = *pricing_->lay;
  std::vector<Run> offcuts;
  offcutRow(u1, u2, v1, v2, &offcuts);
  const auto cell = [&](int depth, Tick u, Tick du, int item) {
    pattern.cells.push_back({depth, lay.onBoard(u, v1, du, v2 - v1), item, 0});
  };
  const bool whole = offcuts[0].from == u1 && offcuts[0].to == u2 - 1;
  cell(2, u1, u2 - u1, whole ? Cell::offcut : Cell::divided);
  if (whole) return;
  for (const Run& run : offcuts) cell(3, run.from, run.to - run.from + 1, Cell::offcut);
}

}  // namespace flitch::optimizer
