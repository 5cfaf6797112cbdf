#pragma once
#include <span>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/job.h"
#include "inventory/records/shop.h"

namespace flitch {

/// What looks wrong in a parts list before it is planned, a sentence each: a name that stands
/// twice, the same piece twice under two names, a part shorter along its grain than it is wide, and
/// blanks that no board of the rack can give for their length or thickness. `boards` empty: nothing
/// is said of boards. O(parts² + parts x boards).
[[nodiscard]] std::vector<std::string> partDoubts(const Job& job, const ShopProfile& shop,
                                                  std::span<const Board> boards, Unit unit);

}  // namespace flitch
