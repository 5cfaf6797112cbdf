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

}  // namespace flitch::optimizer
