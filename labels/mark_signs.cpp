#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "labels/mark_drawing.h"

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

}  // namespace

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

void MarkDrawing::area(std::vector<Ink>& ink, const QPolygonF& shape, Fill fill, Tone tone,
                       double pen, Dash dash) const {
  std::vector<QPointF> points = within(shape);
  if (points.size() < 3) return;
  ink.emplace_back(Area{std::move(points), fill, tone, pen, Tone::ink, dash});
}

void MarkDrawing::knot(std::vector<Ink>& ink, const QRectF& box, bool sound) const {
  area(ink, ellipse(box), Fill::tone, Tone::sheet, 1.5 * u_);
  if (sound) {
    area(ink, ellipse(scaled(box, 0.6)), Fill::none, Tone::sheet, u_);
    area(ink, ellipse(scaled(box, 0.22)), Fill::tone, Tone::ink, 0);
    return;
  }
  QRectF heart = scaled(box, 0.55);
  const QSizeF most = heart.size().boundedTo({28 * u_, 28 * u_});  // a long zone is no black lump
  heart = {heart.center() - QPointF(most.width(), most.height()) / 2, most};
  area(ink, ellipse(heart), Fill::tone, Tone::ink, 0);
  for (const double degrees : {20.0, 95.0, 160.0, 215.0, 300.0}) {
    const double angle = degrees * std::numbers::pi / 180;
    const QPointF way(box.width() / 2 * std::cos(angle), box.height() / 2 * std::sin(angle));
    ink.emplace_back(line({box.center() + way * 0.5, box.center() + way * 0.95}, 1.2 * u_));
  }
}

/// One open wedge for a split; for checks as many thin black ones as the mark is wide for.
void MarkDrawing::wedges(std::vector<Ink>& ink, const Defect& defect, bool open) const {
  const QRectF box = boxOf(defect);
  if (open) return wedge(ink, defect, box, true);
  const double thin = std::max(5 * u_, box.width() * 0.12);
  const int count = std::clamp(static_cast<int>(box.height() / (5 * thin)) + 1, 1, 5);
  for (int n = 0; n < count; ++n) {
    const double high = std::min(thin, box.height());
    const double middle = box.top() + box.height() * (n + 0.5) / count;
    const double shorter = 1 - 0.25 * (n % 2);  // checks of one end are not equally deep
    const double width = box.width() * shorter;
    const bool fromLeft = (defect.where.x <= Length::inches(1)) != look_.atSaw;
    wedge(ink, defect,
          {fromLeft ? box.left() : box.right() - width, middle - high / 2, width, high}, false);
  }
}

/// A wedge, open at the board's end that it starts from, or a spindle inside the board.
void MarkDrawing::wedge(std::vector<Ink>& ink, const Defect& defect, const QRectF& box,
                        bool open) const {
  constexpr int steps = 12;
  const bool atTag = defect.where.x <= Length::inches(1);
  const bool atFar = defect.where.right() >= board_.length() - Length::inches(1);
  std::mt19937 random = shapeOf(defect);
  QPolygonF upper, lower;
  for (int step = 0; step <= steps; ++step) {
    const double part = static_cast<double>(step) / steps;  // from the tag end
    const double width = atTag ? 1 - part : atFar ? part : 1 - std::abs(2 * part - 1);
    const double half = box.height() / 2 * std::pow(width, 0.8);
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
  if (defect.kind == "check") return wedges(ink, defect, false);
  if (defect.kind == "split") return wedges(ink, defect, true);
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

}  // namespace flitch::pages
