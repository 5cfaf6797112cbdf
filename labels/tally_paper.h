#pragma once
#include <vector>

#include "inventory/wood/length.h"
#include "inventory/wood/tag_code.h"
#include "labels/page.h"

namespace flitch::pages {

/// Lines on one tally sheet.
inline constexpr std::size_t tallySheetLines = 20;

/// The tally on A4 for the pencil, for rain and gloves: a line a board with its number printed, in
/// the order given (that of the roll), cells to fill, boxes for the faces looked at. How figures
/// are read stands at the foot, in the book's unit. No tags: no sheets.
[[nodiscard]] std::vector<Page> tallyPaper(const std::vector<TagCode>& tags, Unit unit);

}  // namespace flitch::pages
