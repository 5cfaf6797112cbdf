#include "labels/board_drawing.h"

#include <algorithm>
#include <cmath>

#include "labels/mark_drawing.h"

namespace flitch::pages {

BoardView::BoardView(const Board& board, Face face, QPointF at, const BoardLook& look)
    : at_(at), scale_(look.scale), turned_(look.atSaw) {
  const Rect bounds = boundsOf(board);
  length_ = mm(bounds.dx);
  low_ = mm(bounds.y);
  high_ = mm(bounds.top());
  up_ = (face == Face::a) != turned_ ? 1 : -1;
}

QPointF BoardView::page(double x, double y) const {
  return at_ + QPointF(turned_ ? length_ - x : x, up_ > 0 ? high_ - y : y - low_) * scale_;
}

QPointF BoardView::board(QPointF onPage) const {
  const QPointF from = (onPage - at_) / scale_;
  return {turned_ ? length_ - from.x() : from.x(), up_ > 0 ? high_ - from.y() : from.y() + low_};
}

QRectF BoardView::page(const Rect& r) const {
  return QRectF(page(mm(r.x), mm(r.y)), page(mm(r.right()), mm(r.top()))).normalized();
}

QSizeF BoardView::size() const { return QSizeF(length_, high_ - low_) * scale_; }

std::vector<Ink> drawFace(const Board& board, Face face, QPointF at, const BoardLook& look) {
  const BoardView view(board, face, at, look);
  const MarkDrawing drawing(board, face, view, look);
  std::vector<Ink> ink;
  drawing.wood(ink);
  const QImage& photo = look.photos[static_cast<std::size_t>(face)];
  if (photo.isNull())
    drawing.grain(ink, 9);
  else
    ink.emplace_back(Picture{QRectF(at, view.size()), photo});
  drawing.marks(ink, look.letters, {});
  drawing.edges(ink);
  if (look.tag) drawing.tagSign(ink, view.size().width());
  const bool seen = board.looked[static_cast<std::size_t>(face)] != Looked::no;
  const QRectF box(at, view.size());
  Text words{{}, QStringLiteral("not looked at"), look.namePoints, true, Qt::AlignHCenter};
  const double wide = textWidth(words.text, words.points, true) + 12 * look.pixel;
  if (seen || box.height() < words.points * 0.5 || box.width() < wide * 1.6) return ink;
  // Where no mark lies, from the middle on.
  for (const double part : {0.5, 0.65, 0.35, 0.8, 0.2}) {
    words.at = {box.left() + box.width() * part, box.center().y() + words.points * 0.125};
    const QRectF place = textBox(words);
    const bool free =
        std::none_of(board.defects.begin(), board.defects.end(), [&](const Defect& defect) {
          return drawing.shows(defect) && view.page(placeOn(defect, face)).intersects(place);
        });
    if (!free || !box.contains(place)) continue;
    drawing.label(ink, words);
    break;
  }
  return ink;
}

std::vector<Ink> drawWarp(const Board& board, QPointF at, const BoardLook& look, Unit unit) {
  constexpr double enlarged = 4;  // bow is drawn deeper than it is, and says so
  constexpr int steps = 32;
  const Warp& warp = board.warp;
  const double u = look.pixel;
  const double length = mm(board.length()) * look.scale;
  const double thick = std::max(mm(board.thickness) * look.scale, 2.5 * u);
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  std::vector<Ink> ink;
  QPointF cursor = at;
  const auto name = [&](const char* word, Length depth, const QPointF& place) {
    ink.emplace_back(
        Text{place, QString::fromLatin1(word) + " " + QString::fromStdString(text(depth, style)),
             look.smallPoints});
  };
  const auto strip = [&](const std::vector<QPointF>& line, double thickness) {
    std::vector<QPointF> shape = line;
    for (auto point = line.rbegin(); point != line.rend(); ++point)
      shape.push_back(*point + QPointF(0, thickness));
    ink.emplace_back(
        Area{std::move(shape), Fill::tone, Tone::wood, 1.3 * u, Tone::ink, Dash::solid});
  };
  if (warp.bow > Length()) {
    const double depth = mm(warp.bow) * look.scale * enlarged;
    const double bend = warp.bentAt ? mm(*warp.bentAt) / mm(board.length()) : 0.5;
    std::vector<QPointF> line;
    for (int step = 0; step <= steps; ++step) {
      const double part = static_cast<double>(step) / steps;
      const double rise = !warp.bentAt   ? 1 - std::pow(2 * part - 1, 2)
                          : part <= bend ? part / bend
                                         : (1 - part) / (1 - bend);
      const double x = look.atSaw ? length * (1 - part) : length * part;
      line.push_back(cursor + QPointF(x, depth * (1 - rise)));
    }
    strip(line, thick);
    const double foot = cursor.y() + depth + thick;
    ink.emplace_back(
        Line{{{cursor.x(), foot}, {cursor.x() + length, foot}}, u, Dash::dashed, Tone::soft});
    name("bow", warp.bow, {cursor.x() + length + 4 * u, foot - thick});
    ink.emplace_back(Text{{cursor.x() + length + 4 * u, foot + look.smallPoints * 0.25},
                          QStringLiteral("drawn × 4"),
                          look.smallPoints * 0.9,
                          false,
                          Qt::AlignLeft,
                          Tone::soft});
    cursor.ry() = foot + 10 * u;
  }
  if (warp.crook > Length()) {
    const double depth = mm(warp.crook) * look.scale * enlarged;
    const double sign = warp.hollow == Edge::near ? 1 : -1;
    std::vector<QPointF> line;
    for (int step = 0; step <= steps; ++step) {
      const double part = static_cast<double>(step) / steps;
      const double rise = 1 - std::pow(2 * part - 1, 2);
      line.push_back(cursor + QPointF(length * part, depth * (sign > 0 ? 1 - rise : rise)));
    }
    ink.emplace_back(Line{line, 1.3 * u, Dash::solid, Tone::ink});
    const double straight = cursor.y() + (sign > 0 ? depth : 0);
    ink.emplace_back(Line{
        {{cursor.x(), straight}, {cursor.x() + length, straight}}, u, Dash::dashed, Tone::soft});
    name("near edge, crook", warp.crook, {cursor.x() + length + 4 * u, cursor.y() + depth});
    cursor.ry() += depth + 12 * u;
  }
  const double end = 90 * u;  // end views are not to scale: the signs of cup and twist
  if (warp.cup > Length()) {
    std::vector<QPointF> line;
    for (int step = 0; step <= steps; ++step) {
      const double part = static_cast<double>(step) / steps;
      line.push_back(cursor + QPointF(end * part, 8 * u * (1 - std::pow(2 * part - 1, 2))));
    }
    strip(line, 5 * u);
    name("cup", warp.cup, cursor + QPointF(end + 6 * u, 12 * u));
    cursor.rx() += end + 6 * u + textWidth("cup 00 00/00", look.smallPoints, false) + 14 * u;
  }
  if (warp.twist > Length()) {
    ink.emplace_back(Area{{cursor + QPointF(0, 14 * u), cursor + QPointF(end * 0.25, 8 * u),
                           cursor + QPointF(end, 0), cursor + QPointF(end * 0.85, 14 * u)},
                          Fill::tone,
                          Tone::wood,
                          1.3 * u,
                          Tone::ink,
                          Dash::solid});
    ink.emplace_back(Line{{cursor + QPointF(0, 14 * u), cursor + QPointF(end * 1.02, 14 * u)},
                          u,
                          Dash::dashed,
                          Tone::soft});
    name("twist", warp.twist, cursor + QPointF(end + 6 * u, 12 * u));
  }
  return ink;
}

std::vector<Ink> drawScaleBar(QPointF at, const BoardLook& look, Unit unit) {
  constexpr int fields = 4;
  constexpr double high = 1.2;
  const bool inches = unit == Unit::inches;
  const double length = (inches ? 304.8 : 250.0) * look.scale;
  std::vector<Ink> ink;
  for (int field = 0; field < fields; ++field) {
    const QRectF box(at.x() + length * field / fields, at.y(), length / fields, high);
    ink.emplace_back(Area{pointsOf(QPolygonF(box)), Fill::tone,
                          field % 2 == 0 ? Tone::ink : Tone::sheet, look.pixel, Tone::ink,
                          Dash::solid});
  }
  ink.emplace_back(Text{{at.x() + length + 6 * look.pixel, at.y() + high + 0.2},
                        inches ? QStringLiteral("1 ft") : QStringLiteral("25 cm"),
                        look.smallPoints,
                        false,
                        Qt::AlignLeft,
                        Tone::soft});
  return ink;
}

}  // namespace flitch::pages
