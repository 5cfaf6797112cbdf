#include "inventory/records/show_wood.h"

#include <algorithm>

#include "inventory/records/choices.h"

namespace flitch {

namespace {

/// Kinds of mark that the demand bars; none where the face may be anything.
std::size_t strictness(const ShopProfile& shop, const std::string& name) {
  const Demand* demand = findDemand(shop, name);
  if (demand == nullptr || demand->outsideGood) return 0;
  const std::vector<DefectKind>& kinds = startingDefectKinds();
  return static_cast<std::size_t>(
      std::count_if(kinds.begin(), kinds.end(),
                    [&](const DefectKind& kind) { return !allows(*demand, kind.name); }));
}

std::size_t strictness(const ShopProfile& shop, const Part& part) {
  return std::max(strictness(shop, part.faceA), strictness(shop, part.faceB));
}

}  // namespace

bool leavesShowWood(const Part& part, const Job& job, const ShopProfile& shop) {
  std::size_t most = 0;
  for (const Part& other : job.parts) most = std::max(most, strictness(shop, other));
  return strictness(shop, part) < most;
}

bool onShowWood(const Board& board, const Rect& blank, Length tick) {
  return std::any_of(board.defects.begin(), board.defects.end(), [&](const Defect& zone) {
    if (zone.kind != "show") return false;
    const Rect& at = zone.where;
    return stepsDown(at.x, tick) * tick < blank.right() &&
           blank.x < stepsUp(at.right(), tick) * tick &&
           stepsDown(at.y, tick) * tick < blank.top() && blank.y < stepsUp(at.top(), tick) * tick;
  });
}

std::vector<std::pair<BoardId, Piece>> onOthersShowWood(const CutPlan& plan,
                                                        const PlanRequest& request) {
  std::vector<std::pair<BoardId, Piece>> all;
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                    [&](const Board& b) { return b.id == cutting.board; });
    if (board == request.boards.end() || lockOn(request.choices, board->id) != nullptr) continue;
    for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
      const Piece& piece = cutting.pieces[i];
      if (piece.kind != PieceKind::blank || !onShowWood(*board, piece.at, plan.tick)) continue;
      const bool byHand = std::any_of(
          request.choices.laid.begin(), request.choices.laid.end(), [&](const LaidByHand& laid) {
            return laid.board == board->id && laid.line == piece.line && laid.at == piece.at;
          });
      if (byHand) continue;
      const auto part = std::find_if(request.job.parts.begin(), request.job.parts.end(),
                                     [&](const Part& p) { return p.line == piece.line; });
      if (part == request.job.parts.end()) continue;
      const std::vector<Layup> layups = layupsOf(cutting, i);
      const bool glued = !layups.empty() && (layups.front().kind == LayupKind::stave ||
                                             layups.front().kind == LayupKind::lamina);
      const bool setUp = !layups.empty() && part->isSetUp(layups.front().copy);
      if (!glued && (setUp || leavesShowWood(*part, request.job, request.shop))) {
        all.emplace_back(board->id, piece);
      }
    }
  }
  return all;
}

bool showWoodCounts(const PlanRequest& request) {
  const bool marked =
      std::any_of(request.boards.begin(), request.boards.end(), [](const Board& board) {
        return std::any_of(board.defects.begin(), board.defects.end(),
                           [](const Defect& mark) { return mark.kind == "show"; });
      });
  const std::vector<Part>& parts = request.job.parts;
  return marked && std::any_of(parts.begin(), parts.end(), [&](const Part& part) {
           return part.setUps > 0 || leavesShowWood(part, request.job, request.shop);
         });
}

Money allWishes(const CutPlan& plan, const PlanRequest& request) {
  return wishCost(plan) +
         usualWish * static_cast<std::int64_t>(onOthersShowWood(plan, request).size());
}

}  // namespace flitch
