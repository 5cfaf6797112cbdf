#include "inventory/records/groups.h"

#include <algorithm>

namespace flitch {

void addGroupBlanks(const Cutting& cutting, const Job& job, Groups& groups) {
  for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
    const Piece& piece = cutting.pieces[i];
    if (piece.kind != PieceKind::blank) continue;
    const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                   [&](const Part& p) { return p.line == piece.line; });
    if (part == job.parts.end() || part->group.empty()) continue;
    const std::vector<Layup> layups = layupsOf(cutting, i);
    if (!layups.empty() && part->isSetUp(layups.front().copy)) continue;
    GroupBlanks& group = groups[part->group];
    group.lines.insert(piece.line);
    group.boards.insert(cutting.board);
    group.lastBoard = cutting.board;
    group.lastPiece = static_cast<int>(i);
  }
}

}  // namespace flitch
