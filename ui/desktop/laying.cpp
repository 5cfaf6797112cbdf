#include "ui/desktop/laying.h"

#include <algorithm>
#include <array>

#include "inventory/records/choices.h"

namespace flitch::desktop {
namespace {

bool covers(const Rect& r, Length x, Length y) {
  return r.x <= x && x < r.right() && r.y <= y && y < r.top();
}

/// Candidates along one axis: where the low side of a blank may come to lie.
class Draws {
 public:
  Draws(Length size, Length kerf) : size_(size), kerf_(kerf) {}
  void low(Length side) { places_.push_back(side); }
  void high(Length side) { places_.push_back(side - size_); }
  /// In line with a blank, or beside it.
  void blank(Length from, Length to) {
    low(from);
    high(to);
    low(to + kerf_);
    high(from - kerf_);
  }
  /// The nearest within `reach`, else `at`.
  [[nodiscard]] Length nearest(Length at, Length reach) const {
    const auto away = [&](Length place) { return place > at ? place - at : at - place; };
    const auto best = std::min_element(places_.begin(), places_.end(),
                                       [&](Length a, Length b) { return away(a) < away(b); });
    return best == places_.end() || away(*best) > reach ? at : *best;
  }

 private:
  Length size_, kerf_;
  std::vector<Length> places_;
};

}  // namespace

std::optional<BlankInHand> blankAt(const OpenedBoard& opened, const std::vector<LaidByHand>& laid,
                                   Length x, Length y) {
  for (const LaidByHand& l : laid) {
    if (l.board == opened.board.id && covers(l.at, x, y)) return BlankInHand{l, true};
  }
  for (const Piece& piece : opened.cutting.pieces) {
    if (piece.kind != PieceKind::blank || !covers(piece.at, x, y)) continue;
    return BlankInHand{{opened.board.id, piece.line, piece.at, piece.faceUp, piece.frontEdge},
                       false};
  }
  return std::nullopt;
}

LaidByHand laidNear(LaidByHand blank, const OpenedBoard& opened,
                    const std::vector<LaidByHand>& laid, const PlanSheet& sheet, Length x, Length y,
                    Length reach) {
  const Board& board = opened.board;
  const Rect bounds = boundsOf(board);
  Draws along(blank.at.dx, sheet.shop.crosscutKerf), across(blank.at.dy, sheet.shop.ripKerf);
  along.low(board.sawnEnd[0] ? Length() : sheet.shop.endTrim);
  along.high(bounds.dx - (board.sawnEnd[1] ? Length() : sheet.shop.endTrim));
  across.low(bounds.y + edgeTaken(board, sheet.shop));
  across.high(bounds.top());
  const Rect from = blank.at;
  const auto draw = [&](const Rect& other) {
    if (other == from) return;  // its own place draws nothing
    along.blank(other.x, other.right());
    across.blank(other.y, other.top());
  };
  for (const Piece& piece : opened.cutting.pieces) {
    if (piece.kind == PieceKind::blank) draw(piece.at);
  }
  for (const LaidByHand& l : laid) {
    if (l.board == board.id) draw(l.at);
  }
  const Length tick = sheet.plan.tick;
  // Onto the grid, inward, wherever it was drawn to.
  const auto onGrid = [&](Length at, Length low, Length high) {
    const Length least = stepsUp(low, tick) * tick, most = stepsDown(high, tick) * tick;
    const Length nearest = stepsDown(at + tick / 2, tick) * tick;
    return std::max(least, std::min(most, nearest));
  };
  blank.board = board.id;
  blank.at.x = onGrid(along.nearest(x, reach), Length(), bounds.dx - blank.at.dx);
  blank.at.y = onGrid(across.nearest(y, reach), bounds.y, bounds.top() - blank.at.dy);
  return blank;
}

std::string laidText(const LaidByHand& laid, const Board& board, Unit unit) {
  const auto figure = [&](Length l) {
    return text(l, unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres);
  };
  return partLetter(laid.line) + "@" + board.tagText() + " " + figure(laid.at.x) + "," +
         figure(laid.at.y) + (laid.faceUp == Face::b ? ",B" : "") +
         (laid.frontEdge == Edge::far ? ",far" : "");
}

}  // namespace flitch::desktop
