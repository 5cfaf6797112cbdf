#pragma once
#include <limits>
#include <span>

#include "optimizer/draft.h"
#include "optimizer/master.h"

namespace flitch::optimizer {

/// Lagrangian bound: for any multipliers 0 <= unit[need] <= shortage,
///   sum unit d + sum over stock of copies · min(0, cost - z)     (without the min for copies that
/// must be opened), z at least the worth of the best pattern at these multipliers. Exact integers,
/// valid whatever the multipliers. `z` holds one figure for each stock.
[[nodiscard]] Worth lagrangian(const Problem& problem, std::span<const Worth> unit,
                               std::span<const Worth> z);

/// Prices of all items at these multipliers. No plan needs more copies of one on a board than its
/// whole need takes, so that is its cap; one with a
/// negative extra has none, since a copy too many may pay.
[[nodiscard]] std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit);

/// Multipliers on their way to a good bound, by column generation with smoothed duals. Floating
/// point only chooses them; the bound at any of them is exact.
class Multipliers {
 public:
  explicit Multipliers(const Problem& problem) : problem_(problem), master_(problem) {}

  /// Looks along the shares of the shortage prices, where the bound is concave, with the columns of
  /// the boards only. Returns the best bound met.
  Worth start(Pricers& pricers, const Halt& halt, Filling& spent);
  /// A pattern some plan uses.
  void learn(int stock, const Pattern& pattern) { master_.add(stock, pattern); }
  /// One round: solves the master, prices every board exactly between its duals and the best
  /// multipliers so far, adds the patterns. Returns the bound at the multipliers priced at; a board
  /// the halt cuts off counts with its columns.
  Worth round(Pricers& pricers, const Halt& halt, Filling& spent);
  /// Nothing new was found at the master's own duals: the bound is as good as it gets.
  [[nodiscard]] bool converged() const { return converged_; }
  /// What the next round's bound will be.
  [[nodiscard]] BoundKind kind() const {
    return caps_ == Caps::keep ? BoundKind::exact : BoundKind::relaxed;
  }

 private:
  const Problem& problem_;
  Master master_;
  std::vector<Worth> best_;  ///< multipliers of the best bound
  Worth bound_ = std::numeric_limits<Worth>::min();
  bool smooth_ = true;
  Caps caps_ = Caps::drop;
  bool converged_ = false;
};

}  // namespace flitch::optimizer
