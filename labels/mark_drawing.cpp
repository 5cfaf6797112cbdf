#include "labels/mark_drawing.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "inventory/records/zones.h"

namespace flitch::pages {
namespace {

char letterOf(const Defect& defect) {
  for (const DefectKind& kind : startingDefectKinds())
    if (kind.name == defect.kind) return kind.letter;
  return '?';
}

Board facing(Board board, Face face) {
  for (Defect& defect : board.defects) defect.where = placeOn(defect, face);
  return board;
}

}  // namespace

bool isZone(const Defect& defect) { return flitch::isZone(defect.kind); }

Length lengthOf(double millimetres) { return Length::nanometres(std::llround(millimetres * 1e6)); }

QPolygonF ellipse(const QRectF& box) {
  constexpr int corners = 28;
  QPolygonF polygon;
  for (int n = 0; n < corners; ++n) {
    const double angle = 2 * std::numbers::pi * n / corners;
    polygon << box.center() +
                   QPointF(box.width() / 2 * std::cos(angle), box.height() / 2 * std::sin(angle));
  }
  return polygon;
}

std::vector<QPointF> pointsOf(const QPolygonF& polygon) { return {polygon.begin(), polygon.end()}; }

MarkDrawing::MarkDrawing(const Board& board, Face face, const BoardView& view,
                         const BoardLook& look)
    : board_(facing(board, face)),
      face_(face),
      view_(view),
      look_(look),
      wood_(lying(board, face)),
      u_(look.pixel) {
  for (const OutlinePoint& point : wood_.points())
    outline_ << view_.page(mm(point.x), mm(point.near));
  const auto points = wood_.points();
  for (std::size_t at = points.size(); at-- > 0;)
    outline_ << view_.page(mm(points[at].x), mm(points[at].far));
}

std::vector<QPointF> MarkDrawing::within(const QPolygonF& shape) const {
  // Points outside slide onto the nearest edge; sides get a point wherever the outline has one and
  // wherever they cross it. (QPolygonF::intersected may turn over a shape that touches an edge.)
  const double length = mm(wood_.length());
  const auto edgesAt = [&](double x) {
    const Length place = lengthOf(std::clamp(x, 0.0, length));
    return std::pair(mm(wood_.nearAt(place)), mm(wood_.farAt(place)));
  };
  std::vector<QPointF> points;
  const auto slide = [&](QPointF onBoard) {
    const auto [near, far] = edgesAt(onBoard.x());
    points.push_back(
        view_.page(std::clamp(onBoard.x(), 0.0, length), std::clamp(onBoard.y(), near, far)));
  };
  const qsizetype corners = shape.size();
  for (qsizetype at = 0; at < corners; ++at) {
    const QPointF from = view_.board(shape[at]), to = view_.board(shape[(at + 1) % corners]);
    const auto along = [&](double part) { return from + part * (to - from); };
    std::vector<double> parts{0, 1};
    for (const OutlinePoint& point : wood_.points()) {
      const double part = (mm(point.x) - from.x()) / (to.x() - from.x());
      if (part > 0 && part < 1) parts.push_back(part);
    }
    std::sort(parts.begin(), parts.end());
    for (std::size_t n = 0; n + 1 < parts.size(); ++n) {
      const QPointF left = along(parts[n]), right = along(parts[n + 1]);
      const auto [nearLeft, farLeft] = edgesAt(left.x());
      const auto [nearRight, farRight] = edgesAt(right.x());
      slide(left);
      std::vector<double> crossings;
      for (const auto& [over, under] : {std::pair(left.y() - nearLeft, right.y() - nearRight),
                                        std::pair(left.y() - farLeft, right.y() - farRight)})
        if (over * under < 0) crossings.push_back(over / (over - under));
      std::sort(crossings.begin(), crossings.end());
      for (const double crossing : crossings) slide(left + crossing * (right - left));
    }
  }
  return points;
}

bool MarkDrawing::shows(const Defect& defect) const {
  switch (defect.face) {
    case DefectFace::a: return face_ == Face::a;
    case DefectFace::b: return face_ == Face::b;
    case DefectFace::through:
    case DefectFace::near:
    case DefectFace::far: break;
  }
  return true;
}

void MarkDrawing::wood(std::vector<Ink>& ink) const {
  const bool seen = board_.looked[static_cast<std::size_t>(face_)] != Looked::no;
  ink.emplace_back(Area{pointsOf(outline_), seen ? Fill::tone : Fill::unseen, Tone::wood, 0,
                        Tone::ink, Dash::solid});
}

void MarkDrawing::edges(std::vector<Ink>& ink) const {
  ink.emplace_back(
      Area{pointsOf(outline_), Fill::none, Tone::wood, 2 * u_, Tone::ink, Dash::solid});
  const OutlinePoint& tag = wood_.points().front();
  const QPointF over(0, view_.up() * u_);
  ink.emplace_back(
      line({view_.page(0, mm(tag.near)) + over, view_.page(0, mm(tag.far)) - over}, 5 * u_));
}

QRectF MarkDrawing::boxOf(const Defect& defect) const {
  // Smaller marks keep their centre and get a size that can be seen.
  const double least = 6.7 * u_;
  QRectF box = view_.page(defect.where);
  const QPointF centre = box.center();
  box.setSize({std::max(box.width(), least), std::max(box.height(), least)});
  box.moveCenter(centre);
  return box;
}

bool MarkDrawing::nearEdge(const Defect& defect) const {
  if (defect.face == DefectFace::near) return true;
  if (defect.face == DefectFace::far) return false;
  const Rect bounds = boundsOf(board_);
  return (defect.where.y + defect.where.top()) < (bounds.y + bounds.top());
}

QPointF MarkDrawing::letterPlace(const Defect& defect) const {
  const double high = look_.smallPoints * 0.3528 * 0.72;  // of a capital
  const double margin = look_.margins ? mm(look_.margin) * look_.scale : 0;
  const QRectF box = boxOf(defect);
  const QRectF board = outline_.boundingRect();
  if ((defect.kind == "check" || defect.kind == "split") &&
      box.top() - margin - 6 * u_ - high > board.top())
    return {box.center().x(), box.top() - margin - 4 * u_};
  if (defect.kind == "pith") return {box.left() + 1.5 * u_, box.center().y() - 5 * u_};
  if (defect.kind == "wane" || defect.kind == "sapwood" || defect.face == DefectFace::near ||
      defect.face == DefectFace::far) {
    const bool below = nearEdge(defect) == (view_.up() < 0);  // the wood is below on the page
    const double x = defect.kind == "sapwood" ? std::min(box.right(), board.right()) - 18 * u_
                                              : box.center().x() - 4 * u_;
    return below ? QPointF(x, box.bottom() + high + 4 * u_) : QPointF(x, box.top() - 4 * u_);
  }
  const double gap = margin + (defect.kind == "hole" ? 7 : 5) * u_;
  double x = box.right() + gap;
  if (x + high > board.right()) x = box.left() - gap - high;
  if (x < board.left()) x = box.center().x() - high / 2;
  return {x, box.center().y() + high / 2};
}

void MarkDrawing::label(std::vector<Ink>& ink, const Text& text) const {
  const QRectF patch = textBox(text).adjusted(-2 * u_, -1.5 * u_, 2 * u_, 1.5 * u_);
  ink.emplace_back(
      Area{pointsOf(QPolygonF(patch)), Fill::tone, Tone::wood, 0, Tone::ink, Dash::solid});
  ink.emplace_back(text);
}

void MarkDrawing::marks(std::vector<Ink>& ink, bool letters,
                        const std::vector<QRectF>& keepClear) const {
  for (const Defect& defect : board_.defects) {
    if (!shows(defect)) {
      const bool faint = defect.kind == "pith" || defect.kind == "sapwood" || isZone(defect);
      if (!faint) {
        std::vector<QPointF> points = within(ellipse(boxOf(defect)));
        if (points.size() > 2)
          ink.emplace_back(
              Area{std::move(points), Fill::none, Tone::sheet, 1.1 * u_, Tone::soft, Dash::dashed});
      }
      continue;
    }
    sign(ink, defect);
    if (!letters || isZone(defect)) continue;
    const Text letter{letterPlace(defect), QString(QChar(letterOf(defect))), look_.smallPoints,
                      true};
    const QRectF box = textBox(letter);
    if (std::none_of(keepClear.begin(), keepClear.end(),
                     [&](const QRectF& clear) { return clear.intersects(box); }))
      label(ink, letter);
  }
  if (look_.chosenDefect >= 0 && look_.chosenDefect < static_cast<int>(board_.defects.size())) {
    const Defect& chosen = board_.defects[static_cast<std::size_t>(look_.chosenDefect)];
    const double over = mm(look_.margin) * look_.scale * (look_.margins ? 1 : 0) + 2 * u_;
    if (shows(chosen))
      ink.emplace_back(Area{pointsOf(QPolygonF(boxOf(chosen).adjusted(-over, -over, over, over))),
                            Fill::none, Tone::sheet, 2 * u_, Tone::blue, Dash::solid});
  }
}

QRectF MarkDrawing::tagPlace(double room) const {
  if (face_ != Face::a || !board_.tag) return {};
  const QSizeF size(std::max(99 * look_.scale, 24 * u_), std::max(51 * look_.scale, 13 * u_));
  const bool outside = room < size.width() + 9 * u_;
  if (outside && !look_.atSaw) return {};
  const OutlinePoint& tag = wood_.points().front();
  const QPointF end = view_.page(0, (mm(tag.near) + mm(tag.far)) / 2);
  const double inward = look_.atSaw ? -1 : 1;  // along the page, from the tag end into the wood
  const double away = (outside ? -inward : inward) * (size.width() / 2 + 6 * u_);
  return {end + QPointF(away - size.width() / 2, -size.height() / 2), size};
}

void MarkDrawing::tagSign(std::vector<Ink>& ink, double room) const {
  const QRectF card = tagPlace(room);
  if (card.isEmpty()) return;
  const double width = card.width(), height = card.height();
  const QPointF centre = card.center();
  ink.emplace_back(
      Area{pointsOf(QPolygonF(card)), Fill::tone, Tone::sheet, u_, Tone::ink, Dash::solid});
  const double turn = look_.atSaw ? -1 : 1;
  const auto place = [&](double x, double y) { return centre + QPointF(x, y) * turn; };
  const double capital = height * 0.5;
  Text letter{place(-width / 2 + 3 * u_, capital / 2), QStringLiteral("A"), capital / 0.3528 / 0.72,
              true};
  letter.turned = look_.atSaw ? 180 : 0;
  ink.emplace_back(letter);
  const double t = height * 0.24;
  const double right = width / 2 - 3 * u_, foot = height / 2 - height * 0.22;
  ink.emplace_back(Area{
      {place(right - 2 * t, foot - 1.7 * t), place(right, foot - 1.7 * t), place(right - t, foot)},
      Fill::tone,
      Tone::ink,
      0,
      Tone::ink,
      Dash::solid});
}

}  // namespace flitch::pages
