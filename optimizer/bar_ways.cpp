#include "optimizer/bar_ways.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace flitch::optimizer {
namespace {

class Ways {
 public:
  Ways(const BarKinds& kinds, Worth below, std::uint64_t most)
      : kinds_(kinds), below_(below), most_(most), left_(kinds.wanted) {
    for (const Worth cost : kinds.cost) step_ = std::gcd(step_, cost);
  }

  BarWays run() {
    ways_.finished = next(0);
    return std::move(ways_);
  }

 private:
  using Count = std::vector<std::int64_t>;

  /// Cuts the next bar in every way. False: given up.
  bool next(Worth cost) {
    const auto first = std::find_if(left_.begin(), left_.end(), [](auto n) { return n > 0; });
    if (first == left_.end()) {
      if (cost < below_) {
        below_ = cost;
        ways_.cheaper = cut_;
      }
      return true;
    }
    if (cost + kinds_.continuousBound(left_, step_) >= below_) return true;
    const auto [seen, fresh] = reached_.try_emplace(left_, cost);
    if (!fresh && seen->second <= cost) return true;
    seen->second = cost;
    const auto kind = static_cast<std::size_t>(first - left_.begin());
    for (std::size_t bar = 0; bar < kinds_.room.size(); ++bar) {
      if (kinds_.room[bar] < kinds_.size[kind]) continue;
      cut_.push_back({static_cast<int>(bar), {}});
      const bool done = fill(kind, kind, kinds_.room[bar], cost + kinds_.cost[bar]);
      cut_.pop_back();
      if (!done) return false;
    }
    return true;
  }

  /// Fills what room the newest bar has left with pieces from `kind` on; it must hold the first.
  bool fill(std::size_t must, std::size_t kind, std::int64_t room, Worth cost) {
    if (++ways_.steps > most_) return false;
    if (kind == left_.size()) return full(room) ? next(cost) : true;
    const std::int64_t most = std::min(left_[kind], room / kinds_.size[kind]);
    const std::int64_t least = kind == must ? 1 : 0;
    for (std::int64_t count = most; count >= least; --count) {
      left_[kind] -= count;
      if (count > 0) cut_.back().pieces.emplace_back(static_cast<int>(kind), count);
      const bool done = fill(must, kind + 1, room - count * kinds_.size[kind], cost);
      if (count > 0) cut_.back().pieces.pop_back();
      left_[kind] += count;
      if (!done) return false;
    }
    return true;
  }

  /// A bar with room for a piece still wanted is no worse with it.
  [[nodiscard]] bool full(std::int64_t room) const {
    for (std::size_t k = 0; k < left_.size(); ++k)
      if (left_[k] > 0 && kinds_.size[k] <= room) return false;
    return true;
  }

  const BarKinds& kinds_;
  Worth below_;
  std::uint64_t most_;
  Worth step_ = 0;
  Count left_;
  std::vector<BarPattern> cut_;
  std::map<Count, Worth> reached_;  ///< the least cost at which so much was left
  BarWays ways_;
};

}  // namespace

BarWays everyWay(const BarKinds& kinds, Worth below, std::uint64_t most) {
  return Ways(kinds, below, most).run();
}

}  // namespace flitch::optimizer
