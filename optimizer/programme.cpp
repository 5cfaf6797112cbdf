// The board: sections one behind the other, and the pattern they make.
#include "optimizer/programme.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

}  // namespace

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
  halt_ = halt;
  halted_ = false;
  // Where marks leave much of the board useless that bound is far off.
  if (reachOf == Reach::all && !lay_.marks.empty() && rest(0) > floor + floor / 5) sharpenByMarks();
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

}  // namespace flitch::optimizer
