#include "optimizer/clear_board.h"

#include <algorithm>
#include <limits>

#include "optimizer/index.h"

namespace flitch::optimizer {

void ClearBoard::price(const Pricing& pricing) {
  pricing_ = &pricing;
  const Lay& lay = *pricing.lay;
  stripsEach_ = index(lay.length) + 1;
  rowsEach_ = index(lay.width + lay.kerfV) + 1;
  strips_.resize(std::max(strips_.size(), stripsEach_ * lay.kinds.size()));
  for (const std::size_t k : pricing.kinds) fillStrips(k);
  findLevels();
}

void ClearBoard::fillStrips(std::size_t k) {
  const Lay& lay = *pricing_->lay;
  const StripKind& kind = lay.kinds[k];
  Worth* by = strips_.data() + k * stripsEach_;
  // Pieces alone, by length with a kerf behind.
  const Tick room = lay.length + lay.kerfU;
  chain_.assign(index(room) + 1, 0);
  const bool chained = pricing_->saw->stages == 3;
  for (std::size_t c = 1; c < chain_.size(); ++c) {
    Worth most = chain_[c - 1];
    for (const Pricing::Live& live : pricing_->live[k]) {
      if (index(live.size) > c) continue;
      // With two stages a piece is its strip, and the strip's cut its own.
      most =
          std::max(most, chained ? chain_[c - index(live.size)] + live.net : live.net + lay.cutV);
    }
    chain_[c] = most;
  }
  work_ += chain_.size();
  std::copy(chain_.begin() + lay.kerfU, chain_.end(), by);
  if (!chained || kind.offcutWorth.empty()) return;
  const Worth perTick = pricing_->cell * kind.width;
  Worth before = std::numeric_limits<Worth>::min() / 2;  // greatest chain - its length in offcut
  for (Tick u = lay.leastU(); u <= lay.length; ++u) {
    const Tick start = u - lay.leastU();
    before = std::max(before, (chain_[index(start)] << fraction) - perTick * start);
    by[u] = std::max(by[u], ((before + perTick * u) >> fraction) - lay.cutU);
  }
}

void ClearBoard::findLevels() {
  // Lengths worth nearly the same share a level: a little loose, in a fraction of the time.
  constexpr Worth apart = 256;
  levels_.clear();
  rows_.clear();
  levelOf_.assign(stripsEach_, 0);
  struct Range {
    Tick below = 0;
    Worth worthBelow = 0;
    Level to;
  };
  std::vector<Range> open{{0, 0, stack(pricing_->lay->length)}};
  while (!open.empty()) {
    const Range range = open.back();
    open.pop_back();
    const Tick lengths = range.to.length - range.below;
    if (lengths > 1 && range.to.worth - range.worthBelow > range.to.worth / apart) {
      const Level middle = stack(range.below + lengths / 2);
      open.push_back({middle.length, middle.worth, range.to});
      open.push_back({range.below, range.worthBelow, middle});
      continue;
    }
    for (Tick u = range.below + 1; u <= range.to.length; ++u) levelOf_[index(u)] = levels_.size();
    levels_.push_back(range.to);
  }
}

ClearBoard::Level ClearBoard::stack(Tick length) {
  const Lay& lay = *pricing_->lay;
  const Tick room = lay.width + lay.kerfV;
  const std::size_t first = rows_.size();
  rows_.resize(first + rowsEach_, 0);
  Worth* rows = rows_.data() + first;
  ladder_.start(room);
  ladder_.put(0, 0);
  entries_.clear();
  for (const std::size_t k : pricing_->kinds)
    if (const Worth worth = strip(k)[length] - lay.cutV; worth > 0)
      entries_.push_back({lay.kinds[k].width + lay.kerfV, worth});
  Worth most = -1;
  Tick filled = 0;
  for (Tick v = 0; v >= 0; v = ladder_.next(v + 1)) {
    const Worth value = ladder_.value(v);
    if (value <= most) continue;
    std::fill(rows + filled, rows + v, std::max<Worth>(0, most));
    filled = v;
    most = value;
    for (const Entry& entry : entries_) {
      if (v + entry.size > room) break;
      ladder_.put(v + entry.size, most + entry.worth);
    }
    work_ += entries_.size();
  }
  std::fill(rows + filled, rows + room + 1, most);
  if (length < lay.leastU() || pricing_->cell == 0) return {length, rows[room], first};
  // With offcuts over some rows. For the section itself they have a least size and a cut; the rows
  // alone go by area, so that rows left open and rows taken compare.
  const Worth perRow = pricing_->cell * length;
  const Tick last = lay.width - lay.leastV();
  Worth worth = rows[room], before = 0;  // greatest stack - its rows in offcut
  for (Tick v = 0; v <= room; ++v) {
    before = std::max(before, (rows[v] << fraction) - perRow * v);
    if (v <= last) worth = std::max(worth, ((before + perRow * lay.width) >> fraction) - lay.cutV);
    rows[v] = (before + perRow * v) >> fraction;
  }
  return {length, worth, first};
}

}  // namespace flitch::optimizer
