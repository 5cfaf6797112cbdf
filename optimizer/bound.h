#pragma once
#include <limits>
#include <span>

#include "optimizer/draft.h"

namespace flitch::optimizer {

/// Lagrangian bound: for any multipliers 0 <= unit[need] <= shortage,
///   sum unit d + sum over stock of copies · min(0, cost - z)     (without the min for copies that
/// must be opened), z at least the worth of the best pattern at these multipliers. Exact integers,
/// valid whatever the multipliers. `z` holds one figure for each stock.
[[nodiscard]] Worth lagrangian(const Problem& problem, std::span<const Worth> unit,
                               std::span<const Worth> z);

/// Prices of all items at these multipliers, without caps.
[[nodiscard]] std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit);

/// Multipliers on their way to a good bound, by subgradients. Floating point only chooses them; the
/// bound at any of them is exact.
class Multipliers {
 public:
  explicit Multipliers(const Problem& problem)
      : problem_(problem), unit_(problem.needs.size(), 0) {}

  /// Looks along the shares of the shortage prices, where the bound is concave, with the columns of
  /// the boards only. Returns the best bound met.
  Worth start(Pricers& pricers, const Halt& halt, Filling& spent);
  /// Prices every board exactly and steps towards what is supplied too little. Returns the bound at
  /// the multipliers before the step; a board the halt cuts off counts with its columns.
  Worth round(Worth cost, Pricers& pricers, const Halt& halt, Filling& spent);
  [[nodiscard]] int rounds() const { return rounds_; }

 private:
  const Problem& problem_;
  std::vector<Worth> unit_;
  std::vector<Worth> best_;
  Worth bound_ = std::numeric_limits<Worth>::min();
  double stride_ = 1;
  int sinceBetter_ = 0;
  int rounds_ = 0;
};

}  // namespace flitch::optimizer
