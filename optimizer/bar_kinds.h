#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

#include "optimizer/bar_stock.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {

/// Costs of bars are below it, so that their worths in whole parts stay exact.
inline constexpr Worth dearestBar = Worth{1} << 36;

/// Up to the next multiple of `step`; all above zero.
[[nodiscard]] Worth upToStep(Wide dividend, Wide divisor, Worth step);

/// A bar problem without kerf: a kerf more to every piece and bar is the same. Pieces of one length
/// are one kind, long ones first.
struct BarKinds {
  /// Throws what cutBars() throws.
  explicit BarKinds(const BarProblem& problem);

  std::vector<std::int64_t> size, wanted;       ///< of each kind
  std::vector<std::vector<std::size_t>> needs;  ///< of that length
  std::vector<std::int64_t> room;               ///< of each bar
  std::vector<Worth> cost;

  [[nodiscard]] std::int64_t longest() const;
  /// The cheapest bar with that much room, which must be in one.
  [[nodiscard]] int cheapestBar(std::int64_t size) const;
  /// So many of each kind at the least cost of a tick, up to a multiple of `step`.
  [[nodiscard]] Worth continuousBound(const std::vector<std::int64_t>& some, Worth step) const;
};

}  // namespace flitch::optimizer
