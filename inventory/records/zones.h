#pragma once
#include <algorithm>
#include <array>
#include <string_view>

namespace flitch {

/// Marks that say how the grain stands on the face: plain, rift or quarter sawn wood. Like `good`
/// and `show` they are no defects.
inline constexpr std::array<std::string_view, 3> grainZones{"plain", "rift", "quarter"};

/// Kinds of mark that are no defect: a zone of the board.
inline constexpr std::array<std::string_view, 5> zoneKinds{"good", "show", "plain", "rift",
                                                           "quarter"};
[[nodiscard]] constexpr bool isZone(std::string_view kind) {
  return std::find(zoneKinds.begin(), zoneKinds.end(), kind) != zoneKinds.end();
}

}  // namespace flitch
