#pragma once
#include <string>
#include <vector>

#include "inventory/records/job.h"
#include "inventory/records/shop.h"

namespace flitch {

/// One addition to a finished size, with its reason.
struct Allowance {
  std::string reason;  ///< "squaring both ends", "jointing and final rip", "two faces cleaned up"
  Length amount;
};

/// The rough piece sawn for a part.
struct Blank {
  int line = 0;
  Length length, width;
  Length thickness;  ///< that must really be there over it, once flat
  std::vector<Allowance> onLength, onWidth, onThickness;
};

/// The blank of a part that is one blank: finished size and the shop's allowances.
[[nodiscard]] Blank blankFor(const Part& part, const ShopProfile& shop);

/// A stave of a glued part: as long and as thick as a blank of the whole part, `width` wide as
/// sawn.
[[nodiscard]] Blank staveFor(const Part& part, Length width, const ShopProfile& shop);

}  // namespace flitch
