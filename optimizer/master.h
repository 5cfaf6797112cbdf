#pragma once
#include <vector>

#include "optimizer/pricer.h"

namespace flitch::optimizer {

/// Columns found so far and the linear programme over them (CLP): each need met or paid for, each
/// stock opened at most as often as it has copies.
class Master {
 public:
  explicit Master(const Problem& problem) : problem_(problem) {}

  /// A pattern for a stock. Returns false when it is known already.
  bool add(int stock, const Pattern& pattern);
  [[nodiscard]] std::size_t columns() const { return columns_.size(); }
  /// Worth of a unit of each need at the programme's optimum, rounded down and clipped to 0 to its
  /// shortage price; a starting point for exact bounds, never a bound itself. Empty when CLP fails.
  [[nodiscard]] std::vector<Worth> multipliers() const;

 private:
  struct Column {
    int stock;
    Worth cost;
    std::vector<std::int64_t> units;
    friend bool operator==(const Column&, const Column&) = default;
  };
  const Problem& problem_;
  std::vector<Column> columns_;
};

}  // namespace flitch::optimizer
