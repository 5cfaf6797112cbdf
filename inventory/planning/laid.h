#pragma once
#include <optional>
#include <vector>

#include "inventory/planning/board_frame.h"
#include "inventory/records/cut_plan.h"
#include "optimizer/pattern.h"

namespace flitch::planning {

/// How a board is parted around what was laid on it by hand: the first cuts run just beside the
/// laid blanks, from edge to edge or from end to end; what lies between those cuts is cut freely,
/// the same way round; what lies beside a blank between two of them is left alone.
struct Parting {
  optimizer::FirstCut first = optimizer::FirstCut::x;
  std::vector<optimizer::Cell> cells;  ///< the laid blanks as a pattern
  std::vector<optimizer::Rect> free;   ///< in cells of the usable wood, in order
};

/// Parts a board so that the blanks come out in three stages, crosscut first or rip first,
/// whichever leaves more free. None where neither can. `laid`: in cells of the usable wood, of
/// whose extent `wood` is. O(laid log laid).
[[nodiscard]] std::optional<Parting> partedAround(const std::vector<optimizer::Laid>& laid,
                                                  const optimizer::Rect& wood,
                                                  const optimizer::Saw& saw);

/// One free rectangle of a board as stock of its own, in cells of its own.
[[nodiscard]] optimizer::Profile within(const optimizer::Profile& profile,
                                        const optimizer::Rect& at);
[[nodiscard]] std::vector<optimizer::Zone> within(const std::vector<optimizer::Zone>& zones,
                                                  const optimizer::Rect& at);

}  // namespace flitch::planning
