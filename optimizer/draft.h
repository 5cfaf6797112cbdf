#pragma once
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "optimizer/crew.h"
#include "optimizer/listing.h"
#include "optimizer/offcut_rule.h"
#include "optimizer/pricer.h"
#include "optimizer/recipes.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

/// A board in use: one copy of a stock and how it is cut.
struct Opened {
  int stock = 0;
  Pattern pattern;
};

/// A plan while it is being made: always feasible, shortages filled up by price.
class Draft {
 public:
  explicit Draft(const Problem& problem);

  void add(Opened board);
  /// Takes the board at `place` out; the last takes its place.
  Opened remove(std::size_t place);
  [[nodiscard]] const std::vector<Opened>& boards() const { return boards_; }
  /// Units of a need to be bought.
  [[nodiscard]] std::int64_t missing(int need) const {
    return making_.missing[static_cast<std::size_t>(need)];
  }
  /// Units of a need that would still be of use.
  [[nodiscard]] std::int64_t useful(int need) const {
    return making_.useful[static_cast<std::size_t>(need)];
  }
  /// The need as boards beside these would have to meet it.
  [[nodiscard]] Need rest(int need) const;
  [[nodiscard]] int copiesLeft(int stock) const { return left_[static_cast<std::size_t>(stock)]; }
  [[nodiscard]] bool forced(int stock) const;  ///< a further copy must be opened in any case
  [[nodiscard]] Worth cost() const { return boardsCost_ + making_.cost; }
  [[nodiscard]] Worth boardsCost() const { return boardsCost_; }  ///< without what is missing
  /// Pieces nobody needs any more are dropped from the patterns, and boards left empty go back to
  /// the rack unless they must be opened.
  void tidy();
  [[nodiscard]] Solution solution() const;
  /// Cuts the board at `place` otherwise, for the same pieces.
  void replace(std::size_t place, Pattern pattern);

 private:
  const Problem* problem_;
  std::vector<Opened> boards_;
  std::vector<std::int64_t> supplied_;
  std::vector<int> left_;  ///< unopened copies for each stock
  Worth boardsCost_ = 0;
  Making making_;
};

/// Pricers of all stock, made when first asked for; different stocks may be asked at the same time.
class Pricers {
 public:
  Pricers(const Problem& problem, const Crew& crew)
      : problem_(problem), crew_(crew), pricers_(problem.stock.size()) {}
  [[nodiscard]] Pricer& of(int stock);
  [[nodiscard]] Lister lister(int stock) { return {problem_, of(stock).lays()}; }

  /// The pattern as plans use it: without offcuts that their rule does not allow.
  [[nodiscard]] Pattern kept(int stock, const Pattern& pattern);
  [[nodiscard]] const Crew& crew() const { return crew_; }
  void useThreads(int threads) { crew_ = Crew(threads); }

 private:
  const Problem& problem_;
  Crew crew_;
  std::vector<std::unique_ptr<Pricer>> pricers_;
};

struct Filling {
  std::uint64_t effort = 0, priced = 0, nodes = 0;
  Filling& operator+=(const Filling& more) {
    effort += more.effort;
    priced += more.priced;
    nodes += more.nodes;
    return *this;
  }
};

/// The cheapest pattern found for one copy of a stock that holds all the pieces of `pattern` and no
/// others: what was left when pieces were dropped goes to offcuts. Never dearer.
[[nodiscard]] Pattern recut(const Pattern& pattern, const Problem& problem, int stock,
                            Pricers& pricers, const Halt& halt, Filling& spent);

/// What the units still missing are worth on one board: every item of a missing need, its units at
/// `unit[need]` less the item's extra, capped by what is missing (one item more where the last only
/// partly counts).
[[nodiscard]] std::vector<Priced> pricesFor(const Problem& problem, const Draft& draft,
                                            std::span<const Worth> unit);

/// Nothing cut from a board.
[[nodiscard]] Pattern uncut(const Problem& problem);

/// Copies that must be opened and are not yet, uncut.
void openForced(Draft& draft, const Problem& problem);

/// Opens boards among `allowed` until no further one pays: each time the one whose best pattern for
/// what is missing gives most for its cost. Worths only fall while needs are met, so a board is
/// priced again only when it comes to the top. A copy that must be opened anyway costs nothing
/// here. Halted: what is open so far.
Filling fill(Draft& draft, const Problem& problem, std::span<const int> allowed,
             std::span<const Worth> unit, Pricers& pricers, const Halt& halt);

}  // namespace flitch::optimizer
