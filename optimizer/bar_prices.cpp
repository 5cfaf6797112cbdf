#include "optimizer/bar_prices.h"

#include <algorithm>
#include <cmath>

namespace flitch::optimizer {
BarPrices::BarPrices(const BarKinds& kinds) : kinds_(kinds) {
  const Worth dearest = *std::max_element(kinds.cost.begin(), kinds.cost.end());
  while (dearest * unit_ * 2 <= dearestBar) unit_ *= 2;
}

BarPrices::Priced BarPrices::price(std::span<const Worth> worth,
                                   std::span<const std::int64_t> wanted) {
  constexpr std::uint64_t searchingPays = 16;  // cells of the programme to a step of the search
  Priced priced;
  priced.unit = unit_;
  std::vector<Packable> items;
  std::vector<int> kindOf;
  for (std::size_t k = 0; k < worth.size(); ++k) {
    priced.all += Wide{worth[k]} * wanted[k];
    if (worth[k] <= 0 || wanted[k] <= 0) continue;
    items.push_back({kinds_.size[k], worth[k], wanted[k]});
    kindOf.push_back(static_cast<int>(k));
  }
  const auto room = static_cast<std::uint64_t>(kinds_.longest());
  const std::uint64_t most = items.size() * room / searchingPays;
  bool filled = false;
  for (std::size_t b = 0; b < kinds_.room.size(); ++b) {
    Best& best = priced.best.emplace_back();
    best.pattern.bar = static_cast<int>(b);
    std::vector<std::int64_t> copies;
    FoundPacking found;
    if (!filled) {
      found = searchPacking(items, kinds_.room[b], most);
      constexpr std::uint64_t stepCosts = 4;
      work_ += stepCosts * found.steps;
    }
    if (found.whole) {
      best.worth = found.worth;
      best.bound = found.bound;
      copies = std::move(found.copies);
    } else {
      if (!filled) {
        packing_.fill(items, room);
        work_ += packing_.work();
      }
      filled = true;
      const auto own = static_cast<std::size_t>(kinds_.room[b]);
      best.worth = best.bound = packing_.most(own);
      copies = packing_.copies(own);
    }
    for (std::size_t i = 0; i < items.size(); ++i)
      if (copies[i] > 0) best.pattern.pieces.emplace_back(kindOf[i], copies[i]);
  }
  return priced;
}

const BarPrices::Best& BarPrices::Priced::dearest(std::span<const Worth> costs) const {
  std::size_t most = 0;
  for (std::size_t b = 1; b < best.size(); ++b)
    if (Wide{best[b].worth} * costs[most] > Wide{best[most].worth} * costs[b]) most = b;
  return best[most];
}

Worth BarPrices::Priced::bound(std::span<const Worth> costs, Worth step) const {
  // The bar that most exceeds its cost; worths are divided by that excess.
  Wide over = 1, under = 1;
  for (std::size_t b = 0; b < best.size(); ++b) {
    const Wide cost = Wide{costs[b]} * unit;
    if (best[b].bound * under <= over * cost) continue;
    over = best[b].bound;
    under = cost;
  }
  return upToStep(all * under, over * unit, step);
}

std::vector<Worth> BarPrices::whole(std::span<const double> worths) const {
  std::vector<Worth> whole;
  for (const double worth : worths)
    whole.push_back(
        static_cast<Worth>(std::max(0.0, std::floor(worth * static_cast<double>(unit_)))));
  return whole;
}

bool BarPrices::pays(const Best& best, std::span<const Worth> costs) const {
  constexpr int rounding = 29;  // bits: past what the search leaves out
  const Worth cost = costs[static_cast<std::size_t>(best.pattern.bar)] * unit_;
  return best.worth > cost + (cost >> rounding);
}

}  // namespace flitch::optimizer
