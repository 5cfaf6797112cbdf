#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/master.h"

namespace flitch::optimizer {

/// A row that every plan keeps and fractions of boards may break:
///   sum columns x + sum needs missing + sum recipes made >= least.
/// Mixed integer rounding of needs taken together (Nemhauser and Wolsey 1990). Of a row
/// sum a x >= b in k-ths, where r = b mod k is not 0,
///   sum (floor(a / k) r + min(a mod k, r)) x >= ceil(b / k) r
/// for all whole x not below zero. Whole numbers throughout.
struct Rounding {
  std::vector<std::int64_t> columns, needs, recipes;  ///< factors
  std::int64_t least = 0;
};

/// How often each column is opened, how many units of each need are missing, how often each recipe
/// is made: fractions.
struct Shares {
  std::span<const double> columns, missing, made;
};

/// At most `most` of the roundings that these shares break, the deepest first: of one need in up to
/// 12ths, of two in up to quarters, of three in halves. O(needs² (needs + 14) · columns in use);
/// adds to work.
[[nodiscard]] std::vector<Rounding> brokenRoundings(const Problem& problem,
                                                    const std::vector<const Column*>& columns,
                                                    const Shares& shares, std::size_t most,
                                                    std::uint64_t& work);

/// One need in k-ths, rounded: a row that can be kept in view while boards are asked, since what a
/// board counts in it follows from the units it supplies.
struct RoundedNeed {
  std::size_t need = 0;
  std::int64_t k = 1, weight = 1;  ///< units are weighed so, in k-ths
  std::int64_t r = 0;              ///< of what is wanted
  std::int64_t least = 0;          ///< right side

  RoundedNeed(std::size_t need_, std::int64_t k_, std::int64_t weight_, std::int64_t wanted);
  /// The factor of a board or recipe that brings so many units, or, below zero, takes them.
  /// Rises with units from 0.
  [[nodiscard]] std::int64_t factor(std::int64_t units) const;
  friend bool operator==(const RoundedNeed&, const RoundedNeed&) = default;
};

/// At most `most` of the roundings of one need that these shares break, the deepest first.
[[nodiscard]] std::vector<RoundedNeed> brokenNeeds(const Problem& problem,
                                                   const std::vector<const Column*>& columns,
                                                   const Shares& shares, std::size_t most,
                                                   std::uint64_t& work);

}  // namespace flitch::optimizer
