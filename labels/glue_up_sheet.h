#pragma once
#include <vector>

#include "inventory/records/glue_up.h"
#include "labels/cut_sheet.h"

namespace flitch::pages {

/// A portrait page for every copy that the plan glues up: its staves in order, the front edge
/// below, face A up, each with its hand mark, width as sawn, board and the face of the board that
/// is to be seen; sections; the triangle chalked over all; where the joints get marks for biscuits
/// or dowels and where clamps go; then the steps. Laminae likewise, seen from the edge. Loose
/// boards have none. `boards` in any order; throws std::invalid_argument when a blank's board is
/// not among them. O(blanks).
[[nodiscard]] std::vector<Page> glueUpSheets(const CutPlan& plan, const std::vector<Board>& boards,
                                             const Job& job, const ShopProfile& shop,
                                             const CutSheetFacts& facts);

}  // namespace flitch::pages
