#pragma once
#include <optional>
#include <vector>

#include "optimizer/draft.h"
#include "optimizer/master.h"

namespace flitch::optimizer {

struct Choosing {
  Worth below = 0;  ///< only plans that cost less are of use
  int nodes = 100;  ///< most nodes of the search tree
};

/// `kept` with whole columns added so that what is missing is supplied for the least cost (CBC).
/// Nothing of what CBC says is believed but the numbers it gives the columns: the plan made from
/// them is counted anew, so a search cut off at any moment does no harm. The same columns and nodes
/// give the same plan. Nothing: no cheaper plan was found.
[[nodiscard]] std::optional<Draft> choose(const Draft& kept, const Problem& problem,
                                          const std::vector<const Column*>& columns,
                                          const Choosing& choosing, const Halt& halt,
                                          Filling& spent);

}  // namespace flitch::optimizer
