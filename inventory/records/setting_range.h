#pragma once
#include <string>
#include <string_view>

#include "inventory/wood/length.h"

namespace flitch {

/// A setting's range for people: that of a length, "1/64 to 1 in", in the book's unit; any other as
/// it stands.
[[nodiscard]] std::string rangeIn(std::string_view range, Unit unit);

}  // namespace flitch
