#include "optimizer/knapsack.h"

#include <algorithm>
#include <limits>
#include <numeric>

#include "optimizer/wide.h"

namespace flitch::optimizer {

bool Packing::fill(std::span<const Packable> items, std::size_t room, const Halt* halt) {
  items_ = items.size();
  bundles_.clear();
  work_ = 0;
  for (std::size_t i = 0; i < items.size(); ++i) {
    const auto size = static_cast<std::size_t>(items[i].size);
    std::int64_t left = std::min(items[i].most, static_cast<std::int64_t>(room / size));
    for (std::int64_t copies = 1; left > 0; copies *= 2) {
      const std::int64_t some = std::min(copies, left);
      bundles_.push_back({i, some, size * static_cast<std::size_t>(some), items[i].worth * some});
      left -= some;
    }
  }
  most_.assign(room + 1, 0);
  takes_.resize(bundles_.size());
  for (std::size_t b = 0; b < bundles_.size(); ++b) {
    if (halt != nullptr && halt->now()) return false;
    const Bundle& bundle = bundles_[b];
    std::vector<bool>& take = takes_[b];
    take.assign(room + 1, false);
    for (std::size_t c = room; c >= bundle.size; --c)
      if (const Worth with = most_[c - bundle.size] + bundle.worth; with > most_[c]) {
        most_[c] = with;
        take[c] = true;
      }
    work_ += room;
  }
  return true;
}

std::vector<std::int64_t> Packing::copies(std::size_t room) const {
  std::vector<std::int64_t> copies(items_, 0);
  std::size_t left = room;
  for (std::size_t b = bundles_.size(); b-- > 0;) {
    if (!takes_[b][left]) continue;
    left -= bundles_[b].size;
    copies[bundles_[b].item] += bundles_[b].copies;
  }
  return copies;
}

namespace {

constexpr int tolerance = 30;  ///< bits: gains below this share of the best are not looked for

class Search {
 public:
  Search(std::span<const Packable> items, std::uint64_t most)
      : items_(items), order_(items.size()), least_(items.size() + 1), most_(most) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
    std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
      return Wide{items[a].worth} * items[b].size > Wide{items[b].worth} * items[a].size;
    });
    least_.back() = std::numeric_limits<std::int64_t>::max();
    for (std::size_t k = order_.size(); k-- > 0;)
      least_[k] = std::min(least_[k + 1], items[order_[k]].size);
    copies_.assign(items.size(), 0);
    found_.copies = copies_;
  }

  FoundPacking run(std::int64_t room) {
    found_.whole = from(0, room, 0);
    found_.bound = found_.worth + (found_.worth >> tolerance);
    return std::move(found_);
  }

 private:
  /// Packs items from place `k` of the order on into what room is left. False: given up.
  bool from(std::size_t k, std::int64_t room, Worth worth) {
    if (worth > found_.worth) {
      found_.worth = worth;
      found_.copies = copies_;
    }
    for (; k < order_.size() && room >= least_[k]; ++k) {
      if (++found_.steps > most_) return false;
      const Packable& item = items_[order_[k]];
      const Wide rest = Wide{room} * item.worth / item.size;
      if (worth + rest <= found_.worth + (found_.worth >> tolerance)) return true;
      std::int64_t& copies = copies_[order_[k]];
      for (copies = std::min(item.most, room / item.size); copies > 0; --copies)
        if (!from(k + 1, room - copies * item.size, worth + copies * item.worth)) return false;
    }
    return true;
  }

  std::span<const Packable> items_;
  std::vector<std::size_t> order_;
  std::vector<std::int64_t> least_;  ///< least size from a place of the order on
  std::uint64_t most_;
  std::vector<std::int64_t> copies_;
  FoundPacking found_;
};

}  // namespace

FoundPacking searchPacking(std::span<const Packable> items, std::int64_t room, std::uint64_t most) {
  return Search(items, most).run(room);
}

}  // namespace flitch::optimizer
