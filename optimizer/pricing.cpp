#include "optimizer/pricing.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {

void Pricing::set(const Lay& ofLay, const Saw& ofSaw, std::span<const Worth> values) {
  lay = &ofLay;
  saw = &ofSaw;
  const Worth own = saw->stages == 3 ? lay->cutU : lay->cutV;
  net.clear();
  for (const Worth value : values) net.push_back(value - own);
  live.resize(std::max(live.size(), lay->kinds.size()));
  kinds.clear();
  firstView.clear();
  changes.resize(std::max(changes.size(), index(lay->width) + 1));
  for (auto& here : changes) here.clear();
  views = 0;
  widest = 0;
  for (std::size_t k = 0; k < lay->kinds.size(); ++k) {
    const StripKind& kind = lay->kinds[k];
    firstView.push_back(views);
    views += kind.views.size();
    live[k].clear();
    for (std::size_t j = 0; j < kind.items.size(); ++j) {
      const int item = kind.items[j];
      if (net[index(item)] > 0)
        live[k].push_back({lay->itemLength[index(item)] + lay->kerfU, net[index(item)], item, j});
    }
    if (live[k].empty()) continue;
    widest = std::max(widest, kind.width);
    kinds.push_back(k);
    for (std::size_t v = 1; v < kind.viewAt.size(); ++v)
      if (kind.viewAt[v] != kind.viewAt[v - 1]) changes[v].push_back(k);
  }
  cell = lay->leastU() <= lay->length && lay->leastV() <= lay->width ? lay->cellWorth(fraction) : 0;
}

}  // namespace flitch::optimizer
