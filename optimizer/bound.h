#pragma once
#include <span>

#include "optimizer/draft.h"

namespace flitch::optimizer {

/// Lagrangian bound: for any multipliers 0 <= unit[need] <= shortage,
///   sum unit d + sum over stock of copies · min(0, cost - z)     (without the min for copies that
/// must be opened), z at least the worth of the best pattern at these multipliers. Exact integers,
/// valid whatever the multipliers. `z` holds one figure for each stock.
[[nodiscard]] Worth lagrangian(const Problem& problem, std::span<const Worth> unit,
                               std::span<const Worth> z);

/// Prices of all items at these multipliers, without caps.
[[nodiscard]] std::vector<Priced> pricesAt(const Problem& problem, std::span<const Worth> unit);

}  // namespace flitch::optimizer
