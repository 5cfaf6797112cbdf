#pragma once
#include <cstdint>
#include <stop_token>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// A length of bar, any number of which can be had.
struct BarStock {
  Tick length = 0;
  Worth cost = 0;  ///< of one, above 0
};
/// Equal pieces to be cut from bars.
struct BarNeed {
  Tick length = 0;
  std::int64_t amount = 0;
};
/// Cutting stock in one dimension: all pieces from the cheapest bars.
struct BarProblem {
  std::vector<BarStock> bars;
  std::vector<BarNeed> needs;
  Tick kerf = 0;  ///< lost between neighbours on a bar
};

/// Bars cut alike.
struct BarCutting {
  int bar = 0;
  std::int64_t times = 0;
  std::vector<std::int64_t> pieces;  ///< of each need, on one bar
  friend bool operator==(const BarCutting&, const BarCutting&) = default;
};
struct BarSolution {
  std::vector<BarCutting> cuttings;  ///< give exactly what is wanted
  Worth cost = 0;
  Worth bound = 0;  ///< no way costs less; a sum of bars
  std::uint64_t effort = 0;
  [[nodiscard]] bool proved() const { return cost == bound; }
};

struct BarLimits {
  std::uint64_t effort = 30'000'000;  ///< counted work at most; about a second
  std::uint64_t seed = 1;
};

/// Column generation (Gilmore and Gomory 1961), its bound in whole numbers at every step (Farley
/// 1990), dives that open bars by their shares and price anew what is left, and packing by values
/// corrected from plan to plan (Mukhacheva and Zalgaller 1993); sources from memory. A plan is
/// there after one packing and only becomes better; the search ends when the bound proves it, the
/// effort is spent or a stop is asked for. Same problem, limits and seed: same solution. Throws
/// std::invalid_argument naming the index: a size, cost or amount not above zero, a piece longer
/// than every bar, no bar, sums past 2^40.
[[nodiscard]] BarSolution cutBars(const BarProblem& problem, const BarLimits& limits = {},
                                  std::stop_token stop = {});

}  // namespace flitch::optimizer
