#pragma once
#include "inventory/records/cut_plan.h"

namespace flitch {

/// The lock on a board, if there is one.
[[nodiscard]] const Lock* lockOn(const Choices& choices, BoardId board);
[[nodiscard]] bool isKeptOut(const Choices& choices, BoardId board);
[[nodiscard]] bool isPinned(const Choices& choices, BoardId board);

/// The request as it looks to planning beside the locks: what they make counts as made. Boards and
/// choices stay, since prices of what is short rest on them. O(locked pieces).
[[nodiscard]] PlanRequest besideLocks(const PlanRequest& request);

/// Whether a cutting of what `before` asked can stay as it is while the job asks what it asks now:
/// the parts of its blanks ask the same, and so many copies are still wanted. What is made already
/// and the board are not looked at. O(pieces times parts).
[[nodiscard]] bool stillWanted(const Cutting& cutting, const Job& before, const Job& now);
/// The choices without locks and blanks laid by hand that cannot stay so.
[[nodiscard]] Choices stillWanted(const Choices& choices, const Job& before, const Job& now);

/// What the wishes count for opening that board: zero for one that all of them wish for.
[[nodiscard]] Money wishCost(const Choices& choices, BoardId board);
/// The same over all boards a plan opens. Shown beside its price, never in it.
[[nodiscard]] Money wishCost(const CutPlan& plan);

/// That a blank of the cutting is the one laid by hand: its part, place, face and front edge.
[[nodiscard]] bool holds(const Cutting& cutting, const LaidByHand& laid);

}  // namespace flitch
