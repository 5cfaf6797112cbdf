#include "inventory/desk/beside.h"

#include <algorithm>
#include <map>

#include "inventory/desk/sawn_boards.h"
#include "inventory/planning/plan_words.h"
#include "inventory/planning/settled.h"
#include "inventory/records/account.h"
#include "inventory/records/choices.h"
#include "inventory/records/refusal.h"

namespace flitch::desk {

namespace {

/// What a plan comes to, board by board.
struct Sum {
  CutPlan plan;
  std::int64_t boards = 0, cuts = 0, copiesShort = 0;
  Feet opened, parts;
  Permille unseen;
};

Sum sumOf(const CutPlan& plan, const std::map<BoardId, Board>& boards, const Job& job,
          const ShopProfile& shop, Unit unit) {
  Sum sum;
  sum.plan = plan;
  std::vector<Board> own;
  for (const Cutting& cutting : plan.cuttings) {
    const Board& board = boards.at(cutting.board);
    const Breakdown account = flitch::account(cutting, board, job, shop, plan.tick);
    ++sum.boards;
    sum.opened += board.measuredFeet;
    sum.parts += account.feet[static_cast<std::size_t>(Cause::parts)];
    sum.cuts += std::count_if(cutting.pieces.begin(), cutting.pieces.end(), [](const Piece& p) {
      return p.depth > 1 && (p.kind == PieceKind::cut || p.kind == PieceKind::blank ||
                             p.kind == PieceKind::offcut);
    });
    own.push_back(board);
  }
  for (const ShortPart& s : plan.shorts) sum.copiesShort += s.copies;
  sum.unseen = {planning::unseenShare(plan, own, job, shop, unit).permille};
  return sum;
}

std::map<BoardId, Board> boardsOf(const store::Snapshot& snapshot, const Job& job,
                                  const std::vector<store::StoredPlan>& plans) {
  std::map<BoardId, Board> boards;
  for (const store::DoneCutting& done : snapshot.doneCuttings(job.id)) {
    boards.emplace(done.board.id, done.board);
  }
  for (const store::StoredPlan& stored : plans) {
    for (const Cutting& cutting : stored.plan.cuttings) {
      if (!boards.contains(cutting.board)) {
        boards.emplace(cutting.board, snapshot.board(cutting.board).value());
      }
    }
  }
  return boards;
}

}  // namespace

Table plansBeside(const store::Snapshot& snapshot, const Job& job, Unit unit) {
  const std::vector<PlanId> ids = snapshot.plans(job.id);
  if (ids.size() < 2) {
    throw Refusal("one-plan",
                  Complaint{"", job.name + " has fewer than two plans to lay side by side",
                            job.name, "a job planned twice, otherwise settled the second time"});
  }
  std::vector<store::StoredPlan> plans;
  for (std::size_t i = ids.size() - 2; i < ids.size(); ++i) {
    plans.push_back(snapshot.plan(ids[i]).value());
  }
  const std::map<BoardId, Board> boards = boardsOf(snapshot, job, plans);
  std::vector<Sum> sums;
  for (const store::StoredPlan& stored : plans) {
    const ShopProfile shop = snapshot.profile(stored.plan.profile).value_or(snapshot.shop());
    sums.push_back(sumOf(stored.plan, boards, job, shop, unit));
  }

  Table table;
  table.title = "Two plans of " + job.name;
  table.columns = {{"plan", "plan", true},
                   {"total", "cost in all", true},
                   {"wood", "wood", true},
                   {"cutting", "cutting", true},
                   {"offcuts", "worth of offcuts kept", true},
                   {"wishes", "wishes, beside the cost", true},
                   {"short", "parts short", true},
                   {"boards", "boards", true},
                   {"cuts", "cuts", true},
                   {"opened", "board feet opened", true},
                   {"in_parts", "of these in parts", true},
                   {"unseen", "show faces on trust", true},
                   {"open", "can still be saved", true},
                   {"settled", "settled", false}};
  for (const Sum& s : sums) {
    const bool proved = s.plan.boundKind != PlanBound::none;
    const std::string terms = planning::termsText(s.plan.choices);
    table.rows.push_back(
        {s.plan.id.value, s.plan.total(), s.plan.woodCost, s.plan.cutCost, s.plan.offcutWorth,
         wishCost(s.plan), s.copiesShort, s.boards, s.cuts, s.opened,
         permille(s.parts.thousandths, s.opened.thousandths), s.unseen,
         proved ? CellValue{std::max(Money(), s.plan.total() - s.plan.bound)} : CellValue{},
         terms.empty() ? "nothing" : terms});
  }
  return table;
}

Table sideBySide(const Table& plans, Unit unit, const std::string& sign) {
  Table table;
  table.title = plans.title;
  table.columns = {{"what", "", false}, {"before", "plan before", true}, {"now", "newest", true}};
  for (std::size_t c = 0; c < plans.columns.size(); ++c) {
    std::vector<CellValue> row{plans.columns[c].title};
    for (const std::vector<CellValue>& plan : plans.rows) {
      const std::string cell = text(plan[c], unit, sign);
      row.emplace_back(cell.empty() ? "not proved yet" : cell);
    }
    table.rows.push_back(std::move(row));
  }
  return table;
}

}  // namespace flitch::desk
