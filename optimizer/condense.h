#pragma once
#include <cstdint>
#include <vector>

#include "optimizer/problem.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

/// A problem said with less: stock that is equal in all but its place in the list is one stock with
/// more copies, and the units of a need are as coarse as amounts and supplies allow. Costs are the
/// same.
struct Condensed {
  Problem problem;
  std::vector<int> stockOf;         ///< for each stock of the whole: its stock here
  std::vector<std::int64_t> units;  ///< for each need: units of the whole that are one here
};

/// O(stock log stock) but for equal sizes and costs, which are compared in full.
[[nodiscard]] Condensed condense(const Problem& whole);

/// The same plan of the whole problem; stock that must be opened comes first, then the list's
/// order.
[[nodiscard]] Solution expand(const Solution& solution, const Condensed& condensed,
                              const Problem& whole);

}  // namespace flitch::optimizer
