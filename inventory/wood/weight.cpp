#include "inventory/wood/weight.h"

#include <algorithm>
#include <cmath>

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

constexpr double saturation = 30;  ///< percent
constexpr double swelling = 0.265;

double swellingLeft(double moisture) {
  return swelling * (1 - std::min(moisture, saturation) / saturation);
}

}  // namespace

double gravityAt(double gravityAt12, double moisture) {
  const double basic = gravityAt12 / (1 + swellingLeft(12) * gravityAt12);
  return basic / (1 - swellingLeft(moisture) * basic);
}

double mostMoisture(double basicGravity) {
  constexpr double cellWall = 1.54;
  return 100 * (cellWall - basicGravity) / (cellWall * basicGravity);
}

double densityAt(double gravityAt12, double moisture) {
  constexpr double water = 1000;  // kg/m³
  return water * gravityAt(gravityAt12, moisture) * (1 + moisture / 100);
}

double gravityOf(const Species* species) {
  return species && species->gravity ? species->gravity.value / 1000.0 : heavyGravity;
}

double kilograms(CubicMillimetres wood, const Species* species, double moisture) {
  return static_cast<double>(wood.value) / 1e9 * densityAt(gravityOf(species), moisture);
}

Lifting lifting(double kilograms) {
  const double pounds = kilograms * poundsPerKilogram;
  return pounds >= 80 ? Lifting::twoPeople : pounds >= 50 ? Lifting::caution : Lifting::alone;
}

std::string_view advice(Lifting lifting) {
  if (lifting == Lifting::alone) return {};
  return lifting == Lifting::caution ? "mind how you lift it" : "two people";
}

std::string weightText(double kilograms, Unit unit) {
  const double shown = unit == Unit::inches ? kilograms * poundsPerKilogram : kilograms;
  const std::string figure = shown < 10 ? decimal(std::llround(shown * 10), 1, minusSign)
                                        : std::to_string(std::llround(shown));
  return figure + (unit == Unit::inches ? " lb" : " kg");
}

}  // namespace flitch
