#include "inventory/records/blank.h"

#include <stdexcept>

namespace flitch {

Blank blankFor(const Part& part, const ShopProfile& shop) {
  if (!part.solid()) throw std::logic_error("a blank of a part that waits: " + part.name);
  Blank blank;
  blank.line = part.line;
  blank.onLength.push_back({"squaring both ends", shop.addLength});
  blank.onWidth.push_back({"jointing and final rip", shop.addWidth});
  blank.onThickness.push_back({"two faces cleaned up", 2 * shop.addPerFace});
  blank.length = part.length + shop.addLength;
  blank.width = part.width + shop.addWidth;
  blank.thickness = part.thickness + 2 * shop.addPerFace;
  return blank;
}

}  // namespace flitch
