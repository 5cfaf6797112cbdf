#pragma once
#include <span>

#include "optimizer/best_pattern.h"
#include "optimizer/halt.h"
#include "optimizer/lay.h"
#include "optimizer/pattern.h"

namespace flitch::optimizer {

/// The board is a bar: clear all over, no offcut is worth anything, no two items lie side by side,
/// and a crosscut frees each piece (two stages).
[[nodiscard]] bool isBar(const Lay& lay, const Saw& saw);

/// The best pattern of a bar: the bounded knapsack, copies in powers of two.
/// O(length x items x log caps). Halted: an empty pattern, and all pieces together as the bound.
[[nodiscard]] Best barBest(const Lay& lay, std::span<const Priced> priced, Caps caps,
                           const Halt* halt);

}  // namespace flitch::optimizer
