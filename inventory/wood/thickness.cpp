#include "inventory/wood/thickness.h"

namespace flitch {

Length kilnDriedThickness(Nominal nominal) {
  if (nominal.unit() == Unit::millimetres) return nominal.length() - Length::millimetres(2);
  return nominal.length() - Length::sixtyFourths(nominal.value() <= 7 ? 4 : 8);
}

Length surfacedThickness(Nominal nominal) {
  // The thinnest metric nominal is 5 mm, of which a surfaced 5 mm would leave nothing.
  if (nominal.unit() == Unit::millimetres) {
    return nominal.value() > 5 ? nominal.length() - Length::millimetres(5) : Length::millimetres(1);
  }
  return nominal.length() - Length::sixtyFourths(nominal.value() <= 6 ? 12 : 16);
}

}  // namespace flitch
