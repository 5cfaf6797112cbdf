#pragma once
#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <vector>

#include "optimizer/bound.h"
#include "optimizer/branching.h"
#include "optimizer/draft.h"

namespace flitch::optimizer {

/// The search for one component's best plan: a plan and a bound that hold at every moment. What it
/// finds follows from the problem, the seed and the work asked for, not from threads or time.
class ComponentSearch {
 public:
  /// The problem outlives the search.
  ComponentSearch(const Problem& problem, std::uint64_t seed);

  /// The hand rule: poor, but there in a moment.
  void handPlan();
  void carefulPlan(const Halt& halt);
  void firstBound(const Halt& halt);
  /// Boards of a plan made elsewhere.
  void take(std::vector<Opened> boards);
  /// Better plans and bounds, until so much more work is done, the gap is closed or halted. The
  /// last step may take more work than is left.
  void improve(std::uint64_t work, const Halt& halt);
  /// Asks boards on so many threads.
  void useThreads(int threads) { pricers_.useThreads(threads); }

  [[nodiscard]] std::size_t boards() const { return problem_.stock.size(); }
  [[nodiscard]] bool closed() const { return cost() == bound_; }
  [[nodiscard]] Worth cost() const { return draft_.cost(); }
  [[nodiscard]] Worth bound() const { return bound_; }
  [[nodiscard]] BoundKind kind() const { return kind_; }
  [[nodiscard]] std::int64_t missing(int need) const { return draft_.missing(need); }
  [[nodiscard]] std::uint64_t effort() const { return spent_.effort; }
  [[nodiscard]] Solution solution() const;

 private:
  void step(const Halt& halt);
  /// Rounds on the bound until it is as good as it gets; once it is some way ahead, with as much
  /// work for better plans; then plans only.
  void boundStep(const Halt& halt);
  void planStep(const Halt& halt);
  /// A whole plan of known ways of cutting.
  void choose(const Halt& halt);
  /// Likewise, of ways listed besides, with multipliers moved by up to so many 64ths.
  void chooseAmongMore(int spread, const Halt& halt);
  /// Whether it is the turn of the tree of bounds.
  [[nodiscard]] bool treeDue() const;
  /// Divides one of its nodes.
  void treeStep(const Halt& halt);
  /// Lists all ways of cutting that can be part of a cheaper plan and chooses among them, when the
  /// gap leaves few enough. A try that finds too many is made again with more room, but takes no
  /// more than a third of all work. False: not tried this time.
  bool closeGap(const Halt& halt);
  /// A way worth no more than a board costs, or is worth, less the gap costs so much more than the
  /// multipliers allow that no plan with it is cheaper. Nothing: they are too many.
  std::optional<std::vector<Column>> listWays(const Halt& halt);
  /// What every board can be worth at most where parts are worth nothing: as one offcut, and full
  /// of the items that pay by themselves.
  [[nodiscard]] std::vector<Worth> worthForNothing() const;
  /// `kind`: whether the patterns under this bound kept their caps.
  void raise(Worth bound, BoundKind kind);
  void offer(Draft fresh);
  /// Cuts every board of a new plan again for the same pieces, so that what is left is kept.
  void polish(const Halt& halt);

  static constexpr std::size_t fewLabels = 15000;  ///< of one board, in a listing

  const Problem& problem_;
  Pricers pricers_;
  Multipliers bounds_;
  std::optional<Branching> tree_;  ///< once the multipliers are at their best
  std::uint64_t boundEffort_ = 0, treeEffort_ = 0, planEffort_ = 0, polishEffort_ = 0;
  std::size_t chosenFrom_ = 0;  ///< columns there were when a whole plan was last chosen
  bool chosen_ = false;         ///< since the multipliers are at their best
  std::uint64_t dives_ = 0;
  Draft draft_;
  std::mt19937_64 random_;
  const Worth step_;  ///< costs of plans are multiples of this
  Worth bound_ = 0;
  Worth polished_ = std::numeric_limits<Worth>::max();  ///< cost of the plan last cut again
  std::map<std::pair<int, std::vector<std::int64_t>>, Pattern> recuts_;  ///< by stock and units
  Worth triedOpen_ = std::numeric_limits<Worth>::max();
  std::uint64_t nextTry_ = 0, turn_ = 0;
  std::uint64_t nextDive_ = 0;  ///< of the work for plans
  std::size_t labels_ = fewLabels;
  BoundKind kind_ = BoundKind::none;
  Filling spent_;
};

}  // namespace flitch::optimizer
