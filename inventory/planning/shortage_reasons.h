#pragma once
#include "inventory/records/cut_plan.h"
#include "optimizer/problem.h"

namespace flitch::planning {

/// Says, as a maker would, why the plan's missing parts are missing, and which of them would find a
/// place if unseen faces were trusted. `planned`: the plan whose shorts are filled in; its tick is
/// used. O(shorts x boards x marks x cells along a board).
void explainShorts(CutPlan& planned, const PlanRequest& request);

/// Whether the item could lie somewhere on a board of the problem, were nothing else cut from it.
/// O(boards x marks x cells along a board).
[[nodiscard]] bool hasPlace(const optimizer::Problem& problem, std::size_t item);

/// The board's tag, or its species and size when it carries none.
[[nodiscard]] std::string boardName(const Board& board, Unit unit);

}  // namespace flitch::planning
