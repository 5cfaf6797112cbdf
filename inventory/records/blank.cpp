#include "inventory/records/blank.h"

namespace flitch {

Blank blankFor(const Part& part, const ShopProfile& shop) {
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

Blank staveFor(const Part& part, Length width, const ShopProfile& shop) {
  Blank blank = blankFor(part, shop);
  blank.width = width;
  blank.onWidth = {{"jointing both edges", shop.jointStave}};
  return blank;
}

}  // namespace flitch
