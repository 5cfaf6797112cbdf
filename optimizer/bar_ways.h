#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "optimizer/bar_kinds.h"
#include "optimizer/bar_master.h"

namespace flitch::optimizer {

/// Every way of cutting bars so full that no piece still wanted fits, the longest piece still
/// wanted first: a plan that costs less than `below`, or none where there is no such plan.
/// `finished` false: given up after `most` steps, and nothing is known. Quick for some ten pieces.
struct BarWays {
  bool finished = false;
  std::optional<std::vector<BarPattern>> cheaper;  ///< the cheapest, a pattern for each bar
  std::uint64_t steps = 0;
};
[[nodiscard]] BarWays everyWay(const BarKinds& kinds, Worth below, std::uint64_t most);

}  // namespace flitch::optimizer
