#pragma once
#include <random>

#include "inventory/records/cut_plan.h"

namespace flitch::test {

/// The parts of a map chest: A to E.
[[nodiscard]] Job mapChestJob();
/// mapChestBoard() cut as on the shared cut sheet: two long fronts; a front rail over three small
/// fronts; the rest by the tag kept.
[[nodiscard]] Cutting mapChestCutting(const Board& board, const ShopProfile& shop);
/// A tree that keeps every rule of Cutting: crosscut or ripped first, kerfs, waste, offcuts.
[[nodiscard]] Cutting randomCutting(std::mt19937& random, const Board& board,
                                    const ShopProfile& shop);

}  // namespace flitch::test
