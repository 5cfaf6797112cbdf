#include "inventory/planning/tree_writer.h"

#include <algorithm>

#include "optimizer/pattern.h"

namespace flitch::planning {

namespace {

using optimizer::Cell;
using optimizer::FirstCut;

/// Writes one board's cut tree.
class TreeWriter {
 public:
  TreeWriter(const Framing& framing, const PlanRequest& request, const Board& board,
             const optimizer::Rect& origin)
      : framing_(framing),
        shop_(request.shop),
        board_(board),
        origin_(origin),
        tick_(framing.tick) {}

  Written write(FirstCut first, std::vector<Cell> cells) {
    first_ = first;
    cells_ = std::move(cells);
    out_.cutting.board = board_.id;
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
    out_.cutting.pieces.push_back(piece);
    out_.item.push_back(-1);
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
    out_.item.back() = cell.item;
    Piece& blank = out_.cutting.pieces.back();
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
  Written out_;
};

}  // namespace

Written writeTree(const Framing& framing, const PlanRequest& request, const Board& board,
                  const optimizer::Rect& origin, FirstCut first, std::vector<Cell> cells) {
  return TreeWriter(framing, request, board, origin).write(first, std::move(cells));
}

}  // namespace flitch::planning
