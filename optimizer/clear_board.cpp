#include "optimizer/clear_board.h"

#include <algorithm>
#include <limits>

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

}  // namespace

Worth ClearBoard::offcut(Tick du, Tick dv) const { return ((cell_ * du * dv) >> fraction) + 1; }

void ClearBoard::price(std::span<const Worth> net, std::span<const std::size_t> kinds) {
  cell_ = lay_.cellWorth(fraction);
  section_.assign(index(lay_.length) + 1, -1);
  strips_.clear();
  for (const std::size_t k : kinds) fillStrips(lay_.kinds[k], net);
}

void ClearBoard::fillStrips(const StripKind& kind, std::span<const Worth> net) {
  strips_.push_back({kind.width, {}});
  std::vector<Worth>& by = strips_.back().by;
  by.assign(index(lay_.length) + 1, 0);
  // Pieces alone, by length with a kerf behind.
  const Tick room = lay_.length + lay_.kerfU;
  chain_.assign(index(room) + 1, 0);
  for (Tick c = 1; c <= room; ++c) {
    Worth most = chain_[index(c) - 1];
    for (const int item : kind.items) {
      const Worth own = net[index(item)];
      const Tick size = lay_.itemLength[index(item)] + lay_.kerfU;
      if (own <= 0 || size > c) continue;
      // With two stages a piece is its strip, and the strip's cut its own.
      most = std::max(most, saw_.stages == 3 ? chain_[index(c - size)] + own : own + lay_.cutV);
    }
    chain_[index(c)] = most;
  }
  const bool offcuts = saw_.stages == 3 && !kind.offcutWorth.empty();
  const Worth perTick = cell_ * kind.width;
  Worth before = std::numeric_limits<Worth>::min() / 2;  // greatest chain - its length in offcut
  for (Tick u = 0; u <= lay_.length; ++u) {
    by[index(u)] = chain_[index(u + lay_.kerfU)];
    if (!offcuts || u < lay_.leastU()) continue;
    const Tick start = u - lay_.leastU();
    before = std::max(before, (chain_[index(start)] << fraction) - perTick * start);
    by[index(u)] = std::max(by[index(u)], ((before + perTick * u) >> fraction) + 1 - lay_.cutU);
  }
}

Worth ClearBoard::section(Tick length) {
  Worth& worth = section_[index(length)];
  if (worth < 0) worth = stacked(length);
  return worth;
}

Worth ClearBoard::stacked(Tick length) {
  struct Entry {
    Tick size;
    Worth worth;
  };
  std::vector<Entry> entries;
  for (const Strips& strips : strips_)
    if (const Worth worth = strips.by[index(length)] - lay_.cutV; worth > 0)
      entries.push_back({strips.width + lay_.kerfV, worth});
  const bool offcuts = length >= lay_.leastU();
  Worth most = 0;
  const Tick room = lay_.width + lay_.kerfV;
  row_.assign(index(room) + 1, 0);
  for (Tick v = 0; v <= room; ++v) {
    Worth here = v == 0 ? 0 : row_[index(v) - 1];
    for (const Entry& entry : entries)
      if (entry.size <= v) here = std::max(here, row_[index(v - entry.size)] + entry.worth);
    row_[index(v)] = here;
    if (offcuts && lay_.width - v >= lay_.leastV())
      most = std::max(most, here + offcut(length, lay_.width - v) - lay_.cutV);
  }
  return std::max(most, row_.back());
}

}  // namespace flitch::optimizer
