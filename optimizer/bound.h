#pragma once
#include <limits>
#include <span>

#include "optimizer/board_worth.h"
#include "optimizer/draft.h"
#include "optimizer/master.h"

namespace flitch::optimizer {

/// Lagrangian bound: for any multipliers 0 <= unit[need] <= shortage,
///   sum unit d + sum over stock of copies · min(0, cost - z)     (without the min for copies that
/// must be opened) + sum over recipes of most times · min(0, cost + used unit - made unit), z at
/// least the worth of the best pattern at these multipliers. Exact integers, valid whatever the
/// multipliers. `z` holds one figure for each stock.
[[nodiscard]] Worth lagrangian(const Problem& problem, std::span<const Worth> unit,
                               std::span<const Worth> z);

/// What every plan costs is a multiple of this; 1 where offcuts are worth something. A bound may
/// be rounded up to the next.
[[nodiscard]] Worth costStep(const Problem& problem);

/// Prices of all items at these multipliers. No plan needs more copies of one on a board than its
/// whole need takes, so that is its cap; one with a
/// negative extra has none, since a copy too many may pay.
[[nodiscard]] std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit);

/// A pricing of a stock: no pattern was worth more than `most` at `unit`; empty: never priced.
struct PricedAt {
  std::vector<Worth> unit;
  Worth most = 0;
};
/// No pattern of the stock is worth more than this where none was worth more than `before` and a
/// copy of each item is now worth so much more (or less). Prices that rose can lift a board only by
/// what it holds of these parts: with caps kept as much of each as is wanted, by area no more than
/// the board. O(items log items).
[[nodiscard]] Worth lifted(const Problem& problem, const Stock& stock, Worth before,
                           std::span<const Worth> rises, Caps caps);
/// Likewise at other multipliers.
[[nodiscard]] Worth carriedBound(const Problem& problem, const Stock& stock, const PricedAt& before,
                                 std::span<const Worth> unit, Caps caps);

/// Multipliers on their way to a good bound, by column generation with smoothed duals. Floating
/// point only chooses them; the bound at any of them is exact.
class Multipliers {
 public:
  explicit Multipliers(const Problem& problem)
      : problem_(problem),
        master_(problem),
        wanted_(flitch::optimizer::wanted(problem)),
        last_(problem.stock.size()),
        rations_(problem.stock.size()),
        pauses_(problem.stock.size()) {
    for (const Stock& stock : problem.stock) single_ = single_ && stock.copies == 1;
  }

  /// For what is left of the problem `before` knows, over the same boards: takes over its figures
  /// and the columns that nearly pay. Asks quickly, for plans, and keeps caps in what it finds.
  Multipliers(const Problem& rest, const Multipliers& before);

  /// Looks along the shares of the shortage prices, then, where that is better, of prices by area;
  /// the bound is concave along each, with the columns of the boards only. Returns the best met.
  Worth start(Pricers& pricers, const Halt& halt, Filling& spent);
  /// A pattern some plan uses.
  void learn(int stock, const Pattern& pattern) { master_.add(stock, pattern); }
  /// One round: solves the master, prices boards exactly between its duals and the best multipliers
  /// so far, adds the patterns. A board whose older pricing shows that it cannot pay is not asked
  /// again, and a round that has found enough patterns ends; such boards count with what the older
  /// pricing allows, boards cut off by the halt with their columns. A bound within `trifle` of the
  /// master's optimum, which none at any multipliers exceeds but by rounding, has converged.
  /// Returns the bound at these multipliers.
  Worth round(Pricers& pricers, const Halt& halt, Filling& spent, Worth trifle = 0);
  /// How often the optimum over all columns found so far opens each; empty when CLP fails.
  [[nodiscard]] std::vector<double> shares();
  /// Nothing new was found at the master's own duals, or rounds gain next to nothing.
  [[nodiscard]] bool converged() const { return converged_; }
  /// What the next round's bound will be.
  [[nodiscard]] BoundKind kind() const {
    return caps_ == Caps::keep ? BoundKind::exact : BoundKind::relaxed;
  }
  [[nodiscard]] const Master& master() const { return master_; }
  /// Multipliers of the best bound; empty before the start.
  [[nodiscard]] const std::vector<Worth>& best() const { return best_; }
  [[nodiscard]] Worth bound() const { return bound_; }
  /// What a copy of each stock is worth at the best multipliers, at most.
  [[nodiscard]] const std::vector<Worth>& worth() const { return worth_; }
  /// Prices on the units of a stock that bounded it well when it was last asked; may be empty.
  [[nodiscard]] std::span<const Worth> rations(int stock) const {
    return rations_[static_cast<std::size_t>(stock)];
  }
  /// What a copy of each stock costs more than it can be worth at the last multipliers, at least.
  [[nodiscard]] const std::vector<Worth>& reduced() const { return reduced_; }

 private:
  /// What one board says at some multipliers.
  [[nodiscard]] BoardWorth ask(Pricers& pricers, int stock, const UnitWorths& worths,
                               std::span<const Priced> prices, const Halt& halt) const;
  /// Looks along the shares of these prices; along a second line only where its middle is better by
  /// a quarter.
  void startAlong(const std::vector<Worth>& most, Pricers& pricers, const Halt& halt,
                  Filling& spent);
  /// Takes multipliers with a better bound.
  void offer(Worth bound, std::vector<Worth> unit, std::vector<Worth> z);
  /// Looks along the line between two sets of multipliers. What a board is worth is convex in them,
  /// so between two sets it is at most the mean of its figures there. From nothing to the
  /// multipliers at hand that scales them down until no board of many equal ones pays any more
  /// (Farley, A note on bounding a class of linear programming problems, including cutting stock
  /// problems, 1990).
  void between(std::span<const Worth> unit0, std::span<const Worth> z0,
               std::span<const Worth> unit1, std::span<const Worth> z1);

  const Problem& problem_;
  Master master_;
  std::vector<std::int64_t> wanted_;         ///< units of each need that count
  std::vector<Worth> best_;                  ///< multipliers of the best bound
  std::vector<Worth> worth_;                 ///< of a copy of each stock at these, at most
  std::vector<Worth> nothing_;               ///< likewise where the parts are worth nothing
  std::vector<PricedAt> last_;               ///< by stock; without multipliers: never priced
  std::vector<std::vector<Worth>> rations_;  ///< by stock: the last prices on its units (ration.h)
  ListingPauses pauses_;
  std::vector<Worth> reduced_;
  Worth bound_ = std::numeric_limits<Worth>::min();
  bool single_ = true;     ///< no two boards are equal
  bool forPlans_ = false;  ///< quick patterns that keep caps; the bound is of no interest
  bool smooth_ = true;
  int idle_ = 0;  ///< rounds since the bound last rose by more than a trifle
  Caps caps_ = Caps::drop;
  Reach reach_ = Reach::quick;  ///< good columns first, proofs when they come to an end
  bool converged_ = false;
};

}  // namespace flitch::optimizer
