#include <algorithm>
#include <array>
#include <map>

#include "inventory/planning/frame.h"
#include "inventory/records/account.h"

namespace flitch::planning {

namespace {

using optimizer::Cell;
using optimizer::FirstCut;

/// A pattern without the pieces that nobody wants, and without cuts that then part nothing.
std::vector<Cell> wantedCells(const std::vector<Cell>& cells, std::vector<std::int64_t>& wanted,
                              const optimizer::Problem& problem) {
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
      const auto need =
          static_cast<std::size_t>(problem.items[static_cast<std::size_t>(cell.item)].need);
      if (wanted[need] == 0) continue;
      --wanted[need];
    }
    if (cell.item == Cell::divided) open.push_back(kept.size());
    kept.push_back(cell);
  }
  close(0);
  return kept;
}

/// Writes one board's cut tree.
class TreeWriter {
 public:
  TreeWriter(const Framing& framing, const PlanRequest& request, std::size_t stock,
             const Board& board)
      : framing_(framing),
        shop_(request.shop),
        board_(board),
        origin_(framing.origin[stock]),
        tick_(framing.tick) {}

  Cutting write(FirstCut first, std::vector<Cell> cells) {
    first_ = first;
    cells_ = std::move(cells);
    out_.board = board_.id;
    const Rect whole = boundsOf(board_);
    add(0, PieceKind::cut, whole);
    const bool trimTag = !board_.sawnEnd[0] && shop_.endTrim > Length();
    const bool trimFar = !board_.sawnEnd[1] && shop_.endTrim > Length();
    const Length left = trimTag ? origin_.x * tick_ : whole.x;
    const Length right = trimFar ? (origin_.x + origin_.dx) * tick_ : whole.right();
    if (trimTag) add(1, PieceKind::endTrim, {whole.x, whole.y, left - whole.x, whole.dy});
    const Rect body{left, whole.y, right - left, whole.dy};
    add(1, PieceKind::cut, body);
    std::size_t next = 0;
    writeChildren(body, 1, next);
    if (trimFar) add(1, PieceKind::endTrim, {right, whole.y, whole.right() - right, whole.dy});
    return std::move(out_);
  }

 private:
  void add(int depth, PieceKind kind, const Rect& at) {
    Piece piece;
    piece.depth = depth;
    piece.kind = kind;
    piece.at = at;
    out_.pieces.push_back(piece);
  }

  /// Cells at `depth` from `next` on divide `parent`; pieces lie one level deeper than cells.
  void writeChildren(const Rect& parent, int depth, std::size_t& next) {
    const bool alongX = (first_ == FirstCut::x) == (depth % 2 == 1);
    const Length kerf = alongX ? shop_.crosscutKerf : shop_.ripKerf;
    Length reached = alongX ? parent.x : parent.y;
    bool any = false;
    const auto leaf = [&](PieceKind kind, Length size) {
      if (size <= Length()) return;
      add(depth + 1, kind,
          alongX ? Rect{reached, parent.y, size, parent.dy}
                 : Rect{parent.x, reached, parent.dx, size});
      reached += size;
    };
    while (next < cells_.size() && cells_[next].depth == depth) {
      const Cell& cell = cells_[next++];
      const optimizer::Rect& r = cell.where;
      const Length from = (alongX ? origin_.x + r.x : origin_.y + r.y) * tick_;
      const Length size = (alongX ? r.dx : r.dy) * tick_;
      const Length gap = from - reached;
      const Length behind = any ? std::min(kerf, gap) : Length();
      const Length ahead = std::min(kerf, gap - behind);
      leaf(PieceKind::kerf, behind);
      leaf(PieceKind::unusable, gap - behind - ahead);
      leaf(PieceKind::kerf, ahead);
      const Rect at =
          alongX ? Rect{from, parent.y, size, parent.dy} : Rect{parent.x, from, parent.dx, size};
      writeCell(cell, at, next);
      reached = from + size;
      any = true;
    }
    const Length rest = (alongX ? parent.right() : parent.top()) - reached;
    const Length behind = any ? std::min(kerf, rest) : Length();
    leaf(PieceKind::kerf, behind);
    leaf(PieceKind::unusable, rest - behind);
  }

