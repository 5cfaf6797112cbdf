#pragma once
#include <random>

#include "optimizer/bound.h"
#include "optimizer/draft.h"

namespace flitch::optimizer {

/// Takes some boards out of the plan, the likelier the more they cost beyond what their parts are
/// worth at the best multipliers, and chooses anew for what they supplied among them and some
/// boards on the rack: from known columns and from patterns priced for just what is missing at
/// disturbed multipliers. Patterns found stay with the multipliers. Keeps the cheaper plan; true:
/// the plan is better.
bool replan(Draft& draft, const Problem& problem, Multipliers& multipliers, Pricers& pricers,
            std::mt19937_64& random, const Halt& halt, Filling& spent);

/// Adds to the known columns: the best ways of every board that nearly pays, at multipliers
/// disturbed by up to `spread` 64ths.
void enrich(const Problem& problem, Multipliers& multipliers, Pricers& pricers, int spread,
            std::mt19937_64& random, const Halt& halt, Filling& spent);

/// Chooses a whole plan from the known columns that can be part of a better one. Keeps the cheaper;
/// true: the plan is better.
bool rechoose(Draft& draft, const Problem& problem, const Multipliers& multipliers,
              std::size_t nodes, const Halt& halt, Filling& spent);

}  // namespace flitch::optimizer
