#pragma once
#include <vector>

#include "inventory/planning/tree_writer.h"

namespace flitch::planning {

/// Numbers the blanks and puts staves into their panels. Whole parts take the numbers not made yet,
/// lowest first, board by board, from the tag end on. Staves are numbered panel by panel, section
/// by section; sections are as few as the planer allows these staves, and the last staves of a
/// panel bring less where all together would fill more than it.
void layUp(std::vector<Written>& boards, const Framing& framing, const PlanRequest& request);

}  // namespace flitch::planning
