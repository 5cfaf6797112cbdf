#pragma once
#include <vector>

#include "optimizer/master.h"

namespace flitch::optimizer {

/// Stocks that ways of cutting are known for: all together, and, where there are few kinds, those
/// that can supply the same needs. How many boards of a group are opened is a whole number, and
/// says much where some parts need boards that others do without.
struct BoardGroups {
  std::vector<std::vector<std::size_t>> stocks;  ///< of each group; the first holds all
  std::vector<std::vector<std::size_t>> of;      ///< groups of each stock

  BoardGroups(const Problem& problem, const std::vector<const Column*>& columns);
};

}  // namespace flitch::optimizer
