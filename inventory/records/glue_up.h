#pragma once
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// A blank in its glue-up.
struct Glued {
  BoardId board;
  Piece blank;
  Layup layup;
};

/// A copy of a part put together from blanks of a plan.
struct GlueUp {
  int line = 0;
  int copy = 0;
  std::vector<std::vector<Glued>> sections;  ///< in order, each in order of slots
};

/// All that the plan glues up, by line and copy. Staves sawn for an older plan are not in it.
/// O(layups log layups).
[[nodiscard]] std::vector<GlueUp> glueUpsOf(const CutPlan& plan);

}  // namespace flitch
