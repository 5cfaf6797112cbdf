#pragma once
#include <vector>

#include "optimizer/problem.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

/// A part of a problem that shares no need and no stock with the rest, and the way back.
struct Component {
  Problem problem;
  std::vector<int> stock, needs, items, recipes;  ///< index in the whole for each of the component
};

/// Connected components of the graph of needs, items, recipes and stock (an item and a stock are
/// joined where the item fits). Stock that nothing fits and must not be opened is left out.
[[nodiscard]] std::vector<Component> split(const Problem& problem);

/// Puts solutions of the components together; costs and bounds add up, the weakest kind of bound
/// and the worst ending win.
[[nodiscard]] Solution join(const std::vector<Component>& components,
                            const std::vector<Solution>& solutions);

}  // namespace flitch::optimizer
