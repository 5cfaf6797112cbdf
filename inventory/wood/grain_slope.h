#pragma once
#include <string>
#include <string_view>

namespace flitch {

/// How steeply the grain runs out of a board's length: it rises by one over the run.
struct GrainSlope {
  int runTenths = 0;  ///< of the run, 10 to 10 000; zero: straight, no slope to be seen
  friend constexpr bool operator==(const GrainSlope&, const GrainSlope&) = default;
};
[[nodiscard]] constexpr bool steeper(const GrainSlope& a, const GrainSlope& b) {
  return a.runTenths != 0 && (b.runTenths == 0 || a.runTenths < b.runTenths);
}
/// "1 in 12", "1 in 12.5", "straight".
[[nodiscard]] std::string text(const GrainSlope& slope);
/// Reads `1 in 12`, `1:12.5`, `12`, `straight`. Throws Unreadable.
[[nodiscard]] GrainSlope parseGrainSlope(std::string_view text);

}  // namespace flitch
