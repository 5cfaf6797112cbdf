#pragma once
#include <limits>
#include <optional>
#include <vector>

#include "optimizer/draft.h"
#include "optimizer/master.h"
#include "optimizer/strong_branching.h"

namespace flitch::optimizer {

struct Closing {
  Worth below = 0;           ///< only plans that cost less are of use
  std::size_t nodes = 1000;  ///< most nodes of the tree
  Trying trying{};           ///< before a branch is taken
  /// It ends where nothing better is found in so many nodes and as many again as the last took.
  std::size_t patience = std::numeric_limits<std::size_t>::max() / 4;
};

struct Closed {
  /// No plan that is made of these columns and costs less than `below` costs less than this;
  /// `below` when there is none.
  Worth bound = 0;
  std::optional<Draft> better;  ///< the cheapest plan found, if it costs less than `below`
};

/// Branch and bound over columns that are all there is: every way of cutting that can be part of a
/// plan cheaper than `below` (listing.h). A node leaves each stock some of its columns; its bound
/// is the Lagrangian one at CLP's multipliers, rounded to 2^-16 of a unit and summed in whole
/// numbers, so it holds whatever CLP says. At the root needs taken together are rounded (mixed
/// integer rounding). Branches: how many boards are opened, of all and of those that supply the
/// same needs; a board opened or not; what it supplies of a need at most k or more; the most
/// promising are tried before one is taken. Columns that no cheaper plan takes are left out below a
/// node. The best bound first, its cheaper child at once. Same input, same answer, unless halted.
[[nodiscard]] Closed close(const Problem& problem, const std::vector<const Column*>& columns,
                           const Closing& closing, const Halt& halt, Filling& spent);

}  // namespace flitch::optimizer
