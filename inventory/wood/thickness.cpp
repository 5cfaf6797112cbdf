#include "inventory/wood/thickness.h"

namespace flitch {

Length kilnDriedThickness(Nominal nominal) {
  if (nominal.unit() == Unit::millimetres) return nominal.length() - Length::millimetres(2);
  return nominal.length() - Length::sixtyFourths(nominal.value() <= 7 ? 4 : 8);
}

}  // namespace flitch
