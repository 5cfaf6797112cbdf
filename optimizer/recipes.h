#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "optimizer/problem.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {

/// Units of each need that a plan can have a use for, at most: its amount, or all that its recipe
/// takes when no other way makes the same. O(needs + recipes).
[[nodiscard]] std::vector<std::int64_t> wanted(const Problem& problem);

/// No plan has a use for the recipe more often than this.
[[nodiscard]] std::int64_t mostTimes(const Problem& problem, const Recipe& recipe);

/// What one making costs more than it brings at these multipliers, both in 2^-bits; below zero it
/// pays.
[[nodiscard]] Wide reducedCost(const Recipe& recipe, std::span<const Worth> unit, int bits = 0);

/// What is made of the units that boards supply, and what is bought.
struct Making {
  std::vector<std::int64_t> times;    ///< of each recipe
  std::vector<std::int64_t> missing;  ///< of each need, bought at its shortage price
  std::vector<std::int64_t> useful;   ///< of each need: units that could replace what is bought
  Worth cost = 0;                     ///< of the recipes and of what is missing
};

/// The cheapest making. One more of a recipe never costs less than the one before, and recipes for
/// one need share nothing, so taking the cheapest, one by one, is best. O(units made · recipes).
[[nodiscard]] Making makeFrom(const Problem& problem, std::span<const std::int64_t> supplied);

}  // namespace flitch::optimizer
