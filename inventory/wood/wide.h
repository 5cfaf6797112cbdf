#pragma once
#include <cstdint>

namespace flitch {

/// 128-bit whole number, for areas in nm² and volumes in nm³. Lives in memory only: it is never
/// stored and never printed. (60 ft x 5 ft is 2.8e19 nm², past int64.)
__extension__ using Wide = __int128;

}  // namespace flitch
