#pragma once
#include <optional>

#include "inventory/wood/measure.h"
#include "inventory/wood/species.h"

namespace flitch {

inline constexpr double poundsPerKilogram = 1 / 0.45359237;  ///< exact by definition

/// Specific gravity on the volume at `moisture` percent, from that at 12 %: Wood Handbook,
/// FPL-GTR-282 (2021) eq. 4-13, G = Gb / (1 - 0.265 Gb (1 - x/30)), turned round for the basic Gb.
/// Wood is taken to stop swelling at 30 %.
[[nodiscard]] double gravityAt(double gravityAt12, double moisture);

/// Most water the wood can hold, in percent: eq. 4-3, 100 (1.54 - Gb) / (1.54 Gb).
[[nodiscard]] double mostMoisture(double basicGravity);

/// Kilograms of a cubic metre, both measured at `moisture` percent: eq. 4-14, 1000 G (1 + x/100).
[[nodiscard]] double densityAt(double gravityAt12, double moisture);

/// Specific gravity at 12 % taken for a species without a figure: a heavy one, so that a caution
/// comes too early rather than not at all. The heaviest published for a wood sold here is 0.75
/// (pignut hickory).
inline constexpr double heavyGravity = 0.75;
[[nodiscard]] double gravityOf(const Species* species);

/// Kilograms of so much wood at `moisture` percent; without species or figure as heavyGravity.
[[nodiscard]] double kilograms(CubicMillimetres wood, const Species* species, double moisture);

/// What lifting it asks for: a caution at 50 lb (23 kg; NIOSH's 51 lb under ideal conditions), two
/// people at 80 lb (36 kg; common practice, no source). Twisting, reaching and repeating ask for it
/// earlier; local rules come first.
enum class Lifting { alone, caution, twoPeople };
[[nodiscard]] Lifting lifting(double kilograms);
/// `mind how you lift it`, `two people`; empty for what one lifts alone.
[[nodiscard]] std::string_view advice(Lifting lifting);

/// `57 lb`, `26 kg`: whole, below ten with one place.
[[nodiscard]] std::string weightText(double kilograms, Unit unit);

}  // namespace flitch
