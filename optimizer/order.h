#pragma once
#include <span>
#include <utility>
#include <vector>

namespace flitch::optimizer {

/// An order in which every node comes after those it needs.
struct Order {
  std::vector<int> nodes;   ///< all of them; empty where there is a circle
  std::vector<int> circle;  ///< nodes that need each other; empty where there is none
};
/// `needs`: pairs of a node and one it needs, all from 0 to count - 1. Boost's topological sort,
/// and its strong components for the circle. O(nodes + pairs).
[[nodiscard]] Order orderOf(int count, std::span<const std::pair<int, int>> needs);

}  // namespace flitch::optimizer
