#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "tests/bench/cases.h"

namespace flitch::bench {

/// What outcomes of one variant say about the known values of a set. A row of the same variant is
/// met or missed. A wider variant's optimum (or upper bound) may not be beaten, and a narrower
/// one's plan may not be above our bound; likewise for the same variant. Both are bugs.
class Comparison {
 public:
  Comparison(std::vector<Known> known, const Variant& variant);

  void add(const Instance& instance, const Outcome& outcome);
  /// Whether there is a row of this very variant.
  [[nodiscard]] bool hasRow(const std::string& instance) const;
  [[nodiscard]] bool bugs() const { return !beaten_.empty() || !contradicted_.empty(); }
  [[nodiscard]] int proven() const { return proven_; }  ///< outcomes whose value meets their bound
  [[nodiscard]] int met() const { return met_; }        ///< optimal rows of this variant
  /// Greatest distance from the value of a row of this variant or, pieces turned alike, a wider
  /// one.
  [[nodiscard]] double worstGap() const { return std::max(toKnown_.worst, toWider_.worst); }
  [[nodiscard]] int missed() const { return static_cast<int>(misses_.size()); }
  [[nodiscard]] const std::vector<std::string>& beaten() const { return beaten_; }
  [[nodiscard]] const std::vector<std::string>& contradicted() const { return contradicted_; }
  /// Agreements, misses and bugs by name, gaps and totals; lines end in \n.
  [[nodiscard]] std::string text() const;

 private:
  struct Gaps {
    int count = 0;
    double sum = 0, worst = 0;
    std::string where;
    void add(double gap, const std::string& name);
    [[nodiscard]] std::string text() const;
  };
  struct Totals {
    int instances = 0;
    optimizer::Worth value = 0, bound = 0, knownLower = 0, knownUpper = 0;
  };

  [[nodiscard]] bool isOwn(const Known& row) const {
    return row.anyVariant || row.variant == variant_;
  }
  void compare(const Known& row, Goal goal, const Outcome& outcome);

  std::vector<Known> known_;
  Variant variant_;
  int rows_ = 0, met_ = 0, wider_ = 0, narrower_ = 0, proven_ = 0, instances_ = 0;
  std::vector<std::string> misses_, beaten_, contradicted_, better_;
  Gaps toKnown_, toWider_, open_;
  Totals boards_;  ///< of cutting stock with known lower and upper values
};

}  // namespace flitch::bench
