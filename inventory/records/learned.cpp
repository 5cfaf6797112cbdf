#include "inventory/records/learned.h"

namespace flitch {

FeetUsed Learned::yieldOf(const std::string& species, Nominal nominal) const {
  FeetUsed ofSpecies, all;
  for (const auto& [wood, feet] : yields) {
    if (wood.first == species && wood.second == nominal && feet.parts.thousandths > 0) return feet;
    if (wood.first == species) ofSpecies += feet;
    all += feet;
  }
  return ofSpecies.parts.thousandths > 0 ? ofSpecies : all;
}

}  // namespace flitch
