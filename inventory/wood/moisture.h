#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "inventory/wood/length.h"
#include "inventory/wood/season.h"
#include "inventory/wood/species.h"

namespace flitch {

/// Moisture that wood comes to in such air, in percent: Wood Handbook, FPL-GTR-282 (2021) eq. 4-5
/// with its Celsius constants. Within 0.1 of the printed Table 4-2; 0.1 % shows trends only, since
/// species and pieces differ (p. 4-4). Humidity is taken from 0 to 100.
[[nodiscard]] double equilibriumMoisture(Air air);
/// Inside the printed table: 30 to 270 F, 5 to 95 %. Outside the equation is carried on.
[[nodiscard]] bool insideTable(Air air);

/// How the growth rings lie to the face: flat 0 to 30 degrees, rift 30 to 60, quarter 60 to 90
/// (trade terms; common practice, no source).
enum class Sawn { flat, rift, quarter };
[[nodiscard]] std::string_view word(Sawn sawn);

/// How much a width changes; above zero it swells.
struct Movement {
  /// By the published figure: tangential for flat, radial for quarter, their mean for rift.
  Length change;
  /// Over the ring angles such a board may have: strain across the face at angle a is
  /// tangential cos²a + radial sin²a. `least` is the smaller in size.
  Length least, most;
  bool byShrinkage = false;  ///< by the shrinkage formula, see movement()
  bool fromMemory = false;   ///< a figure or formula behind it was recalled, not seen
};

/// Moistures a movement can be worked out between: 0 to 30 %.
[[nodiscard]] constexpr bool movable(double moisture) { return moisture >= 0 && moisture <= 30; }
/// Span of the tabulated coefficients (Table 13-5): 6 to 14 %.
[[nodiscard]] constexpr bool insideCoefficients(double moisture) {
  return moisture >= 6 && moisture <= 14;
}

/// Change of `width` when the wood goes from one moisture to another. Inside 6 to 14 %: width x
/// coefficient x change (Wood Handbook, FPL-GTR-190 eq. 13-2). Outside, or without a coefficient:
/// width x (to - from) / (30 x 100 / S - 30 + from), S the shrinkage in percent (eq. 13-3; its use
/// and limit were seen, its form is from memory). None when the species lacks the figures.
/// Throws std::invalid_argument for a moisture that is not movable.
[[nodiscard]] std::optional<Movement> movement(const Species& species, Length width, Sawn sawn,
                                               double from, double to);

/// Where a panel is held: in the middle of its width, both edges free; or along one edge.
enum class Fixing { centre, edge };
[[nodiscard]] std::string_view word(Fixing fixing);

/// What the movement of a season asks for at each free edge. All are worked from the larger end of
/// the range and rounded up to a 1/32 in (0.5 mm): a gap too wide shows, one too narrow breaks.
struct Room {
  Length grows;    ///< an edge moves out so far from as made: leave this gap
  Length shrinks;  ///< and in so far: an edge or tongue must be covered by more than this
  Length slot;     ///< longer than the screw is thick by this, at a screw near the free edge
};
[[nodiscard]] Room roomFor(const Movement& toWettest, const Movement& toDriest, Fixing fixing,
                           Unit unit);

[[nodiscard]] Climate climateOf(Air winter, Air summer);

/// What a meter says of such moisture: resistance meters read from 6 %, dielectric ones from 4 %,
/// both to 30 %; above it a reading tells more or less alone (Wood Handbook, FPL-GTR-190 ch. 13).
enum class MeterSpan { inside, dielectricOnly, outside };
[[nodiscard]] constexpr MeterSpan meterSpan(double moisture) {
  if (moisture < 4 || moisture > 30) return MeterSpan::outside;
  return moisture < 6 ? MeterSpan::dielectricOnly : MeterSpan::inside;
}

enum class Readiness { ready, tooWet, tooDry };
/// Whether wood of this moisture may be built for that place: within its span, widened by the 1
/// point a corrected meter may be off (Wood Handbook ch. 13, average of a batch).
[[nodiscard]] Readiness readiness(double moisture, Climate climate);
inline constexpr double meterAccuracy = 1;

/// Reads a meter's `8`, `8.5`, `8.5 %` as tenths of a per cent. Throws Unreadable.
[[nodiscard]] int parseMoisture(std::string_view text);
/// `8.5 %`.
[[nodiscard]] std::string moistureText(int tenthsPercent);

}  // namespace flitch
