#pragma once
#include <span>
#include <string>
#include <vector>

#include "inventory/wood/length.h"
#include "inventory/wood/money.h"
#include "optimizer/bar_stock.h"

namespace flitch::planning {

/// A length of bar as it is sold; any number can be bought.
struct BarSold {
  Length length;
  Money price;
};
/// Equal pieces to be cut from bars.
struct BarPieces {
  Length length;
  int count = 0;
};

/// Bars cut alike.
struct BarCut {
  std::size_t sold = 0;     ///< index into what is sold
  int times = 1;            ///< bars cut so
  std::vector<int> copies;  ///< of each kind of piece, on one bar
  Length left;              ///< of each bar, the kerf of its last cut not counted
};

/// What to buy, and how to cut it.
struct BarPlan {
  std::vector<BarCut> cuts;
  std::vector<int> bars;  ///< to buy, of each length sold
  Money cost;             ///< of these bars
  bool proved = false;    ///< no way costs less
};

/// The cheapest bars that give all pieces, a kerf lost between neighbours. Exact for lengths that
/// share a measure of at least a 100 000th of the longest bar; else pieces and kerf are rounded up,
/// bars down, to a 64th of an inch. Bars without a price: as few as can be. Throws Refusal for a
/// piece that no bar sold is long enough for, for nothing sold, for nothing to cut, and for more
/// than a million pieces.
[[nodiscard]] BarPlan cutBars(const std::string& name, std::span<const BarSold> sold,
                              std::span<const BarPieces> pieces, Length kerf,
                              const optimizer::BarLimits& limits = {});

/// "3 × 30 1/8, 1 × 5": the pieces of one bar.
[[nodiscard]] std::string piecesText(const BarCut& cut, std::span<const BarPieces> pieces,
                                     Unit unit);
/// "2 of 96 in: 3 × 30 1/8; 1 of 96 in: ..." for people.
[[nodiscard]] std::string barText(const BarPlan& plan, std::span<const BarSold> sold,
                                  std::span<const BarPieces> pieces, Unit unit);

}  // namespace flitch::planning
