#include <QPainter>
#include <algorithm>
#include <array>
#include <cmath>

#include "labels/board_drawing.h"
#include "ui/desktop/board_view.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

double inchesOf(Length length) { return static_cast<double>(length.nm()) / 25'400'000.0; }

bool warped(const Board& board) {
  const Warp& w = board.warp;
  return w.bow > Length{} || w.crook > Length{} || w.cup > Length{} || w.twist > Length{};
}

/// A measure after ISO 129: a thin line with arrowheads at both ends.
void drawMeasure(QPainter& painter, QPointF a, QPointF b, const QColor& colour) {
  const QLineF line(a, b);
  if (line.length() < 2) return;
  painter.setPen(QPen(colour, 1));
  painter.drawLine(line);
  painter.setBrush(colour);
  painter.setPen(Qt::NoPen);
  const QPointF along = (b - a) / line.length(), across(-along.y(), along.x());
  for (const auto& [tip, way] : {std::pair(a, 1.0), std::pair(b, -1.0)}) {
    const std::array<QPointF, 3> head{tip, tip + way * 7 * along + 2.4 * across,
                                      tip + way * 7 * along - 2.4 * across};
    painter.drawPolygon(head.data(), 3);
  }
}

/// Text in a drawing lies on a patch, so that no line crosses a figure.
void drawOnPatch(QPainter& painter, double x, double baseline, const QString& text,
                 const QColor& colour, const QColor& patch, Qt::Alignment align) {
  const double w = textWidth(text, 13, true);
  const double left = align & Qt::AlignHCenter ? x - w / 2 : x;
  painter.fillRect(QRectF(left - 3, baseline - 13, w + 6, 17), patch);
  drawText(painter, left, baseline, text, 13, true, colour);
}

}  // namespace

BoardLayout BoardView::layout() const {
  return layBoard(*board_, size(), notes_.empty() ? 62 : 82, warped(*board_) ? 66 : 14);
}

void BoardView::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (!board_) {
    drawText(painter, 16, 28, "No board chosen", 17, true, c.soft);
    return;
  }
  const BoardLayout l = layout();
  paintHead(painter);
  paintNotes(painter);
  painter.setRenderHint(QPainter::Antialiasing);
  paintTape(painter, l);
  paintFaces(painter, l);
  paintFold(painter, l);
  paintCuttings(painter, l);
  for (const Defect& mark : preview_) {
    for (Face face : {Face::a, Face::b}) {
      painter.setPen(QPen(c.blue, 2));
      painter.setBrush(Qt::NoBrush);
      painter.drawRect(l.box(face, mark.where).adjusted(0, -3, 0, 3));
    }
  }
  paintChosen(painter, l);
  if (hasFocus()) paintHair(painter, l);
  if (pending_) paintPulled(painter, l);
  if (hasFocus()) {
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(c.blue, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(rect().adjusted(1, 1, -1, -1));
  }
}

void BoardView::paintPulled(QPainter& painter, const BoardLayout& l) const {
  const Colours& c = look_.colours();
  const bool through = pending_->face == DefectFace::through;
  for (const Face face : {Face::a, Face::b}) {
    if (!through && face != from_.face) continue;
    painter.setPen(QPen(c.blue, 1.5));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(l.box(face, placeOn(*pending_, face)));
  }
  // What holds it: a line along or across the face.
  const QRectF all = l.box(from_.face, l.bounds);
  QPen dashed(c.blue, 1);
  dashed.setDashPattern({4, 3});
  painter.setPen(dashed);
  if (drawnTo_[0]) {
    const double x = l.box(from_.face, {*drawnTo_[0], l.bounds.y, Length{}, Length{}}).x();
    painter.drawLine(QPointF(x, all.top() - 4), QPointF(x, all.bottom() + 4));
  }
  if (drawnTo_[1]) {
    const double y = l.box(from_.face, {l.bounds.x, *drawnTo_[1], Length{}, Length{}}).y();
    painter.drawLine(QPointF(all.left() - 4, y), QPointF(all.right() + 4, y));
  }
  const QRectF at = l.box(from_.face, placeOn(*pending_, from_.face));
  const QString size =
      shortText(pending_->where.dx, unit_) + " × " + shortText(pending_->where.dy, unit_);
  drawOnPatch(painter, at.center().x(), at.top() > all.top() + 20 ? at.top() - 5 : at.bottom() + 16,
              size, c.blue, look_.wood(board_->species).of(pages::Tone::wood), Qt::AlignHCenter);
}

