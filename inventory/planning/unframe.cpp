#include <algorithm>

#include "inventory/planning/frame.h"
#include "inventory/planning/layup.h"
#include "inventory/planning/useful.h"
#include "inventory/records/account.h"

namespace flitch::planning {

namespace {

using optimizer::Cell;

/// A pattern without the pieces that nobody wants, and without cuts that then part nothing.
/// `wanted`: pieces of each item, counted down.
std::vector<Cell> wantedCells(const std::vector<Cell>& cells, std::vector<std::int64_t>& wanted) {
  std::vector<Cell> kept;
  std::vector<std::size_t> open;  // divided cells of `kept` above the current one
  const auto close = [&](int depth) {
    while (!open.empty() && kept[open.back()].depth >= depth) {
      if (open.back() + 1 == kept.size()) kept.pop_back();
      open.pop_back();
    }
  };
  for (const Cell& cell : cells) {
    close(cell.depth);
    if (cell.item >= 0) {
      std::int64_t& left = wanted[static_cast<std::size_t>(cell.item)];
      if (left == 0) continue;
      --left;
    }
    if (cell.item == Cell::divided) open.push_back(kept.size());
    kept.push_back(cell);
  }
  close(0);
  const bool some =
      std::any_of(kept.begin(), kept.end(), [](const Cell& c) { return c.item >= 0; });
  if (!some) kept.clear();
  return kept;
}

PlanEnding endingOf(optimizer::Ending ending) {
  switch (ending) {
    case optimizer::Ending::closed: return PlanEnding::closed;
    case optimizer::Ending::goodEnough: return PlanEnding::goodEnough;
    case optimizer::Ending::timeUp: return PlanEnding::timeUp;
    case optimizer::Ending::effortSpent: return PlanEnding::effortSpent;
    case optimizer::Ending::stopped: return PlanEnding::stopped;
  }
  return PlanEnding::timeUp;
}

}  // namespace

Money raisedBy(const std::vector<optimizer::Shortage>& missing, const Framing& framing) {
  Money sum;
  for (const optimizer::Shortage& s : missing) {
    const optimizer::Need& need = framing.problem.needs[static_cast<std::size_t>(s.need)];
    for (const Want& want : framing.wants) {
      if (want.need != s.need) continue;
      sum += (Money::tenThousandths(need.shortage) - want.price) * s.amount;
    }
  }
  return sum;
}

PlanBound boundKindOf(optimizer::BoundKind kind) {
  switch (kind) {
    case optimizer::BoundKind::none: return PlanBound::none;
    case optimizer::BoundKind::area: return PlanBound::area;
    case optimizer::BoundKind::relaxed: return PlanBound::relaxed;
    case optimizer::BoundKind::exact: return PlanBound::exact;
  }
  return PlanBound::none;
}

CutPlan unframe(const optimizer::Solution& solution, const Framing& framing,
                const PlanRequest& request) {
  CutPlan plan;
  plan.job = request.job.id;
  plan.profile = request.shop.id;
  plan.choices = request.choices;
  plan.tick = framing.tick;
  plan.ending = endingOf(solution.ending);
  plan.bound = Money::tenThousandths(solution.bound);
  plan.boundKind = boundKindOf(solution.boundKind);
  plan.effort = static_cast<std::int64_t>(solution.statistics.effort);

  Useful useful = usefulPieces(solution, framing);
  std::vector<Written> boards;
  for (const optimizer::StockCut& cut : solution.cuts) {
    std::vector<Cell> cells = wantedCells(cut.pattern.cells, useful.pieces);
    if (cells.empty()) continue;
    boards.push_back(writeTree(framing, request, static_cast<std::size_t>(cut.stock),
                               cut.pattern.first, std::move(cells)));
  }
  layUp(boards, framing, request);
  for (Written& board : boards) plan.cuttings.push_back(std::move(board.cutting));

  for (const Cutting& cutting : plan.cuttings) {
    for (const Board& board : request.boards) {
      if (board.id != cutting.board) continue;
      const Breakdown b = account(cutting, board, request.job, request.shop, plan.tick);
      plan.woodCost += b.woodCost;
      plan.cutCost += b.cutCost;
      plan.offcutWorth += b.offcutWorth;
    }
  }
  std::vector<optimizer::Shortage> missing;
  for (std::size_t w = 0; w < framing.wants.size(); ++w) {
    const Want& want = framing.wants[w];
    const std::int64_t copies = useful.missing[w];
    if (copies == 0) continue;
    missing.push_back({want.need, copies});
    plan.shortageCost += want.price * copies;
    const int line = request.job.parts[want.part].line;
    if (!plan.shorts.empty() && plan.shorts.back().line == line) {
      plan.shorts.back().copies += static_cast<int>(copies);
    } else {
      plan.shorts.push_back({line, static_cast<int>(copies), false, {}});
    }
  }
  plan.bound -= raisedBy(missing, framing);
  if (plan.bound <= Money()) {
    plan.bound = Money();
    plan.boundKind = PlanBound::none;
  }
  if (plan.boundKind != PlanBound::none && plan.bound == plan.total()) {
    plan.ending = PlanEnding::closed;
  }
  for (const Part& part : request.job.parts) {
    if (waits(part, request.shop)) plan.waiting.push_back(part.line);
  }
  return plan;
}

}  // namespace flitch::planning
