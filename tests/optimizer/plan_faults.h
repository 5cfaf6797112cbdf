#pragma once
#include <string>
#include <vector>

#include "optimizer/bar_stock.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

/// What a solution breaks of all it promises: patterns, copies, order, needs, cost and, unless
/// its kind is none, bound. Empty for a good one.
[[nodiscard]] std::vector<std::string> faultsOf(const Solution& solution, const Problem& problem);

/// The same of bars.
[[nodiscard]] std::vector<std::string> faultsOf(const BarSolution& solution,
                                                const BarProblem& problem);

}  // namespace flitch::optimizer
