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

/// The blank of a solid part: finished size and the shop's allowances. Throws std::logic_error for
/// a part that is not solid.
[[nodiscard]] Blank blankFor(const Part& part, const ShopProfile& shop);

}  // namespace flitch
