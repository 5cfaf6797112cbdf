#include "inventory/wood/moisture.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace flitch {
namespace {

/// constant + a T + b T², T in degrees Celsius.
struct Term {
  double constant, a, b;
  [[nodiscard]] double at(double celsius) const { return constant + (a + b * celsius) * celsius; }
};

// Wood Handbook, FPL-GTR-282 (2021) eq. 4-5, p. 4-3.
constexpr Term w{349, 1.29, 0.0135};
constexpr Term k{0.805, 0.000736, -0.00000273};
constexpr Term k1{6.27, -0.00938, -0.000303};
constexpr Term k2{1.91, 0.0407, -0.000293};

constexpr double saturation = 30;  ///< percent, where wood stops swelling

/// Share of the width that a change of moisture takes, by one direction's figures.
struct Strain {
  double value = 0;
  bool byShrinkage = false, fromMemory = false;
};

std::optional<Strain> strain(const Figure& coefficient, const Figure& shrinkage, double from,
                             double to) {
  const bool inside = insideCoefficients(from) && insideCoefficients(to);
  if (coefficient && inside) {
    return Strain{coefficient.value / 1e5 * (to - from), false, coefficient.fromMemory};
  }
  if (!shrinkage) return std::nullopt;
  const double percent = shrinkage.value / 100.0;
  return Strain{(to - from) / (saturation * 100 / percent - saturation + from), true, true};
}

Length times(Length width, double share) {
  return Length::nanometres(std::llround(static_cast<double>(width.nm()) * share));
}

Length outermost(const Movement& m) {
  const bool swells = m.most.nm() >= 0;
  return swells ? std::max(m.change, m.most) : std::min(m.change, m.most);
}

}  // namespace

double equilibriumMoisture(Air air) {
  const double h = std::clamp(air.humidity, 0.0, 100.0) / 100;
  const double t = air.celsius;
  const double kh = k.at(t) * h;
  const double first = k1.at(t) * kh;
  const double second = k1.at(t) * k2.at(t) * kh * kh;
  return 1800 / w.at(t) * (kh / (1 - kh) + (first + 2 * second) / (1 + first + second));
}

bool insideTable(Air air) {
  const double fahrenheit = fahrenheitOf(air.celsius);
  // Half a degree, since a temperature may have been rounded on its way.
  return fahrenheit >= 29.5 && fahrenheit <= 270.5 && air.humidity >= 5 && air.humidity <= 95;
}

std::string_view word(Sawn sawn) {
  return sawn == Sawn::flat ? "flat" : sawn == Sawn::rift ? "rift" : "quarter";
}

std::string_view word(Fixing fixing) { return fixing == Fixing::centre ? "centre" : "edge"; }

std::optional<Movement> movement(const Species& species, Length width, Sawn sawn, double from,
                                 double to) {
  if (!movable(from) || !movable(to))
    throw std::invalid_argument("a moisture outside 0 to 30 % moves no wood by these formulas");
  const auto radial = strain(species.radial, species.radialShrinkage, from, to);
  const auto tangential = strain(species.tangential, species.tangentialShrinkage, from, to);
  if (!radial || !tangential) return std::nullopt;
  // cos² of 0, 30, 45, 60 and 90 degrees.
  const auto at = [&](double tangentialShare) {
    return times(width,
                 tangential->value * tangentialShare + radial->value * (1 - tangentialShare));
  };
  Movement m;
  switch (sawn) {
    case Sawn::flat: m = {at(1), at(0.75), at(1)}; break;
    case Sawn::rift: m = {at(0.5), at(0.25), at(0.75)}; break;
    case Sawn::quarter: m = {at(0), at(0), at(0.25)}; break;
  }
  m.byShrinkage = radial->byShrinkage || tangential->byShrinkage;
  m.fromMemory = radial->fromMemory || tangential->fromMemory;
  return m;
}

Room roomFor(const Movement& toWettest, const Movement& toDriest, Fixing fixing, Unit unit) {
  const Length step = unit == Unit::inches ? Length::sixtyFourths(2) : Length::micrometres(500);
  const std::int64_t edges = fixing == Fixing::centre ? 2 : 1;
  const auto rounded = [&](Length whole) {
    return stepsUp(std::max(whole, Length()), step * edges) * step;
  };
  Room room;
  room.grows = rounded(outermost(toWettest));
  room.shrinks = rounded(-outermost(toDriest));
  room.slot = room.grows + room.shrinks;
  return room;
}

Climate climateOf(Air winter, Air summer) {
  const double a = equilibriumMoisture(winter);
  const double b = equilibriumMoisture(summer);
  return {std::min(a, b), std::max(a, b)};
}

Readiness readiness(double moisture, Climate climate) {
  if (moisture > climate.wettest + meterAccuracy) return Readiness::tooWet;
  if (moisture < climate.driest - meterAccuracy) return Readiness::tooDry;
  return Readiness::ready;
}

}  // namespace flitch
