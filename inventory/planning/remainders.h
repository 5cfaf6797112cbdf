#pragma once
#include "inventory/records/plan_check.h"

namespace flitch::planning {

/// Where offcuts stand at zero: makes an offcut of every remainder that falls anyway, passes the
/// keeping rule and carries no mark that bars it; else does nothing. Adds no cut and no cost.
/// O(pieces x marks).
void keepRemainders(Cutting& cutting, const Board& board, const ShopProfile& shop, Length tick);

}  // namespace flitch::planning
