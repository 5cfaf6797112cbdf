#pragma once
#include <string>

#include "inventory/records/board.h"
#include "inventory/records/shop.h"

namespace flitch {

/// Finished thickness a board can give over a length, at its full width, at a glance: what is left
/// once it is flat (thicknessOver()) less the shop's clean-up of both faces, down to a 1/32 in
/// (0.5 mm). Zero when nothing is left. A kink counts over every length that may cross it.
[[nodiscard]] Length finishedThickness(const Board& board, const ShopProfile& shop, Length over,
                                       Unit unit);
/// The same of flat stock of a nominal thickness once kiln-dried.
[[nodiscard]] Length finishedThickness(Nominal nominal, const ShopProfile& shop, Unit unit);

/// `15/16 in`; of a warped board what a short blank gives, too: `3/4 in over its whole length,
/// 15/16 in over 24 in`.
[[nodiscard]] std::string finishedThicknessText(const Board& board, const ShopProfile& shop,
                                                Unit unit);
/// `13/16 in on two sides, 7/8 in on one`; empty where no table says (metric stock).
[[nodiscard]] std::string surfacedText(Nominal nominal, Unit unit);

}  // namespace flitch
