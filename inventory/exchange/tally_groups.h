#pragma once
#include <vector>

#include "inventory/exchange/cells.h"

namespace flitch::exchange {

/// Holds the lines of a tally against each other that share a price: lots, and boards cut from one.
/// Gives a lot's price to all of its lines, and to those cut from one board what their first line
/// says. `priced`: whether the line itself names a price. Returns how many boards have none.
[[nodiscard]] int shareGroups(std::vector<TallyLine>& lines, const std::vector<bool>& priced,
                              Complaints& complaints);

}  // namespace flitch::exchange
