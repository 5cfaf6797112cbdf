#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// What the units that one board supplies of each need are worth together: so much each up to what
/// is wanted, or by a table. Never less for more units.
class UnitWorths {
 public:
  UnitWorths() = default;
  /// Each unit alike, those past `wanted` nothing.
  UnitWorths(std::span<const Worth> unit, std::span<const std::int64_t> wanted)
      : unit_(unit.begin(), unit.end()),
        wanted_(wanted.begin(), wanted.end()),
        tables_(unit.size()) {}

  /// Of a need: what 0, 1, ... units up to all that are wanted are worth; rising from 0.
  void setTable(std::size_t need, std::vector<Worth> worths);
  /// No board supplies more of this need, so no more are worth anything.
  void limit(std::size_t need, std::int64_t most);

  [[nodiscard]] std::size_t needs() const { return unit_.size(); }
  [[nodiscard]] bool isTable(std::size_t need) const { return !tables_[need].empty(); }
  /// Units that count.
  [[nodiscard]] std::int64_t wanted(std::size_t need) const { return wanted_[need]; }
  [[nodiscard]] std::span<const std::int64_t> wanted() const { return wanted_; }
  [[nodiscard]] Worth of(std::size_t need, std::int64_t units) const {
    const std::int64_t counted = units < wanted_[need] ? units : wanted_[need];
    return tables_[need].empty() ? unit_[need] * counted
                                 : tables_[need][static_cast<std::size_t>(counted)];
  }
  /// Of all needs together.
  [[nodiscard]] Worth of(std::span<const std::int64_t> units) const;
  /// A price for each unit at which no number of them is worth more than is paid: the least whole
  /// one.
  [[nodiscard]] Worth steepest(std::size_t need) const { return unit_[need]; }
  [[nodiscard]] std::span<const Worth> steepest() const { return unit_; }
  /// What any number of units is worth more than at `price` each, at most; >= 0.
  [[nodiscard]] Worth over(std::size_t need, Worth price) const;
  /// What the units that may follow are worth more where there are `few` than where there are
  /// `many` of them, at most.
  [[nodiscard]] Worth ahead(std::size_t need, std::int64_t many, std::int64_t few) const;

 private:
  std::vector<Worth> unit_;  ///< steepest, where there is a table
  std::vector<std::int64_t> wanted_;
  std::vector<std::vector<Worth>> tables_;  ///< by need; empty: each unit alike
};

}  // namespace flitch::optimizer