  void writeCell(const Cell& cell, const Rect& at, std::size_t& next) {
    if (cell.item == Cell::divided) {
      add(cell.depth + 1, PieceKind::cut, at);
      writeChildren(at, cell.depth + 1, next);
      return;
    }
    if (cell.item == Cell::offcut) {
      add(cell.depth + 1, PieceKind::offcut, at);
      return;
    }
    add(cell.depth + 1, PieceKind::blank, at);
    Piece& blank = out_.pieces.back();
    blank.line = framing_.blanks[static_cast<std::size_t>(cell.item)].line;
    blank.faceUp = cell.orientation / 2 == 0 ? Face::a : Face::b;
    blank.frontEdge = cell.orientation % 2 == 0 ? Edge::near : Edge::far;
  }

  const Framing& framing_;
  const ShopProfile& shop_;
  const Board& board_;
  const optimizer::Rect& origin_;
  Length tick_;
  FirstCut first_ = FirstCut::x;
  std::vector<Cell> cells_;
  Cutting out_;
};

/// Copies of a part take the numbers not made yet, lowest first, board by board, from the tag end
/// on.
void numberCopies(std::vector<Cutting>& cuttings, std::map<int, std::set<int>> taken) {
  std::map<int, int> last;
  for (Cutting& cutting : cuttings) {
    std::vector<Piece*> blanks;
    for (Piece& p : cutting.pieces) {
      if (p.kind == PieceKind::blank) blanks.push_back(&p);
    }
    std::sort(blanks.begin(), blanks.end(), [](const Piece* a, const Piece* b) {
      return a->at.x != b->at.x ? a->at.x < b->at.x : a->at.y < b->at.y;
    });
    for (Piece* p : blanks) {
      int& copy = last[p->line];
      do ++copy;
      while (taken[p->line].count(copy) > 0);
      p->copy = copy;
    }
  }
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
    const auto need = static_cast<std::size_t>(s.need);
    const Money asked = Money::tenThousandths(framing.problem.needs[need].shortage);
    sum += (asked - framing.price[need]) * s.amount;
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

  std::vector<std::int64_t> missing;
  for (const optimizer::Need& need : framing.problem.needs) missing.push_back(need.amount);
  for (const optimizer::StockCut& cut : solution.cuts) {
    const auto stock = static_cast<std::size_t>(cut.stock);
    const Board& board = request.boards[framing.board[stock]];
    std::vector<Cell> cells = wantedCells(cut.pattern.cells, missing, framing.problem);
    if (cells.empty()) continue;
    TreeWriter writer(framing, request, stock, board);
    plan.cuttings.push_back(writer.write(cut.pattern.first, std::move(cells)));
  }
  numberCopies(plan.cuttings, request.made);

  for (const Cutting& cutting : plan.cuttings) {
    for (const Board& board : request.boards) {
      if (board.id != cutting.board) continue;
      const Breakdown b = account(cutting, board, request.job, request.shop, plan.tick);
      plan.woodCost += b.woodCost;
      plan.cutCost += b.cutCost;
      plan.offcutWorth += b.offcutWorth;
    }
  }
  std::vector<optimizer::Shortage> left;
  for (std::size_t n = 0; n < missing.size(); ++n) {
    if (missing[n] == 0) continue;
    ShortPart shortPart;
    shortPart.line = framing.blanks[n].line;
    shortPart.copies = static_cast<int>(missing[n]);
    plan.shorts.push_back(shortPart);
    plan.shortageCost += framing.price[n] * missing[n];
    left.push_back({static_cast<int>(n), missing[n]});
  }
  plan.bound -= raisedBy(left, framing);
  if (plan.bound <= Money()) {
    plan.bound = Money();
    plan.boundKind = PlanBound::none;
  }
  if (plan.boundKind != PlanBound::none && plan.bound == plan.total()) {
    plan.ending = PlanEnding::closed;
  }
  for (const Part& part : request.job.parts) {
    if (!part.solid()) plan.waiting.push_back(part.line);
  }
  return plan;
}

}  // namespace flitch::planning
