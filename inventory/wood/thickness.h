#pragma once
#include "inventory/wood/measure.h"

namespace flitch {

/// Smallest rough kiln-dried thickness a nominal may have: 1/16 in under nominal to 7/4, 1/8 in
/// from 8/4 (NHLA, kiln dried rules article of 2025-02-28 quoting Rules 2023 p. 56). Metric stock:
/// 2 mm under (common practice, no source). Assumed for a board nobody has measured.
[[nodiscard]] Length kilnDriedThickness(Nominal nominal);

}  // namespace flitch