void BoardView::paintHead(QPainter& painter) const {
  const Colours& c = look_.colours();
  const Board& b = *board_;
  const QString name = tagText(b);
  drawText(painter, 16, 22, name, 22, true, c.ink);
  QString facts = q(b.species) + " " + q(text(b.nominal)) + " · " + q(sizeText(b, unit_)) + " · " +
                  shortText(b.thickness, unit_) + (b.measured ? " thick" : " thick, assumed");
  if (b.warp.bow > Length{}) facts += " · bow " + shortText(b.warp.bow, unit_);
  if (b.warp.crook > Length{}) facts += " · crook " + shortText(b.warp.crook, unit_);
  if (b.warp.cup > Length{}) facts += " · cup " + shortText(b.warp.cup, unit_);
  if (b.warp.twist > Length{}) facts += " · twist " + shortText(b.warp.twist, unit_);
  if (b.grain) {
    facts +=
        b.grain->runTenths == 0 ? QString(" · grain straight") : " · grain " + q(text(*b.grain));
  }
  if (b.parent) facts += " · offcut";
  if (!b.note.empty()) facts += " · " + q(b.note);

  // While a mark is pulled, what the board would still give with it.
  const Board now = pulledBoard();
  QString places, clearShare;
  if (const Demand* clear = findDemand(shop_, "clear"); clear != nullptr) {
    for (const Rect& r : clearPlaces(now, Face::a, *clear, shop_.markMargin, 3)) {
      places += "    " + shortText(r.dx, unit_) + " × " + shortText(r.dy, unit_);
    }
    QStringList shares;
    for (const Face face : {Face::a, Face::b}) {
      const int share = clearPermille(now, face, *clear);
      if (share < 0) continue;
      shares << QString("%1 % of face %2").arg((share + 5) / 10).arg(face == Face::a ? "A" : "B");
    }
    if (!shares.isEmpty()) clearShare = "; clear " + shares.join(", ");
  }
  QString looked;
  const bool a = b.looked[0] != Looked::no, both = a && b.looked[1] != Looked::no;
  if (!a && b.looked[1] == Looked::no) {
    looked = "nobody has looked at either face; it carries hidden parts only";
  } else if (!both) {
    looked = QString("face %1: nobody has looked; it carries hidden parts only").arg(a ? "B" : "A");
  } else {
    looked = "looked at: " + lookedText(b);
  }
  looked += clearShare;
  const QString best = places.isEmpty() ? QString() : "best blanks, clear face A:" + places;
  const int rightWidth = std::max(textWidth(best, 13), textWidth(looked, 12));
  const double left = 16 + textWidth(name, 22, true) + 16;
  if (!best.isEmpty()) drawText(painter, width() - 16, 14, best, 13, false, c.ink, Qt::AlignRight);
  drawText(painter, width() - 16, best.isEmpty() ? 21 : 28, looked, 12, false,
           both ? c.soft : c.ink, Qt::AlignRight);
  const int room = width() - 16 - rightWidth - 24 - static_cast<int>(left);
  drawText(painter, left, 21, elided(facts, 13, false, room), 13, false, c.ink);
}

void BoardView::paintNotes(QPainter& painter) const {
  const Colours& c = look_.colours();
  double x = 16;
  const double end = width() - 16;
  bool first = true;
  for (const BoardNote& note : notes_) {
    if (note.brief.isEmpty()) continue;
    if (!first) {
      drawText(painter, x, 43, " · ", 12, false, c.soft);
      x += textWidth(" · ", 12);
    }
    first = false;
    const bool caution = note.tone == BoardNote::Tone::caution;
    const QString shown = elided(note.brief, 12, caution, static_cast<int>(end - x));
    drawText(painter, x, 43, shown, 12, caution,
             caution                              ? c.caution
             : note.tone == BoardNote::Tone::soft ? c.soft
                                                  : c.ink);
    x += textWidth(shown, 12, caution);
    if (x + 40 > end) break;
  }
}

