// What a section can be worth at most, and when that is not enough.
#include "optimizer/sections.h"
#include "optimizer/index.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

constexpr std::size_t none = static_cast<std::size_t>(-1);

}  // namespace

void Sections::price(const Pricing& pricing, const ClearBoard& clear) {
  pricing_ = &pricing;
  clear_ = &clear;
  entries_.clear();
  entryOf_.assign(pricing.lay->kinds.size(), none);
  strips.price(pricing, clear);
}

void Sections::start(Tick u1, Tick horizon, OffcutsIn offcuts) {
  const Lay& lay = *pricing_->lay;
  u1_ = u1;
  offcuts_ = offcuts;
  strips.start(u1, horizon);
  events_.clear();
  for (const ViewChange& change : lay.viewChanges) {
    const std::size_t kind = index(change.kind);
    if (pricing_->live[kind].empty()) continue;
    if (strips.sight(kind, change.below) == strips.sight(kind, change.above)) continue;
    events_.push_back({lay.width - change.row - lay.kinds[kind].width, change.row, kind});
  }
}

Worth Sections::rowWorth() const {
  const Lay& lay = *pricing_->lay;
  if (offcuts_ == OffcutsIn::nowhere || pricing_->cell == 0 || u2_ - u1_ < lay.leastU()) return 0;
  Tick most = 0;
  for (const Band& band : lay.bands) {
    Tick cells = 0;
    for (const Run& run : band.clear) {
      if (run.from >= u2_) break;
      const Tick own = std::min(run.to + 1, u2_) - std::max(run.from, u1_);
      if (own >= lay.leastU()) cells += own;
    }
    most = std::max(most, cells);
  }
  return pricing_->cell * most;
}

void Sections::findEntries() {
  const Lay& lay = *pricing_->lay;
  for (const Entry& entry : entries_) entryOf_[entry.kind] = none;
  entries_.clear();
  for (const std::size_t k : pricing_->kinds) {
    const Worth worth = clear_->strip(k)[u2_ - u1_] - lay.cutV;
    const Tick size = lay.kinds[k].width + lay.kerfV;
    const Worth taken = perRow_ * size;
    if ((worth << fraction) <= taken) continue;
    entryOf_[k] = entries_.size();
    entries_.push_back({k, size, taken, (worth << fraction) - taken});
  }
}

bool Sections::hopeless(Worth have, Tick at, Worth need) const {
  const Tick total = pricing_->lay->width + pricing_->lay->kerfV;
  return have + perRow_ * at + (below_[total - at] << fraction) <= need << fraction;
}

void Sections::put(const Entry& entry, Tick row, Worth have, Worth need) {
  const Lay& lay = *pricing_->lay;
  const Tick at = lay.width + lay.kerfV - row;
  if (hopeless(have + entry.clear, at, need)) return;
  ++work;
  const Worth worth = strips.bound(entry.kind, lay.kinds[entry.kind].viewAt[index(row)]) - lay.cutV;
  const Worth more = (worth << fraction) - entry.taken;
  if (more > 0 && !hopeless(have + more, at, need)) ladder_.put(at, have + more);
}

Worth Sections::bound(Tick u2, Worth need) {
  const Lay& lay = *pricing_->lay;
  u2_ = u2;
  strips.end(u2, offcuts_);
  perRow_ = rowWorth();
  below_ = clear_->rows(u2 - u1_);
  findEntries();
  const Tick total = lay.width + lay.kerfV;
  rungs_.clear();
  ladder_.start(total);
  ladder_.put(0, 0);
  Worth most = -1;
  Tick from = 0;
  for (std::size_t e = 0;;) {
    const Tick at = ladder_.next(from);
    if (e < events_.size() && (at < 0 || events_[e].at < at)) {
      const Event& event = events_[e++];
      const std::size_t entry = entryOf_[event.kind];
      if (entry != none && !hopeless(most, event.at, need))
        put(entries_[entry], event.row, most, need);
      continue;
    }
    if (at < 0) break;
    from = at + 1;
    if (ladder_.value(at) <= most) continue;
    most = ladder_.value(at);
    rungs_.push_back({at, most});
    if (hopeless(most, at, need)) continue;
    for (const Entry& entry : entries_) {
      if (at + entry.size > total) break;
      put(entry, total - at - entry.size, most, need);
    }
  }
  return std::max(need, (most + perRow_ * total) >> fraction);
}

const std::vector<Worth>& Sections::fromRow() {
  const Tick total = pricing_->lay->width + pricing_->lay->kerfV;
  fromRow_.resize(index(total) + 1);
  std::size_t r = 0;
  for (Tick at = 0; at <= total; ++at) {
    if (r + 1 < rungs_.size() && rungs_[r + 1].at == at) ++r;
    fromRow_[index(total - at)] = (rungs_[r].value + perRow_ * at) >> fraction;
  }
  return fromRow_;
}

Worth Sections::worth(Tick u2, Worth need) {
  const Worth most = bound(u2, need);
  if (most <= need || (perRow_ == 0 && !strips.loose())) return most;
  return exactly(need, nullptr);
}

Worth Sections::build(Tick u1, Tick u2, Worth worth, OffcutsIn offcuts, Pattern& pattern) {
  const Lay& lay = *pricing_->lay;
  start(u1, u2, offcuts);
  bound(u2, worth - 1);
  std::vector<Strip> stack;
  const Worth built = exactly(worth - 1, &stack);
  pattern.cells.push_back({1, lay.onBoard(u1, 0, u2 - u1, lay.width), Cell::divided, 0});
  for (const Strip& strip : stack) {
    if (strip.kind < 0)
      buildOffcutRow(u1, u2, strip.at, strip.to, pattern);
    else
      strips.build(index(strip.kind), lay.kinds[index(strip.kind)].viewAt[index(strip.at)],
                   strip.at, pattern);
  }
  return built;
}

}  // namespace flitch::optimizer
