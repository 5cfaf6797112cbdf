#include "inventory/desk/proof.h"

#include <algorithm>

#include "inventory/records/account.h"
#include "inventory/records/plan_check.h"

namespace flitch::desk {

namespace {

/// Puts into the request what the job had sawn when the plan was kept.
void addMadeBefore(PlanRequest& request, const std::vector<store::DoneCutting>& done,
                   const std::vector<store::SpoiledPiece>& spoiled, EntryId kept) {
  std::set<std::pair<CuttingId, int>> gone;
  for (const store::SpoiledPiece& piece : spoiled) {
    if (piece.entry <= kept) gone.emplace(piece.cutting, piece.piece);
  }
  for (const store::DoneCutting& cutting : done) {
    if (cutting.entry > kept) continue;
    int at = 0;
    for (const Piece& piece : cutting.cutting.pieces) {
      const bool stands = !gone.contains({cutting.id, at++});
      if (piece.kind == PieceKind::blank && stands) request.made[piece.line].insert(piece.copy);
    }
    for (Layup layup : cutting.cutting.layups) {
      if (gone.contains({cutting.id, layup.piece})) continue;
      const Piece& stave = cutting.cutting.pieces.at(static_cast<std::size_t>(layup.piece));
      layup.piece = stave.copy;
      request.laid.push_back({stave.line, layup});
    }
  }
}

/// The boards of a plan, if all are as it saw them.
std::optional<std::vector<Board>> boardsOf(const store::StoredPlan& stored,
                                           const store::Snapshot& snapshot) {
  std::vector<Board> boards;
  for (const Cutting& cutting : stored.plan.cuttings) {
    std::optional<Board> board = snapshot.board(cutting.board);
    if (!board || !board->onRack() || snapshot.changedSince(cutting.board, stored.kept)) {
      return std::nullopt;
    }
    boards.push_back(std::move(*board));
  }
  return boards;
}

/// The plan with its short parts priced by the stock of the request; a bound that held still holds.
CutPlan priced(CutPlan plan, const PlanRequest& request) {
  const bool held = plan.bound <= plan.total();
  plan.shortageCost = Money{};
  for (const ShortPart& missing : plan.shorts) {
    for (const Part& part : request.job.parts) {
      if (part.line == missing.line) {
        plan.shortageCost += shortagePrice(part, request) * missing.copies;
      }
    }
  }
  if (held) plan.bound = std::min(plan.bound, plan.total());
  return plan;
}

}  // namespace

std::vector<store::Unsound> prove(const store::Book& book) {
  std::vector<store::Unsound> found = book.check();
  if (!found.empty()) return found;  // plans of an unsound book prove nothing
  const store::Snapshot snapshot = book.read();
  for (const Job& job : snapshot.jobs()) {
    const std::vector<store::DoneCutting> done = snapshot.doneCuttings(job.id);
    const std::vector<store::SpoiledPiece> spoiled = snapshot.spoiled(job.id);
    for (const PlanId id : snapshot.plans(job.id)) {
      const store::StoredPlan stored = snapshot.plan(id).value();
      std::optional<std::vector<Board>> boards = boardsOf(stored, snapshot);
      const std::optional<ShopProfile> shop = snapshot.profile(stored.plan.profile);
      if (!boards || !shop) continue;
      PlanRequest request;
      request.job = job;
      request.shop = *shop;
      request.boards = std::move(*boards);
      request.choices = stored.plan.choices;
      addMadeBefore(request, done, spoiled, stored.kept);
      for (const Fault& fault : check(priced(stored.plan, request), request)) {
        const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                        [&](const Board& b) { return b.id == fault.board; });
        const std::string tag =
            board != request.boards.end() && board->tag ? " on " + text(*board->tag) : "";
        found.push_back({"Plan " + std::to_string(id.value) + " of " + job.name + tag + ": " +
                         fault.sentence + "."});
      }
    }
  }
  return found;
}

}  // namespace flitch::desk