void BoardView::paintCuttings(QPainter& painter, const BoardLayout& l) const {
  const Colours& c = look_.colours();
  const QColor patch = look_.wood(board_->species).of(pages::Tone::wood);
  for (const Rect& place : cuttings_) {
    const QRectF at = l.box(cuttingFace_, place);
    QPen dashed(c.blue, 1.6);
    dashed.setDashPattern({6, 3});
    painter.setPen(dashed);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(at.adjusted(1, 1, -1, -1));
    const QString size = shortText(place.dx, unit_) + " × " + shortText(place.dy, unit_);
    if (at.height() < 22 || at.width() < textWidth(size, 13, true) + 16) continue;
    drawOnPatch(painter, at.center().x(), at.top() + 18, size, c.blue, patch, Qt::AlignHCenter);
  }
}

void BoardView::paintTape(QPainter& painter, const BoardLayout& l) const {
  const Colours& c = look_.colours();
  const double y = l.top[0] - 8;
  // Inches with a figure each foot; metric every 5 cm with a figure each half metre.
  const double unit = unit_ == Unit::inches ? 1 : 50 / 25.4;
  const int small = unit_ == Unit::inches ? 6 : 2, big = unit_ == Unit::inches ? 12 : 10;
  const double end = inchesOf(l.bounds.dx);
  painter.setPen(QPen(c.soft, 1));
  const int count = static_cast<int>(end / unit);
  double lastFigure = -100;
  for (int i = 0; i <= count; ++i) {
    const double x = std::floor(l.x + i * unit * l.scale) + 0.5;
    if (unit * l.scale < 3 && i % small != 0) continue;
    const double h = i % big == 0 ? 9 : i % small == 0 ? 6 : 3;
    painter.setPen(QPen(c.soft, 1));
    painter.drawLine(QPointF(x, y - h), QPointF(x, y));
    if (i % big != 0 || x - lastFigure < 36) continue;
    lastFigure = x;
    const QString figure = QString::number(unit_ == Unit::inches ? i : i * 50);
    drawText(painter, x, y - 12, figure, 11, i % (2 * big) == 0, c.soft,
             i == 0 ? Qt::AlignLeft : Qt::AlignHCenter);
  }
  painter.setPen(QPen(c.soft, 1));
  painter.drawLine(QPointF(l.x, y), QPointF(l.x + end * l.scale, y));
}

void BoardView::paintFaces(QPainter& painter, const BoardLayout& l) const {
  const Colours& c = look_.colours();
  pages::BoardLook look;
  look.scale = l.scale / windowDpi;
  look.pixel = toMm(1);
  look.smallPoints = 12 * 72.0 / windowDpi;
  look.margins = true;
  look.cuts = false;
  look.margin = shop_.markMargin;
  look.photos = photos_;
  pages::Page page;
  page.mm = QSizeF(toMm(width()), toMm(height()));
  for (Face face : {Face::a, Face::b}) {
    const QPointF at(toMm(l.x), toMm(l.top[static_cast<int>(face)]));
    for (pages::Ink& ink : pages::drawFace(*board_, face, at, look)) {
      page.ink.push_back(std::move(ink));
    }
  }
  if (warped(*board_)) {
    for (pages::Ink& ink :
         pages::drawWarp(*board_, QPointF(toMm(l.x), toMm(l.warp)), look, unit_)) {
      page.ink.push_back(std::move(ink));
    }
  }
  painter.save();
  pages::paint(page, painter, windowDpi, look_.wood(board_->species));
  painter.restore();

  const double right = l.x + inchesOf(l.bounds.dx) * l.scale + 12;
  for (Face face : {Face::a, Face::b}) {
    const double top = l.top[static_cast<int>(face)], bottom = top + l.height;
    drawText(painter, 32, top + l.height / 2 + 8, face == Face::a ? "A" : "B", 22, true, c.ink,
             Qt::AlignHCenter);
    if (l.height < 26) continue;
    const bool a = face == Face::a;
    drawText(painter, right, top + 11, a ? "far edge" : "near edge", 11, false, c.soft);
    drawText(painter, right, bottom - 3, a ? "near edge" : "far edge", 11, false, c.soft);
  }
}

