#pragma once
#include "inventory/desk/as_sawn.h"

namespace flitch::desk {

/// Where else a blank cut short would fit: "C2, 31 1/2 long, is still large enough for D divider".
/// Looks at the job's solid parts, not at marks. `at`: the cutting that was to give it; empty when
/// it gives no such blank. O(pieces + parts).
[[nodiscard]] std::string whereItFits(const CutShort& cut, const CuttingCase& at);

}  // namespace flitch::desk
