#pragma once
#include <string>

#include "inventory/records/cut_plan.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

/// Throws Refusal when what the maker settled cannot stand: a board that is not free for the job,
/// or is pinned, locked or laid upon and kept out as well; a locked cutting that makes what is made
/// already. Whether one can still be sawn on its board, frame() sees. O(locked pieces).
void refuseUnsettled(const PlanRequest& request);
[[nodiscard]] Refusal brokenLock(const Board& board, const std::string& why,
                                 const PlanRequest& request);

/// " What you settled stands.", or that the other boards stay; empty where nothing binds.
[[nodiscard]] std::string standsText(const Choices& choices);
/// The terms a plan and its bound keep to: "with what you locked as it is, on the boards you
/// pinned"; empty where nothing was settled.
[[nodiscard]] std::string termsText(const Choices& choices);

}  // namespace flitch::planning
