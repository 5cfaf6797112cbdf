#include "optimizer/bar_programme.h"

#include <algorithm>
#include <limits>

#include "optimizer/plain_programme.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

std::size_t index(int value) { return static_cast<std::size_t>(value); }

/// Some copies of an item, taken together or not at all.
struct Bundle {
  int item;
  std::int64_t copies;
  std::size_t size;
  Worth worth;
};

}  // namespace

bool isBar(const Lay& lay, const Saw& saw) {
  if (saw.stages != 2 || !isPlain(lay)) return false;
  return lay.kinds.empty() || 2 * lay.kinds.front().width + lay.kerfV > lay.width;
}

Best barBest(const Lay& lay, std::span<const Priced> priced, Caps caps, const Halt* halt) {
  Best best;
  best.pattern.first = lay.first;
  best.capsKept = true;
  const std::size_t room = index(lay.length + lay.kerfU);
  std::vector<Bundle> bundles;
  for (const Priced& p : priced) {
    const Tick length = lay.itemLength[index(p.item)];
    const Worth worth = p.value - lay.cutU - lay.cutV;
    if (length == 0 || worth <= 0 || lay.orientationAt(p.item, 0, 0) < 0) continue;
    const std::size_t size = index(length + lay.kerfU);
    auto left = static_cast<std::int64_t>(room / size);
    if (left > p.cap && caps == Caps::keep) left = p.cap;
    for (std::int64_t copies = 1; left > 0; copies *= 2) {
      const std::int64_t some = std::min(copies, left);
      bundles.push_back({p.item, some, size * static_cast<std::size_t>(some), worth * some});
      left -= some;
    }
  }
  std::vector<Worth> most(room + 1, 0);
  std::vector<std::vector<bool>> takes;
  for (const Bundle& bundle : bundles) {
    if (halt != nullptr && halt->now()) {
      Wide bound = 0;
      for (const Bundle& b : bundles) bound += b.worth;
      best.upperBound =
          static_cast<Worth>(std::min(bound, Wide{std::numeric_limits<Worth>::max() / 4}));
      return best;
    }
    std::vector<bool>& take = takes.emplace_back(room + 1, false);
    for (std::size_t c = room; c >= bundle.size; --c)
      if (const Worth with = most[c - bundle.size] + bundle.worth; with > most[c]) {
        most[c] = with;
        take[c] = true;
      }
    best.work += room;
  }
  best.value = best.upperBound = most[room];
  std::size_t left = room;
  Tick u = 0;
  std::vector<std::int64_t> copiesOf(lay.itemLength.size(), 0);
  for (std::size_t b = bundles.size(); b-- > 0;) {
    if (!takes[b][left]) continue;
    left -= bundles[b].size;
    const int item = bundles[b].item;
    const Tick length = lay.itemLength[index(item)];
    for (std::int64_t copy = 0; copy < bundles[b].copies; ++copy) {
      best.pattern.cells.push_back({1, lay.onBoard(u, 0, length, lay.width), Cell::divided, 0});
      best.pattern.cells.push_back({2, lay.onBoard(u, 0, length, lay.itemWidth[index(item)]), item,
                                    lay.orientationAt(item, u, 0)});
      u += length + lay.kerfU;
    }
    copiesOf[index(item)] += bundles[b].copies;
  }
  for (const Priced& p : priced) best.capsKept = best.capsKept && copiesOf[index(p.item)] <= p.cap;
  return best;
}

}  // namespace flitch::optimizer
