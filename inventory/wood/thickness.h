#pragma once
#include <optional>

#include "inventory/wood/measure.h"

namespace flitch {

/// Smallest rough kiln-dried thickness a nominal may have: 1/16 in under nominal to 7/4, 1/8 in
/// from 8/4 (NHLA, kiln dried rules article of 2025-02-28 quoting Rules 2023 p. 56). Metric stock:
/// 2 mm under (common practice, no source). Assumed for a board nobody has measured.
[[nodiscard]] Length kilnDriedThickness(Nominal nominal);

/// The thinnest nominal from 4/4 to 32/4 whose rough kiln-dried thickness is at least that; 32/4
/// where none is.
[[nodiscard]] Nominal leastNominal(Length thickness);

/// Thickness of stock bought surfaced on two sides: 3/16 in under nominal to 6/4, 1/4 in above
/// (fits every row of the hardwood dimension table, engineeringtoolbox.com and woodworkdetails.com;
/// planed stock on sale varies: measure it). Quarters from 2/4 on; metric stock has no such table.
[[nodiscard]] std::optional<Length> surfacedTwoSides(Nominal nominal);
/// On one side: 1/8 in under nominal to 6/4, 3/16 in from 8/4 (same table; one copy only, which
/// leaves 7/4, 10/4 and 14/4 out).
[[nodiscard]] std::optional<Length> surfacedOneSide(Nominal nominal);

/// A length a yard lists: whole feet from 4 to 16 (hardwood dimension table). Odd ones are admitted
/// up to half of a lot (NHLA Standard Lengths, from memory).
enum class StandardLength { even, odd, none };
[[nodiscard]] StandardLength standardLength(Length length);

}  // namespace flitch
