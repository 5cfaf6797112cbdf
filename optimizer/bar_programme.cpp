#include "optimizer/bar_programme.h"

#include <algorithm>
#include <limits>

#include "optimizer/index.h"
#include "optimizer/knapsack.h"
#include "optimizer/plain_programme.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {

bool isBar(const Lay& lay, const Saw& saw) {
  if (saw.stages != 2 || !isPlain(lay)) return false;
  return lay.kinds.empty() || 2 * lay.kinds.front().width + lay.kerfV > lay.width;
}

Best barBest(const Lay& lay, std::span<const Priced> priced, Caps caps, const Halt* halt) {
  Best best;
  best.pattern.first = lay.first;
  best.capsKept = true;
  const std::size_t room = index(lay.length + lay.kerfU);
  std::vector<int> itemOf;
  std::vector<Packable> items;
  Wide all = 0;
  for (const Priced& p : priced) {
    const Tick length = lay.itemLength[index(p.item)];
    const Worth worth = p.value - lay.cutU - lay.cutV;
    if (length == 0 || worth <= 0 || lay.orientationAt(p.item, 0, 0) < 0) continue;
    const Tick size = length + lay.kerfU;
    auto most = static_cast<std::int64_t>(room / index(size));
    if (most > p.cap && caps == Caps::keep) most = p.cap;
    itemOf.push_back(p.item);
    items.push_back({size, worth, most});
    all += Wide{worth} * most;
  }
  Packing packing;
  if (!packing.fill(items, room, halt)) {
    best.upperBound =
        static_cast<Worth>(std::min(all, Wide{std::numeric_limits<Worth>::max() / 4}));
    return best;
  }
  best.work += packing.work();
  best.value = best.upperBound = packing.most(room);
  const std::vector<std::int64_t> copies = packing.copies(room);
  Tick u = 0;
  std::vector<std::int64_t> copiesOf(lay.itemLength.size(), 0);
  for (std::size_t i = 0; i < items.size(); ++i) {
    const int item = itemOf[i];
    const Tick length = lay.itemLength[index(item)];
    for (std::int64_t copy = 0; copy < copies[i]; ++copy) {
      best.pattern.cells.push_back({1, lay.onBoard(u, 0, length, lay.width), Cell::divided, 0});
      best.pattern.cells.push_back({2, lay.onBoard(u, 0, length, lay.itemWidth[index(item)]), item,
                                    lay.orientationAt(item, u, 0)});
      u += length + lay.kerfU;
    }
    copiesOf[index(item)] += copies[i];
  }
  for (const Priced& p : priced) best.capsKept = best.capsKept && copiesOf[index(p.item)] <= p.cap;
  return best;
}

}  // namespace flitch::optimizer