void BoardView::paintFold(QPainter& painter, const BoardLayout& l) const {
  const Colours& c = look_.colours();
  const double right = l.x + inchesOf(l.bounds.dx) * l.scale;
  QPen chain(c.ink, 1);
  chain.setDashPattern({22, 4, 3, 4});
  painter.setPen(chain);
  painter.drawLine(QPointF(l.x - 30, l.fold), QPointF(right + 30, l.fold));
  painter.setPen(QPen(c.ink, 1.2));
  for (double x : {l.x - 24, right + 18}) {
    for (double d : {-3.0, 2.0}) {
      painter.drawLine(QPointF(x, l.fold + d), QPointF(x + 8, l.fold + d));
    }
  }
  QPen thread(c.soft, 1);
  thread.setDashPattern({2, 4});
  painter.setPen(thread);
  for (const Defect& mark : board_->defects) {
    if (mark.face != DefectFace::through || mark.kind.find("knot") == std::string::npos) continue;
    const QRectF a = l.box(Face::a, mark.where), b = l.box(Face::b, placeOn(mark, Face::b));
    painter.drawLine(QPointF(a.center().x(), a.bottom() + 2), QPointF(b.center().x(), b.top() - 2));
  }
}

void BoardView::paintChosen(QPainter& painter, const BoardLayout& l) const {
  if (chosen_ < 0 || chosen_ >= static_cast<int>(board_->defects.size())) return;
  const Colours& c = look_.colours();
  const Defect& mark = board_->defects[static_cast<std::size_t>(chosen_)];
  const Face face = mark.face == DefectFace::b ? Face::b : Face::a;
  const QRectF m = l.box(face, mark.where);
  const QColor patch = look_.wood(board_->species).of(pages::Tone::wood);
  painter.setPen(QPen(c.blue, 1.5));
  painter.setBrush(Qt::NoBrush);
  painter.drawRect(m.adjusted(-3, -3, 3, 3));
  painter.setPen(QPen(c.blue, 1.2));
  painter.setBrush(c.field);
  for (double u : {0.0, 0.5, 1.0}) {
    for (double v : {0.0, 0.5, 1.0}) {
      if (u == 0.5 && v == 0.5) continue;
      const QPointF at(m.left() - 3 + u * (m.width() + 6), m.top() - 3 + v * (m.height() + 6));
      painter.drawRect(QRectF(at.x() - 3, at.y() - 3, 6, 6));
    }
  }
  const QPointF centre = m.center();
  const QString along = shortText(mark.where.x + mark.where.dx / 2, unit_);
  if (m.left() - l.x > 40) {
    drawMeasure(painter, QPointF(l.x + 3, centre.y()), QPointF(m.left() - 6, centre.y()), c.blue);
    if (m.left() - l.x > textWidth(along, 13, true) + 40) {
      drawOnPatch(painter, (l.x + m.left()) / 2, centre.y() + 5, along, c.blue, patch,
                  Qt::AlignHCenter);
    }
  }
  const double near = face == Face::a ? l.top[0] + l.height : l.top[1];
  const double edge = face == Face::a ? m.bottom() + 6 : m.top() - 6;
  if (std::abs(near - edge) > 12) {
    drawMeasure(painter, QPointF(centre.x(), near), QPointF(centre.x(), edge), c.blue);
    drawOnPatch(painter, centre.x() + 9, (near + edge) / 2 + 5,
                shortText(mark.where.y + mark.where.dy / 2, unit_), c.blue, patch, Qt::AlignLeft);
  }
}

void BoardView::paintHair(QPainter& painter, const BoardLayout& l) const {
  if (chosen_ >= 0) return;
  const QRectF at = l.box(hair_.face, {hair_.x, hair_.y, Length{}, Length{}});
  painter.setPen(QPen(look_.colours().blue, 1.5));
  const double x = at.x(), y = at.y();
  for (int way : {-1, 1}) {
    painter.drawLine(QPointF(x + way * 3, y), QPointF(x + way * 14, y));
    painter.drawLine(QPointF(x, y + way * 3), QPointF(x, y + way * 14));
  }
}

}  // namespace flitch::desktop
