#pragma once
#include <vector>

#include "inventory/planning/tree_writer.h"

namespace flitch::planning {

/// Numbers the blanks and says what each becomes. Copies are made lowest number first, of blanks
/// board by board, from the tag end on. Staves are numbered panel by panel, section by section;
/// sections are as few as the planer allows these staves, and the last staves of a panel bring less
/// where all together would fill more than it. Laminae fill all copies layer by layer, those that
/// lie together in one blank side by side.
void layUp(std::vector<Written>& boards, const Framing& framing, const PlanRequest& request);

}  // namespace flitch::planning
