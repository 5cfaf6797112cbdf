#pragma once
#include <vector>

#include "inventory/planning/frame.h"

namespace flitch::planning {

/// What of a solution's pieces becomes whole copies.
struct Useful {
  std::vector<std::int64_t> pieces;   ///< for each item
  std::vector<std::int64_t> missing;  ///< for each want, copies; none of a group's
  std::vector<bool> whole;            ///< for each group, whether it is made
};

/// Of a group the pieces of the first way that is whole, else none. Of blanks that make up any copy
/// as many as are wanted. Of staves of two widths whole sets of equal ones first, wider before
/// narrower; for one panel more what remains, less what it does not need. O(pieces).
[[nodiscard]] Useful usefulPieces(const optimizer::Solution& solution, const Framing& framing);

/// Indices of the items that supply a need, in their order.
[[nodiscard]] std::vector<std::size_t> itemsOf(const optimizer::Problem& problem, int need);

}  // namespace flitch::planning
