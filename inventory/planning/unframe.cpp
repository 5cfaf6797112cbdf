#include <algorithm>
#include <map>

#include "inventory/planning/frame.h"
#include "inventory/planning/layup.h"
#include "inventory/planning/remainders.h"
#include "inventory/planning/useful.h"
#include "inventory/records/account.h"
#include "inventory/records/choices.h"
#include "inventory/records/show_wood.h"

namespace flitch::planning {

namespace {

using optimizer::Cell;

/// A pattern without the pieces that nobody wants, and without cuts that then part nothing.
/// `wanted`: pieces of each item, counted down. A pattern without any piece is none at all.
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
  return kept;
}

bool givesBlank(const std::vector<Cell>& cells) {
  return std::any_of(cells.begin(), cells.end(), [](const Cell& c) { return c.item >= 0; });
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
    const auto raised = [&](int wanted, Money price) {
      if (wanted == s.need) sum += (Money::tenThousandths(need.shortage) - price) * s.amount;
    };
    for (const Want& want : framing.wants) raised(want.need, want.price);
    for (const GroupWant& group : framing.groups) raised(group.need, group.price);
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

namespace {

/// The nodes of a pattern that divide the board, each with all below it.
std::vector<std::vector<Cell>> firstNodes(const std::vector<Cell>& cells) {
  std::vector<std::vector<Cell>> nodes;
  for (const Cell& cell : cells) {
    if (cell.depth == 1) nodes.emplace_back();
    nodes.back().push_back(cell);
  }
  return nodes;
}

/// What is cut of a board beside its laid blanks, and these, as one pattern.
class LaidPattern {
 public:
  explicit LaidPattern(const LaidBoard& laid) : laid_(laid) { add(laid.parting.cells); }

  void add(std::vector<Cell> cells, const optimizer::Rect& origin) {
    for (Cell& cell : cells) {
      cell.where.x += origin.x - laid_.origin.x;
      cell.where.y += origin.y - laid_.origin.y;
    }
    add(cells);
  }
  [[nodiscard]] std::vector<Cell> cells() {
    const bool x = laid_.parting.first == optimizer::FirstCut::x;
    std::sort(nodes_.begin(), nodes_.end(), [x](const auto& a, const auto& b) {
      return x ? a.front().where.x < b.front().where.x : a.front().where.y < b.front().where.y;
    });
    std::vector<Cell> all;
    for (const std::vector<Cell>& node : nodes_) all.insert(all.end(), node.begin(), node.end());
    return all;
  }

 private:
  void add(const std::vector<Cell>& cells) {
    for (std::vector<Cell>& node : firstNodes(cells)) nodes_.push_back(std::move(node));
  }
  const LaidBoard& laid_;
  std::vector<std::vector<Cell>> nodes_;
};

/// What is wanted of the solution's boards, pinned ones first served, in order of board.
std::vector<Written> writtenBoards(const optimizer::Solution& solution, const Framing& framing,
                                   const PlanRequest& request, Useful& useful) {
  std::map<std::size_t, Written> boards;  // by place in the request
  std::map<std::size_t, LaidPattern> laid;
  for (const LaidBoard& board : framing.laid) laid.emplace(board.board, board);
  for (const bool pinned : {true, false}) {
    for (const optimizer::StockCut& cut : solution.cuts) {
      const auto stock = static_cast<std::size_t>(cut.stock);
      if (pinned != (framing.problem.stock[stock].least > 0)) continue;
      std::vector<Cell> cells = wantedCells(cut.pattern.cells, useful.pieces);
      const std::size_t place = framing.board[stock];
      const optimizer::Rect& origin = framing.origin[stock];
      if (const auto on = laid.find(place); on != laid.end()) {
        on->second.add(std::move(cells), origin);
      } else if (givesBlank(cells)) {
        boards.emplace(place, writeTree(framing, request, request.boards[place], origin,
                                        cut.pattern.first, std::move(cells)));
      }
    }
  }
  for (const LaidBoard& board : framing.laid) {
    boards.emplace(board.board,
                   writeTree(framing, request, request.boards[board.board], board.origin,
                             board.parting.first, laid.at(board.board).cells()));
  }
  std::vector<Written> written;
  for (auto& [place, board] : boards) written.push_back(std::move(board));
  return written;
}

}  // namespace

namespace {

/// The copies a plan lacks, in order of line, with what they are priced at. Returns them as needs.
std::vector<optimizer::Shortage> tellShorts(CutPlan& plan, const Useful& useful,
                                            const Framing& framing, const PlanRequest& request) {
  std::vector<optimizer::Shortage> missing;
  std::map<int, int> copies;  // by line
  for (std::size_t w = 0; w < framing.wants.size(); ++w) {
    const Want& want = framing.wants[w];
    if (useful.missing[w] == 0) continue;
    missing.push_back({want.need, useful.missing[w]});
    plan.shortageCost += want.price * useful.missing[w];
    copies[request.job.parts[want.part].line] += static_cast<int>(useful.missing[w]);
  }
  for (std::size_t g = 0; g < framing.groups.size(); ++g) {
    const GroupWant& group = framing.groups[g];
    if (useful.whole[g]) continue;
    missing.push_back({group.need, 1});
    plan.shortageCost += group.price;
    for (const auto& [part, count] : group.copies) copies[request.job.parts[part].line] += count;
  }
  for (const auto& [line, count] : copies) plan.shorts.push_back({line, count, false, {}});
  return missing;
}

}  // namespace

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
  std::vector<Written> boards = writtenBoards(solution, framing, request, useful);
  layUp(boards, framing, besideLocks(request));
  for (Written& board : boards) plan.cuttings.push_back(std::move(board.cutting));
  for (Cutting& cutting : plan.cuttings) {
    for (const Board& board : request.boards) {
      if (board.id == cutting.board) keepRemainders(cutting, board, request.shop, plan.tick);
    }
  }
  for (const Lock& lock : request.choices.locks) plan.cuttings.push_back(lock.cutting);
  std::stable_sort(plan.cuttings.begin(), plan.cuttings.end(),
                   [](const Cutting& a, const Cutting& b) { return a.board < b.board; });

  for (const Cutting& cutting : plan.cuttings) {
    for (const Board& board : request.boards) {
      if (board.id != cutting.board) continue;
      const Breakdown b = account(cutting, board, request.job, request.shop, plan.tick);
      plan.woodCost += b.woodCost;
      plan.cutCost += b.cutCost;
      plan.offcutWorth += b.offcutWorth;
    }
  }
  const std::vector<optimizer::Shortage> missing = tellShorts(plan, useful, framing, request);
  if (framing.problem.needs.empty())
    plan.boundKind = PlanBound::exact;  // nothing is left to choose
  plan.bound += framing.beside - raisedBy(missing, framing) - allWishes(plan, request);
  if (plan.boundKind == PlanBound::none || plan.bound <= Money()) {
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
