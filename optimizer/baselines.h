#pragma once
#include <stop_token>

#include "optimizer/problem.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

/// What a hurried hand does: parts longest first, each from the cheapest board (by cost per usable
/// area) that holds it, at the first clear place from the tag end; crosscut first. What no board
/// gives by itself is made by its first recipe. No bound.
[[nodiscard]] Solution handRule(const Problem& problem);

/// A careful hand: opens, again and again, the board whose best single-board pattern for what is
/// still wanted gives most for its cost, and keeps what is left of it. No bound.
[[nodiscard]] Solution carefulHand(const Problem& problem, std::stop_token stop = {});

}  // namespace flitch::optimizer
