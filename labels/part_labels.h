#pragma once
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "labels/tag_page.h"

namespace flitch::pages {

/// A label for each blank of a plan, in cutting order: board by board as the sheets come, on each
/// board as its cuts free the blanks. "show" and "front" name the board's face and edge. `boards`
/// in any order; throws std::invalid_argument when a cutting's board is not among them. O(blanks x
/// cuts).
[[nodiscard]] std::vector<PartLabel> partLabels(const CutPlan& plan,
                                                const std::vector<Board>& boards, const Job& job,
                                                const ShopProfile& shop, Unit unit);

}  // namespace flitch::pages
