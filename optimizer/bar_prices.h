#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/bar_kinds.h"
#include "optimizer/bar_master.h"
#include "optimizer/knapsack.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {

/// Prices bars exactly at given worths of the pieces: by search, or by dynamic programming where
/// that takes too long.
class BarPrices {
 public:
  explicit BarPrices(const BarKinds& kinds);

  /// The pattern worth most on a bar, no piece more often than wanted.
  struct Best {
    BarPattern pattern;
    Worth worth = 0;
    Worth bound = 0;  ///< no pattern is worth more
  };
  struct Priced {
    std::int64_t unit = 1;   ///< worths are so many parts of the unit of cost
    Wide all = 0;            ///< worth of all that is wanted
    std::vector<Best> best;  ///< of each bar
    /// The bar whose best is worth most for its cost.
    [[nodiscard]] const Best& dearest(std::span<const Worth> costs) const;
    /// What is wanted costs at least that, up to a multiple of `step`: worths cut down until no
    /// pattern is worth more than its bar are a solution of the dual.
    [[nodiscard]] Worth bound(std::span<const Worth> costs, Worth step) const;
  };
  [[nodiscard]] Priced price(std::span<const Worth> worth, std::span<const std::int64_t> wanted);
  /// Worths in whole parts of the unit of cost, rounded down; below zero to zero.
  [[nodiscard]] std::vector<Worth> whole(std::span<const double> worths) const;
  /// Whether it is worth more than its bar, beyond rounding.
  [[nodiscard]] bool pays(const Best& best, std::span<const Worth> costs) const;
  [[nodiscard]] std::uint64_t work() const { return work_; }

 private:
  const BarKinds& kinds_;
  std::int64_t unit_ = 1;
  Packing packing_;
  std::uint64_t work_ = 0;
};

}  // namespace flitch::optimizer
