#pragma once
#include <cstdint>
#include <memory>
#include <set>
#include <span>
#include <utility>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// A way of cutting one bar: kinds of piece, rising, and how many of each.
struct BarPattern {
  int bar = 0;
  std::vector<std::pair<int, std::int64_t>> pieces;
  friend auto operator<=>(const BarPattern&, const BarPattern&) = default;
};
/// How often it can be cut with no piece too many.
[[nodiscard]] std::int64_t timesWithin(const BarPattern& pattern,
                                       std::span<const std::int64_t> wanted);

/// Patterns found so far and the linear programme over those that make no piece too many (CLP).
class BarMaster {
 public:
  /// `costs` of the bars. The patterns of one piece on its cheapest bar should come first: with
  /// them every demand can be met.
  BarMaster(std::size_t kinds, std::span<const Worth> costs);
  ~BarMaster();
  BarMaster(const BarMaster&) = delete;
  BarMaster& operator=(const BarMaster&) = delete;

  /// False when it is known already.
  bool add(const BarPattern& pattern);
  [[nodiscard]] const std::vector<BarPattern>& patterns() const { return patterns_; }
  /// What is wanted of each kind from now on. O(patterns).
  void want(std::span<const std::int64_t> wanted);
  /// The optimum at what is wanted. False when CLP fails.
  [[nodiscard]] bool solve();
  [[nodiscard]] double value() const;
  [[nodiscard]] std::span<const double> worths() const;       ///< of a piece of each kind
  [[nodiscard]] std::span<const double> shares() const;       ///< bars cut by each pattern
  [[nodiscard]] std::uint64_t work() const { return work_; }  ///< of all solves: pivots x kinds

 private:
  class Programme;

  std::size_t kinds_;
  std::vector<Worth> costs_;
  std::vector<BarPattern> patterns_;
  std::set<BarPattern> known_;
  std::vector<std::int64_t> wanted_;
  std::unique_ptr<Programme> programme_;
  bool rightSidesChanged_ = true;
  std::uint64_t work_ = 0;
};

}  // namespace flitch::optimizer
