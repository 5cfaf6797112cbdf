#include "labels/mark_drawing.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace flitch::pages {
namespace {

/// Marks are shaped by a generator of their own place: the same mark looks the same everywhere.
std::mt19937 shapeOf(const Defect& defect) {
  const auto seed = (defect.where.x + 3 * defect.where.y + 7 * defect.where.dx).nm() / 1000;
  return std::mt19937(static_cast<std::mt19937::result_type>(seed));
}
/// In [low, high); from the generator alone, so that every platform draws the same.
double within(std::mt19937& random, double low, double high) {
  return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
}

QRectF scaled(const QRectF& box, double factor) {
  const QSizeF size = box.size() * factor;
  return {box.center() - QPointF(size.width(), size.height()) / 2, size};
}

Line line(std::vector<QPointF> points, double width, Tone tone = Tone::ink,
          Dash dash = Dash::solid) {
  return {std::move(points), width, dash, tone};
}

char letterOf(const Defect& defect) {
  for (const DefectKind& kind : startingDefectKinds())
    if (kind.name == defect.kind) return kind.letter;
  return '?';
}

bool isZone(const Defect& defect) { return defect.kind == "good" || defect.kind == "show"; }

}  // namespace

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
    : board_(board),
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
  const bool inside = std::all_of(shape.begin(), shape.end(), [&](const QPointF& point) {
    return outline_.containsPoint(point, Qt::OddEvenFill);
  });
  return pointsOf(inside ? shape : shape.intersected(outline_));
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

void MarkDrawing::grain(std::vector<Ink>& ink, int lines) const {
  if (board_.looked[static_cast<std::size_t>(face_)] == Looked::no) return;
  constexpr int steps = 90;
  std::mt19937 random(static_cast<std::mt19937::result_type>(board_.id.value));
  const double length = mm(wood_.length());
  for (int n = 0; n < lines; ++n) {
    const double place = (n + 0.5 + pages::within(random, -0.25, 0.25)) / lines;
    const double sway = pages::within(random, 1.2, 4.0), phase = pages::within(random, 0, 6.3);
    const double wave = pages::within(random, 0.0014, 0.0024);
    std::vector<QPointF> points;
    for (int step = 0; step <= steps; ++step) {
      const double x = length * step / steps;
      const Length at = std::min(lengthOf(x), wood_.length());
      const double low = mm(wood_.nearAt(at)), high = mm(wood_.farAt(at));
      double y = low + place * (high - low) + sway * std::sin(wave * x + phase);
      for (const Defect& defect : board_.defects) {
        if (!shows(defect) || defect.kind.find("knot") == std::string::npos) continue;
        const double knotX = mm(defect.where.x + defect.where.dx / 2);
        const double knotY = mm(defect.where.y + defect.where.dy / 2);
        const double across = mm(defect.where.dy), along = mm(defect.where.dx);
        const double away = y - knotY;
        const double push = std::exp(-std::pow((x - knotX) / (along * 1.5), 2)) *
                            std::exp(-std::abs(away) / (across * 1.6));
        y += (across * 0.62 + 3) * push * (away >= 0 ? 1 : -1);
      }
      points.push_back(view_.page(x, std::clamp(y, low, high)));
    }
    ink.emplace_back(line(std::move(points), 0.8 * u_, Tone::grain));
  }
}

void MarkDrawing::edges(std::vector<Ink>& ink) const {
  ink.emplace_back(
      Area{pointsOf(outline_), Fill::none, Tone::wood, 2 * u_, Tone::ink, Dash::solid});
  const OutlinePoint& tag = wood_.points().front();
  const QPointF over(0, view_.up() * u_);
  ink.emplace_back(
      line({view_.page(0, mm(tag.near)) + over, view_.page(0, mm(tag.far)) - over}, 5 * u_));
}

