#pragma once
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// A sentence for each wood that other jobs set aside and of which the plan would leave too little:
/// "Of cherry 4/4 12.5 bf would be left free, and 40 bf are set aside for Sideboard". Boards
/// reserved for the plan's own job are nobody else's: a plan that opens no other takes nothing.
/// O(boards).
[[nodiscard]] std::vector<std::string> takenFromOthers(const CutPlan& plan,
                                                       const PlanRequest& request);

}  // namespace flitch
