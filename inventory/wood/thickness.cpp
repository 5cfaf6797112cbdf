#include "inventory/wood/thickness.h"

namespace flitch {

Length kilnDriedThickness(Nominal nominal) {
  if (nominal.unit() == Unit::millimetres) return nominal.length() - Length::millimetres(2);
  return nominal.length() - Length::sixtyFourths(nominal.value() <= 7 ? 4 : 8);
}

Nominal leastNominal(Length thickness) {
  int quarters = 4;
  while (quarters < 32 && kilnDriedThickness(Nominal::quarters(quarters)) < thickness) ++quarters;
  return Nominal::quarters(quarters);
}

std::optional<Length> surfacedTwoSides(Nominal nominal) {
  if (nominal.unit() != Unit::inches || nominal.value() < 2) return std::nullopt;
  return nominal.length() - Length::sixtyFourths(nominal.value() <= 6 ? 12 : 16);
}

std::optional<Length> surfacedOneSide(Nominal nominal) {
  if (nominal.unit() != Unit::inches || nominal.value() < 2) return std::nullopt;
  const int quarters = nominal.value();
  if (quarters == 7 || quarters == 10 || quarters == 14) return std::nullopt;
  return nominal.length() - Length::sixtyFourths(quarters <= 6 ? 8 : 12);
}

StandardLength standardLength(Length length) {
  const std::int64_t feet = length / Length::feet(1);
  if (feet < 4 || feet > 16) return StandardLength::none;
  return feet % 2 == 0 ? StandardLength::even : StandardLength::odd;
}

}  // namespace flitch
