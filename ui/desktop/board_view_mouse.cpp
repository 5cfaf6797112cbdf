#include <QMouseEvent>
#include <algorithm>
#include <array>
#include <cmath>

#include "inventory/records/zones.h"
#include "ui/desktop/board_view.h"
#include "ui/desktop/snap.h"
#include "ui/desktop/usual_mark.h"

namespace flitch::desktop {
namespace {

constexpr double nearBy = 6, tremble = 4;  // pixels

bool showsOn(const Defect& defect, Face face) {
  return defect.face == DefectFace::through || defect.face == DefectFace::near ||
         defect.face == DefectFace::far ||
         defect.face == (face == Face::a ? DefectFace::a : DefectFace::b);
}

Length least(Unit unit) {
  return unit == Unit::inches ? Length::sixtyFourths(4) : Length::millimetres(1);
}

}  // namespace

Face BoardView::handledFace() const {
  const bool onB =
      chosen_ >= 0 && board_->defects[static_cast<std::size_t>(chosen_)].face == DefectFace::b;
  return onB ? Face::b : Face::a;
}

int BoardView::markAt(const BoardLayout& l, QPointF point) const {
  for (int i = static_cast<int>(board_->defects.size()) - 1; i >= 0; --i) {
    const Defect& defect = board_->defects[static_cast<std::size_t>(i)];
    for (const Face face : {Face::a, Face::b}) {
      if (showsOn(defect, face) &&
          l.box(face, placeOn(defect, face)).adjusted(-3, -3, 3, 3).contains(point)) {
        return i;
      }
    }
  }
  return -1;
}

std::optional<BoardView::Grip> BoardView::gripAt(const BoardLayout& l, QPointF point) const {
  if (chosen_ < 0) return std::nullopt;
  const Face face = handledFace();
  const QRectF m =
      l.box(face, board_->defects[static_cast<std::size_t>(chosen_)].where).adjusted(-3, -3, 3, 3);
  for (const int u : {-1, 0, 1}) {
    for (const int v : {-1, 0, 1}) {
      if (u == 0 && v == 0) continue;
      const QPointF at(m.center().x() + u * m.width() / 2, m.center().y() + v * m.height() / 2);
      if (std::abs(at.x() - point.x()) > nearBy || std::abs(at.y() - point.y()) > nearBy) continue;
      // Down the screen is toward the near edge on face A, away from it on face B.
      return Grip{u, face == Face::a ? -v : v};
    }
  }
  return std::nullopt;
}

Board BoardView::pulledBoard() const {
  Board board = *board_;
  if (!pending_) return board;
  if (pull_ == Pull::draw) {
    board.defects.push_back(*pending_);
  } else {
    board.defects[static_cast<std::size_t>(chosen_)] = *pending_;
  }
  return board;
}

void BoardView::mousePressEvent(QMouseEvent* event) {
  if (!board_ || event->button() != Qt::LeftButton) return;
  flush();
  const BoardLayout l = layout();
  const std::optional<FacePlace> place = l.placeAt(event->position());
  const std::optional<Grip> grip = gripAt(l, event->position());
  const int mark = markAt(l, event->position());
  pressed_ = event->position();
  if (grip) {
    pull_ = Pull::size;
    grip_ = *grip;
    from_ = l.nearestOn(handledFace(), event->position());
  } else if (mark >= 0) {
    choose(mark);
    const Defect& taken = board_->defects[static_cast<std::size_t>(mark)];
    const bool through = taken.face == DefectFace::through && !isZone(taken.kind);
    const bool onB = place && place->face == Face::b;
    pull_ = through && onB && (event->modifiers() & Qt::ShiftModifier) ? Pull::slant : Pull::move;
    from_ = place.value_or(l.nearestOn(handledFace(), event->position()));
  } else if (place) {
    choose(-1);
    hair_ = *place;
    pull_ = Pull::draw;
    from_ = *place;
    update();
  }
}

void BoardView::pull(const BoardLayout& l, QPointF point, bool snap) {
  drawnTo_ = {};
  const Length reach =
      Length::nanometres(snap ? static_cast<std::int64_t>(nearBy / l.scale * nmPerInch) : 0);
  const Snap to(*board_, from_.face, unit_, pull_ == Pull::draw ? -1 : chosen_);
  const auto drawn = [&](Length x, Length y) {
    const Snap::Place place = snap ? to.at(x, y, reach) : Snap::Place{x, y};
    if (place.toX) drawnTo_[0] = place.x;
    if (place.toY) drawnTo_[1] = place.y;
    return place;
  };
  const FacePlace now = l.nearestOn(from_.face, point);
  if (pull_ == Pull::draw) {
    const Snap::Place a = drawn(from_.x, from_.y), b = drawn(now.x, now.y);
    Defect mark = usualMark(kind_, *board_, from_.face, a.x, a.y, unit_);
    mark.where = {std::min(a.x, b.x), std::min(a.y, b.y),
                  std::max(std::max(a.x, b.x) - std::min(a.x, b.x), least(unit_)),
                  std::max(std::max(a.y, b.y) - std::min(a.y, b.y), least(unit_))};
    pending_ = mark;
    return;
  }
  Defect mark = board_->defects[static_cast<std::size_t>(chosen_)];
  const Rect was = pull_ == Pull::slant ? placeOn(mark, Face::b) : mark.where;
  const Rect all = l.bounds;
  if (pull_ == Pull::slant) {
    Rect onB = was;
    const Snap::Place corner = drawn(was.x + (now.x - from_.x), was.y + (now.y - from_.y));
    onB.x = std::clamp(corner.x, all.x - was.dx / 2, all.right() - was.dx / 2);
    onB.y = std::clamp(corner.y, all.y - was.dy / 2, all.top() - was.dy / 2);
    mark.onB = onB;
    if (onB == mark.where) mark.onB.reset();
  } else if (pull_ == Pull::move) {
    const Snap::Place corner = drawn(was.x + (now.x - from_.x), was.y + (now.y - from_.y));
    mark.where.x = std::clamp(corner.x, all.x - was.dx / 2, all.right() - was.dx / 2);
    mark.where.y = std::clamp(corner.y, all.y - was.dy / 2, all.top() - was.dy / 2);
    moveAlong(mark, was, all);
  } else {
    const Snap::Place side = drawn((grip_.x < 0 ? was.x : was.right()) + (now.x - from_.x),
                                   (grip_.y < 0 ? was.y : was.top()) + (now.y - from_.y));
    const Length small = least(unit_);
    if (grip_.x < 0) mark.where.x = std::min(side.x, was.right() - small);
    if (grip_.x != 0)
      mark.where.dx = (grip_.x < 0 ? was.right() : std::max(side.x, was.x + small)) - mark.where.x;
    if (grip_.y < 0) mark.where.y = std::min(side.y, was.top() - small);
    if (grip_.y != 0)
      mark.where.dy = (grip_.y < 0 ? was.top() : std::max(side.y, was.y + small)) - mark.where.y;
  }
  pending_ = mark;
}

void BoardView::mouseMoveEvent(QMouseEvent* event) {
  if (pull_ == Pull::none) return;
  const QPointF way = event->position() - pressed_;
  if (!pending_ && std::abs(way.x()) < tremble && std::abs(way.y()) < tremble) return;
  pull(layout(), event->position(), snap_ && !(event->modifiers() & Qt::AltModifier));
  update();
}

void BoardView::mouseReleaseEvent(QMouseEvent* event) {
  if (pull_ == Pull::none) return;
  mouseMoveEvent(event);
  const bool changed = pending_.has_value();
  if (changed) board_ = pulledBoard();
  if (changed && pull_ == Pull::draw) chosen_ = static_cast<int>(board_->defects.size()) - 1;
  pull_ = Pull::none;
  pending_.reset();
  drawnTo_ = {};
  update();
  if (changed) changedMarks(true);
}

}  // namespace flitch::desktop
