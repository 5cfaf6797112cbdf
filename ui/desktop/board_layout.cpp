#include "ui/desktop/board_layout.h"

#include <algorithm>
#include <cmath>

namespace flitch::desktop {
namespace {

constexpr double gap = 22;
double inchesOf(Length length) { return static_cast<double>(length.nm()) / 25'400'000.0; }

}  // namespace

BoardLayout layBoard(const Board& board, QSize size, double head, double warp) {
  BoardLayout l;
  l.bounds = boundsOf(board);
  const double length = std::max(1.0, inchesOf(l.bounds.dx));
  const double wide = std::max(0.5, inchesOf(l.bounds.dy));
  l.scale = std::min((size.width() - l.x - 82) / length,
                     std::max(10.0, size.height() - head - gap - warp) / (2 * wide));
  l.height = wide * l.scale;
  l.top[0] = head;
  l.top[1] = head + l.height + gap;
  l.fold = head + l.height + gap / 2;
  l.warp = l.top[1] + l.height + 18;
  return l;
}

QRectF BoardLayout::box(Face face, const Rect& r) const {
  const double left = x + inchesOf(r.x - bounds.x) * scale;
  const double w = inchesOf(r.dx) * scale, h = inchesOf(r.dy) * scale;
  const double y = face == Face::a ? top[0] + inchesOf(bounds.top() - r.top()) * scale
                                   : top[1] + inchesOf(r.y - bounds.y) * scale;
  return {left, y, w, h};
}

FacePlace BoardLayout::nearestOn(Face face, QPointF point) const {
  const QRectF all = box(face, bounds);
  const auto length = [&](double pixels, Length most) {
    const Length at = Length::nanometres(std::llround(pixels / scale * 64) * 396'875);
    return std::clamp(at, Length(), most);
  };
  return {face, bounds.x + length(point.x() - all.left(), bounds.dx),
          bounds.y + length(face == Face::a ? all.bottom() - point.y() : point.y() - all.top(),
                            bounds.dy)};
}

std::optional<FacePlace> BoardLayout::placeAt(QPointF point) const {
  for (const Face face : {Face::a, Face::b}) {
    if (box(face, bounds).contains(point)) return nearestOn(face, point);
  }
  return std::nullopt;
}

QPointF BoardLayout::mirrored(QPointF point) const { return {point.x(), 2 * fold - point.y()}; }

}  // namespace flitch::desktop
