#pragma once
#include <vector>

#include "inventory/planning/frame.h"

namespace flitch::planning {

/// A cut tree and what its blanks were to the solver.
struct Written {
  Cutting cutting;        ///< blanks have no number yet
  std::vector<int> item;  ///< for each piece: index of the item it is, -1 for all but blanks
};

/// One board's cut tree from the cells of a pattern: kerfs, waste and end trims filled in.
[[nodiscard]] Written writeTree(const Framing& framing, const PlanRequest& request,
                                std::size_t stock, optimizer::FirstCut first,
                                std::vector<optimizer::Cell> cells);

}  // namespace flitch::planning
