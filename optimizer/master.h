#pragma once
#include <cstdint>
#include <memory>
#include <span>
#include <unordered_map>
#include <vector>

#include "optimizer/pricer.h"

namespace flitch::optimizer {

/// A way of cutting one copy of a stock.
struct Column {
  int stock = 0;
  Worth cost = 0;
  std::vector<std::int64_t> units;  ///< supplied to each need, at most what is wanted of it
  Pattern pattern;
};

/// A recipe in a linear programme whose first rows are the needs.
struct RecipeColumn {
  explicit RecipeColumn(const Recipe& recipe);
  std::vector<int> rows;
  std::vector<double> values;
};

/// For each stock the columns that cost least beyond what they supply of `wanted` is worth at
/// `unit`, the best first, at most `most` of each.
[[nodiscard]] std::vector<std::vector<const Column*>> cheapestColumns(
    const std::vector<Column>& columns, std::span<const Worth> unit,
    std::span<const std::int64_t> wanted, std::span<const std::size_t> most);

/// Columns found so far and the linear programme over them (CLP): each need met or paid for, each
/// stock opened at most as often as it has copies.
class Master {
 public:
  explicit Master(const Problem& problem);
  ~Master();
  Master(Master&&) noexcept;
  Master(const Master&) = delete;
  Master& operator=(Master&&) = delete;
  Master& operator=(const Master&) = delete;

  /// A pattern for a stock. Returns false when another with the same units costs no more.
  bool add(int stock, const Pattern& pattern);
  [[nodiscard]] const std::vector<Column>& columns() const { return columns_; }
  /// Worth of a unit of each need at the programme's optimum, rounded down and clipped to 0 to its
  /// shortage price; a starting point for exact bounds, never a bound itself. Empty when CLP fails.
  [[nodiscard]] std::vector<Worth> multipliers();
  [[nodiscard]] double value() const;  ///< of the last optimum
  /// How often each column is opened at the last optimum.
  [[nodiscard]] std::vector<double> shares() const;

 private:
  class Programme;

  const Problem& problem_;
  std::vector<std::int64_t> wanted_;
  std::vector<Column> columns_;
  std::unordered_map<std::uint64_t, std::vector<std::size_t>> byUnits_;
  std::unique_ptr<Programme> programme_;
};

}  // namespace flitch::optimizer
