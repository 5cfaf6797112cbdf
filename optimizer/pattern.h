#pragma once
#include <string>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// A node of a cut pattern, in preorder. Depth 1 divides the usable board, depth 2 a depth-1 node,
/// depth 3 a depth-2 node; directions alternate. Gaps between nodes are waste and kerf.
/// Crosscut first: depth 1 is a section (x range, all rows its leaves need), depth 2 a strip over
/// the section's whole length, depth 3 a piece exactly as wide as its strip. Rip first: x and y
/// exchanged.
struct Cell {
  static constexpr int divided = -2;
  static constexpr int offcut = -1;
  int depth = 1;
  Rect where;
  int item = divided;   ///< an item's index, or one of the two above
  int orientation = 0;  ///< items only
  friend constexpr bool operator==(const Cell&, const Cell&) = default;
};

/// A nested cut of one board. Items lie at depth 3 (depth 2 when saw.stages is 2); an offcut may be
/// a leaf of any depth.
/// where of a depth-1 node of a crosscut-first pattern spans y from 0 to the profile's width
/// whatever the outline; of a rip-first pattern x from 0 to its length.
struct Pattern {
  FirstCut first = FirstCut::x;  ///< x or y
  std::vector<Cell> cells;
  friend bool operator==(const Pattern&, const Pattern&) = default;
};

/// Cost of using one copy of the stock so: stock.cost + a cut for every cell by its direction +
/// extras of its items - worth of its offcuts.
[[nodiscard]] Worth cost(const Pattern& pattern, const Problem& problem, const Stock& stock);

/// Units supplied per need. O(cells).
[[nodiscard]] std::vector<std::int64_t> supplies(const Pattern& pattern, const Problem& problem);

/// Takes out divided nodes that hold nothing.
void dropEmpty(Pattern& pattern);

/// Empty when the pattern obeys the cutting rules on that stock (profile, zones, kerfs, stages,
/// sizes, offcut rule, fixed pieces), else what is broken. For tests and assertions; the product's
/// judge is records/plan_check, in nanometres. O(cells² + cells x zones).
[[nodiscard]] std::vector<std::string> faults(const Pattern& pattern, const Problem& problem,
                                              const Stock& stock);

}  // namespace flitch::optimizer
