#pragma once
#include <cstddef>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// Thickness of a blank that the planer turns to chips: the board's less what its part keeps of it,
/// of a resawn one less all leaves and the kerfs between them. Never below zero.
[[nodiscard]] Length planedAway(const Cutting& cutting, std::size_t piece, const Board& board,
                                const Part& part, const ShopProfile& shop);

/// More than this is worth a caution (common practice, no source).
inline constexpr Length muchPlanedAway = Length::inches(1);

}  // namespace flitch
