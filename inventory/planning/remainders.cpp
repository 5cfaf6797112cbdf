#include "inventory/planning/remainders.h"

#include "inventory/records/account.h"

namespace flitch::planning {

void keepRemainders(Cutting& cutting, const Board& board, const ShopProfile& shop, Length tick) {
  if (!shop.offcutsAtZero) return;
  for (Piece& piece : cutting.pieces) {
    if (piece.kind != PieceKind::unusable || piece.depth < 2) continue;
    if (isOffcut(board, shop, tick, piece.at)) piece.kind = PieceKind::offcut;
  }
}

}  // namespace flitch::planning
