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
/// `origin`: of the board's usable wood, where cell (0, 0) of the pattern lies.
[[nodiscard]] Written writeTree(const Framing& framing, const PlanRequest& request,
                                const Board& board, const optimizer::Rect& origin,
                                optimizer::FirstCut first, std::vector<optimizer::Cell> cells);

}  // namespace flitch::planning
