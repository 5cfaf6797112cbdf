#pragma once

namespace flitch::optimizer {

/// 128-bit whole number for sums and products that must not wrap. Lives in memory only.
__extension__ using Wide = __int128;

}  // namespace flitch::optimizer
