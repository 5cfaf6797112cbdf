#pragma once
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/records/recipe.h"

namespace flitch::planning {

/// A way of dividing a panel: `staves` of them, each `width` wide as sawn, fill it together.
struct Division {
  int staves = 0;
  Length width;
};

/// Ways, at most two, of dividing `finished` of a panel's width and its trim into equal staves,
/// wider first: of those within the part's range that need fewest sections, the pair that uses
/// most of the widths of the boards it may come from, narrower ones only where they use 3 % more.
/// Two are mixed freely: whenever staves add up
/// to some number of panels by their shares, they can be parted into so many (whole sets of each
/// kind first, what remains is less than two panels). Widths are whole eighths of an inch or
/// millimetres. Never empty: where no number of staves fits the range, its least width overfills
/// the panel. O(divisions² x boards).
[[nodiscard]] std::vector<Division> divisionsOf(const Part& part, Length finished,
                                                const PlanRequest& request);

}  // namespace flitch::planning
