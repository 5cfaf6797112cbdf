#include "inventory/records/planed_away.h"

#include <algorithm>

namespace flitch {

Length planedAway(const Cutting& cutting, std::size_t piece, const Board& board, const Part& part,
                  const ShopProfile& shop) {
  const std::vector<Layup> layups = layupsOf(cutting, piece);
  Length stays = part.thickness;
  if (!layups.empty()) {
    const Layup& first = layups.front();
    const bool deep = first.kind == LayupKind::lamina || first.turned;
    if (deep) stays = first.gives;
    const auto leaves = static_cast<std::int64_t>(layups.size());
    if (first.kind == LayupKind::whole && leaves > 1) {
      stays = stays * leaves + shop.resawKerf * (leaves - 1);
    }
  }
  return std::max(Length(), board.thickness - stays);
}

}  // namespace flitch
