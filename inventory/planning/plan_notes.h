#pragma once
#include "inventory/planning/planner.h"

namespace flitch::planning {

/// Fills in what a maker is told beside the plan: faces it takes on trust, parts that wait, both
/// ways out of parts short for unseen faces, cautions. Reads result.plan and result.request.
void addNotes(PlanResult& result);

}  // namespace flitch::planning
