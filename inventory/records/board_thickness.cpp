#include "inventory/records/board_thickness.h"

#include <algorithm>

#include "inventory/wood/thickness.h"

namespace flitch {
namespace {

Length finished(Length flat, const ShopProfile& shop, Unit unit) {
  const Length step = unit == Unit::inches ? Length::sixtyFourths(2) : Length::micrometres(500);
  return std::max<std::int64_t>(0, stepsDown(flat - shop.addPerFace * 2, step)) * step;
}

}  // namespace

Length finishedThickness(const Board& board, const ShopProfile& shop, Length over, Unit unit) {
  const Length flat = thicknessOver(board, over, greatestWidth(board), /*crossesBend=*/true);
  return finished(flat, shop, unit);
}

Length finishedThickness(Nominal nominal, const ShopProfile& shop, Unit unit) {
  return finished(kilnDriedThickness(nominal), shop, unit);
}

std::string finishedThicknessText(const Board& board, const ShopProfile& shop, Unit unit) {
  const Length shorter = unit == Unit::inches ? Length::inches(24) : Length::millimetres(600);
  const Length whole = finishedThickness(board, shop, board.length(), unit);
  std::string all = lengthText(whole, unit);
  if (board.length() <= shorter) return all;
  const Length there = finishedThickness(board, shop, shorter, unit);
  if (there <= whole) return all;
  return all + " over its whole length, " + lengthText(there, unit) + " over " +
         lengthText(shorter, unit);
}

std::string surfacedText(Nominal nominal, Unit unit) {
  const auto two = surfacedTwoSides(nominal), one = surfacedOneSide(nominal);
  if (!two) return {};
  const std::string twoSides = lengthText(*two, unit) + " on two sides";
  return one ? twoSides + ", " + lengthText(*one, unit) + " on one" : twoSides;
}

}  // namespace flitch