void MarkDrawing::area(std::vector<Ink>& ink, const QPolygonF& shape, Fill fill, Tone tone,
                       double pen, Dash dash) const {
  std::vector<QPointF> points = within(shape);
  if (points.size() < 3) return;
  ink.emplace_back(Area{std::move(points), fill, tone, pen, Tone::ink, dash});
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

void MarkDrawing::knot(std::vector<Ink>& ink, const QRectF& box, bool sound) const {
  area(ink, ellipse(box), Fill::tone, Tone::sheet, 1.5 * u_);
  if (sound) {
    area(ink, ellipse(scaled(box, 0.6)), Fill::none, Tone::sheet, u_);
    area(ink, ellipse(scaled(box, 0.22)), Fill::tone, Tone::ink, 0);
    return;
  }
  area(ink, ellipse(scaled(box, 0.55)), Fill::tone, Tone::ink, 0);
  for (const double degrees : {20.0, 95.0, 160.0, 215.0, 300.0}) {
    const double angle = degrees * std::numbers::pi / 180;
    const QPointF way(box.width() / 2 * std::cos(angle), box.height() / 2 * std::sin(angle));
    ink.emplace_back(line({box.center() + way * 0.5, box.center() + way * 0.95}, 1.2 * u_));
  }
}

/// A wedge, open at the board's end that it starts from, or a spindle inside the board.
void MarkDrawing::wedge(std::vector<Ink>& ink, const Defect& defect, bool open) const {
  constexpr int steps = 12;
  const QRectF box = boxOf(defect);
  const bool atTag = defect.where.x <= Length::inches(1);
  const bool atFar = defect.where.right() >= board_.length() - Length::inches(1);
  std::mt19937 random = shapeOf(defect);
  QPolygonF upper, lower;
  for (int step = 0; step <= steps; ++step) {
    const double part = static_cast<double>(step) / steps;  // from the tag end
    const double width = atTag ? 1 - part : atFar ? part : 1 - std::abs(2 * part - 1);
    const double half = box.height() / 2 * std::pow(width, 0.8) * (open ? 1 : 0.7);
    const double x =
        look_.atSaw ? box.right() - part * box.width() : box.left() + part * box.width();
    const double sway = pages::within(random, -0.08, 0.08) + 0.2 * std::sin(3 * part);
    const double middle = box.center().y() + sway * box.height() * 0.5;
    upper << QPointF(x, middle - half);
    lower.prepend(QPointF(x, middle + half));
  }
  area(ink, upper + lower, Fill::tone, open ? Tone::sheet : Tone::ink, open ? 1.4 * u_ : 0.9 * u_);
}

void MarkDrawing::wane(std::vector<Ink>& ink, const Defect& defect) const {
  constexpr int steps = 40;
  std::mt19937 random = shapeOf(defect);
  const bool near = nearEdge(defect);
  const Length start = std::max(defect.where.x, Length());
  const Length end = std::min(defect.where.right(), wood_.length());
  if (end <= start) return;
  std::vector<QPointF> inner, edge;
  for (int step = 0; step <= steps; ++step) {
    const double part = static_cast<double>(step) / steps;
    const Length x = start + lengthOf(mm(end - start) * part);
    const double rim = near ? mm(wood_.nearAt(x)) : mm(wood_.farAt(x));
    const double depth = std::abs(near ? mm(defect.where.top()) - rim : rim - mm(defect.where.y)) *
                         std::pow(std::sin(std::numbers::pi * part), 0.6) *
                         (1 + pages::within(random, -0.1, 0.1));
    edge.push_back(view_.page(mm(x), rim));
    inner.push_back(view_.page(mm(x), near ? rim + depth : rim - depth));
  }
  std::vector<QPointF> shape = edge;
  shape.insert(shape.end(), inner.rbegin(), inner.rend());
  ink.emplace_back(Area{std::move(shape), Fill::tone, Tone::sheet, 0, Tone::ink, Dash::solid});
  const double width = std::abs(edge.back().x() - edge.front().x());
  const int every = std::max(1, static_cast<int>(std::ceil(steps * 3.5 * u_ / width)));
  for (std::size_t at = 1; at < edge.size(); at += static_cast<std::size_t>(every))
    ink.emplace_back(line({edge[at], inner[at]}, 0.9 * u_));
  ink.emplace_back(line(inner, 1.3 * u_));
  ink.emplace_back(line(edge, u_, Tone::ink, Dash::dashed));
}

/// Strip, dashes along the grain, chain line to the heart.
void MarkDrawing::sapwood(std::vector<Ink>& ink, const Defect& defect) const {
  const QRectF box = view_.page(defect.where);
  area(ink, QPolygonF(box), Fill::tone, Tone::sheet, 0);
  const bool near = nearEdge(defect);
  const bool heartBelow = near == (view_.up() < 0);  // on the page
  const double heart = heartBelow ? box.bottom() : box.top();
  ink.emplace_back(
      line({{box.left(), heart}, {box.right(), heart}}, 1.1 * u_, Tone::ink, Dash::chain));
  const int rows = std::max(1, static_cast<int>(box.height() / (5 * u_)));
  for (int row = 0; row < rows; ++row) {
    const double y = box.top() + box.height() * (row + 0.5) / rows;
    for (double x = box.left() + (7 + 11 * (row % 2)) * u_; x + 6 * u_ < box.right(); x += 22 * u_)
      if (outline_.containsPoint({x, y}, Qt::OddEvenFill) &&
          outline_.containsPoint({x + 6 * u_, y}, Qt::OddEvenFill))
        ink.emplace_back(line({{x, y}, {x + 6 * u_, y}}, u_, Tone::soft));
  }
}

void MarkDrawing::stain(std::vector<Ink>& ink, const QRectF& box) const {
  std::mt19937 random(static_cast<std::mt19937::result_type>(std::lround(box.width() * 100)));
  const int dots =
      std::clamp(static_cast<int>(box.width() * box.height() / (64 * u_ * u_)), 14, 400);
  for (int n = 0; n < dots; ++n) {
    const double angle = pages::within(random, 0, 2 * std::numbers::pi);
    const double radius = std::sqrt(pages::within(random, 0, 1)) * 0.46;
    const QPointF at = box.center() + QPointF(box.width() * radius * std::cos(angle),
                                              box.height() * radius * std::sin(angle));
    if (outline_.containsPoint(at, Qt::OddEvenFill))
      ink.emplace_back(Ellipse{QRectF(at.x() - 0.9 * u_, at.y() - 0.9 * u_, 1.8 * u_, 1.8 * u_), 0,
                               Tone::soft, true});
  }
  area(ink, ellipse(box), Fill::none, Tone::sheet, 1.1 * u_, Dash::dotted);
}

void MarkDrawing::lens(std::vector<Ink>& ink, const QRectF& box, bool ticks) const {
  constexpr int steps = 16;
  const auto half = [&](double part) { return box.height() / 2 * (1 - part * part); };
  QPolygonF shape;
  for (int step = -steps; step <= steps; ++step) {
    const double part = static_cast<double>(step) / steps;
    shape << box.center() + QPointF(part * box.width() / 2, -half(part));
  }
  for (int step = steps - 1; step > -steps; --step) {
    const double part = static_cast<double>(step) / steps;
    shape << box.center() + QPointF(part * box.width() / 2, half(part));
  }
  area(ink, shape, Fill::tone, Tone::sheet, 1.3 * u_);
  if (!ticks) {
    ink.emplace_back(line({box.center() - QPointF(box.width() * 0.3, 0),
                           box.center() + QPointF(box.width() * 0.3, 0)},
                          1.3 * u_));
    return;
  }
  const int count = std::max(3, static_cast<int>(box.width() / (6 * u_)));
  for (int n = 1; n < count; ++n) {
    const double part = -1 + 2.0 * n / count;
    const QPointF at = box.center() + QPointF(part * box.width() / 2, 0);
    ink.emplace_back(
        line({at - QPointF(0, half(part)), at + QPointF(2 * u_, half(part))}, 0.9 * u_));
  }
}

/// `good` and `show` are no defects: a dashed frame with its word.
void MarkDrawing::zone(std::vector<Ink>& ink, const Defect& defect) const {
  const QRectF box = view_.page(defect.where);
  area(ink, QPolygonF(box), Fill::none, Tone::sheet, u_, Dash::dashed);
  label(ink, Text{{box.left() + 4 * u_, box.top() + 4 * u_ + look_.smallPoints * 0.3},
                  QString::fromStdString(defect.kind),
                  look_.smallPoints});
}

/// A mark on an edge only: a heavy stretch of that edge with ticks into the face.
void MarkDrawing::onEdge(std::vector<Ink>& ink, const Defect& defect) const {
  const bool near = defect.face == DefectFace::near;
  const Length start = std::clamp(defect.where.x, Length(), wood_.length());
  const Length end = std::clamp(defect.where.right(), Length(), wood_.length());
  const auto rim = [&](Length x) {
    return view_.page(mm(x), near ? mm(wood_.nearAt(x)) : mm(wood_.farAt(x)));
  };
  const QPointF into(0, (near ? -1 : 1) * view_.up() * 5 * u_);
  ink.emplace_back(line({rim(start), rim(end)}, 4 * u_));
  const int ticks = std::max(1, static_cast<int>(mm(end - start) * look_.scale / (5 * u_)));
  for (int n = 0; n <= ticks; ++n) {
    const QPointF at = rim(start + (end - start) * n / ticks);
    ink.emplace_back(line({at, at + into}, 1.2 * u_));
  }
}

void MarkDrawing::sign(std::vector<Ink>& ink, const Defect& defect) const {
  const QRectF box = boxOf(defect);
  if (isZone(defect)) return zone(ink, defect);
  if (defect.face == DefectFace::near || defect.face == DefectFace::far) return onEdge(ink, defect);
  if (look_.margins && defect.kind != "wane" && defect.kind != "sapwood") {
    const double margin = mm(look_.margin) * look_.scale;
    ink.emplace_back(Area{
        pointsOf(QPolygonF(view_.page(defect.where).adjusted(-margin, -margin, margin, margin))),
        Fill::none, Tone::sheet, u_, Tone::soft, Dash::dotted});
  }
  if (defect.kind == "sound knot") return knot(ink, box, true);
  if (defect.kind == "unsound knot") return knot(ink, box, false);
  if (defect.kind == "check") return wedge(ink, defect, false);
  if (defect.kind == "split") return wedge(ink, defect, true);
  if (defect.kind == "wane") return wane(ink, defect);
  if (defect.kind == "sapwood") return sapwood(ink, defect);
  if (defect.kind == "stain") return stain(ink, box);
  if (defect.kind == "bark pocket") return lens(ink, box, true);
  if (defect.kind == "gum") return lens(ink, box, false);
  if (defect.kind == "hole") {
    area(ink, ellipse(box), Fill::tone, Tone::ink, 0);
    area(ink, ellipse(box.adjusted(-2.5 * u_, -2.5 * u_, 2.5 * u_, 2.5 * u_)), Fill::none,
         Tone::sheet, u_);
    return;
  }
  if (defect.kind == "pith") {
    ink.emplace_back(line({{box.left(), box.center().y()}, {box.right(), box.center().y()}},
                          1.4 * u_, Tone::ink, Dash::chain));
    return;
  }
  // A kind the shop added: its place, barred by two lines.
  area(ink, QPolygonF(box), Fill::tone, Tone::sheet, 1.3 * u_);
  ink.emplace_back(line({box.topLeft(), box.bottomRight()}, 0.9 * u_));
  ink.emplace_back(line({box.bottomLeft(), box.topRight()}, 0.9 * u_));
}

QPointF MarkDrawing::letterPlace(const Defect& defect) const {
  const double high = look_.smallPoints * 0.3528 * 0.72;  // of a capital
  const double margin = look_.margins ? mm(look_.margin) * look_.scale : 0;
  const QRectF box = boxOf(defect);
  if (defect.kind == "check" || defect.kind == "split")
    return {box.center().x(), box.top() - margin - 4 * u_};
  if (defect.kind == "pith") return {box.left() + 1.5 * u_, box.center().y() - 5 * u_};
  if (defect.kind == "wane" || defect.kind == "sapwood" || defect.face == DefectFace::near ||
      defect.face == DefectFace::far) {
    const bool below = nearEdge(defect) == (view_.up() < 0);  // the wood is below on the page
    const double x = defect.kind == "sapwood"
                         ? std::min(box.right(), outline_.boundingRect().right()) - 18 * u_
                         : box.center().x() - 4 * u_;
    return below ? QPointF(x, box.bottom() + high + 4 * u_) : QPointF(x, box.top() - 4 * u_);
  }
  return {box.right() + margin + (defect.kind == "hole" ? 7 : 5) * u_, box.center().y() + high / 2};
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
