#include "inventory/wood/shape.h"

#include <algorithm>
#include <stdexcept>

namespace flitch {
namespace {

Wide floorDiv(Wide n, Wide d) { return n / d - (n % d < 0 ? 1 : 0); }

/// An edge between two outline points, as y over x.
struct Slope {
  std::int64_t x0, dx, y0, dy;

  /// dx times the height at x.
  [[nodiscard]] Wide scaled(std::int64_t x) const {
    return static_cast<Wide>(dx) * y0 + static_cast<Wide>(dy) * (x - x0);
  }
  [[nodiscard]] Length down(Length x) const {
    return Length::nanometres(static_cast<std::int64_t>(floorDiv(scaled(x.nm()), dx)));
  }
  [[nodiscard]] Length up(Length x) const {
    return Length::nanometres(static_cast<std::int64_t>(-floorDiv(-scaled(x.nm()), dx)));
  }
};

Slope nearSlope(const OutlinePoint& a, const OutlinePoint& b) {
  return {a.x.nm(), (b.x - a.x).nm(), a.near.nm(), (b.near - a.near).nm()};
}
Slope farSlope(const OutlinePoint& a, const OutlinePoint& b) {
  return {a.x.nm(), (b.x - a.x).nm(), a.far.nm(), (b.far - a.far).nm()};
}

/// whole + rest / (dx * per), 0 <= rest < dx * per.
struct MixedNumber {
  Wide whole, rest, per;
};

/// Twice the integral over [u, v] of the edge held between `low` and `high`, exact. The edge's own
/// integral less the triangle or trapezoid above `high` plus the one below `low`. Sizes below
/// 100 m keep every product under 2^115.
MixedNumber heldIntegral(const Slope& edge, std::int64_t u, std::int64_t v, std::int64_t low,
                         std::int64_t high) {
  const Wide dx = edge.dx;
  const Wide per = std::max<Wide>(1, edge.dy < 0 ? -edge.dy : edge.dy);
  const Wide atU = edge.scaled(u);
  const Wide atV = edge.scaled(v);
  Wide overDx = (v - u) * (atU + atV);
  Wide overBoth = 0;  // over dx * per
  // Takes off (sign -1) or adds (sign 1) the part of the edge past a level; heights are scaled.
  const auto past = [&](Wide heightU, Wide heightV, int sign) {
    if (heightU <= 0 && heightV <= 0) return;
    if (heightU >= 0 && heightV >= 0) {
      overDx += sign * (v - u) * (heightU + heightV);
      return;
    }
    // The edge crosses the level: a triangle of height h/dx over h/per, twice its area h²/(dx per).
    // h = q per + r keeps h² below 2^127.
    const Wide h = std::max(heightU, heightV);
    overDx += sign * h * (h / per);
    overBoth += sign * h * (h % per);
  };
  past(atU - dx * high, atV - dx * high, -1);
  past(dx * low - atU, dx * low - atV, 1);

  const Wide wholeDx = floorDiv(overDx, dx);
  const Wide wholeBoth = floorDiv(overBoth, dx * per);
  Wide rest = (overDx - wholeDx * dx) * per + (overBoth - wholeBoth * dx * per);
  Wide whole = wholeDx + wholeBoth;
  if (rest >= dx * per) {
    rest -= dx * per;
    ++whole;
  }
  return {whole, rest, per};
}

}  // namespace

Rect intersection(const Rect& a, const Rect& b) {
  const Length x = std::max(a.x, b.x);
  const Length y = std::max(a.y, b.y);
  return {x, y, std::min(a.right(), b.right()) - x, std::min(a.top(), b.top()) - y};
}

Rect hull(const Rect& a, const Rect& b) {
  const Length x = std::min(a.x, b.x);
  const Length y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.top(), b.top()) - y};
}

Outline::Outline(std::vector<OutlinePoint> points) : points_(std::move(points)) {
  if (points_.size() < 2) throw std::invalid_argument("an outline has at least two points");
  if (points_.front().x != Length())
    throw std::invalid_argument("an outline starts at the tag end");
  for (std::size_t i = 0; i < points_.size(); ++i) {
    if (points_[i].near >= points_[i].far)
      throw std::invalid_argument("the near edge is not below the far edge");
    if (i > 0 && points_[i].x <= points_[i - 1].x)
      throw std::invalid_argument("the points of an outline do not follow each other");
  }
}

Outline Outline::tapered(Length length, Length widthAtTag, Length widthAtFar) {
  return Outline({{Length(), Length(), widthAtTag}, {length, Length(), widthAtFar}});
}

Length Outline::length() const { return points_.empty() ? Length() : points_.back().x; }

Length Outline::lowest() const {
  if (points_.empty()) return Length();
  return std::min_element(points_.begin(), points_.end(),
                          [](const auto& a, const auto& b) { return a.near < b.near; })
      ->near;
}

Length Outline::highest() const {
  if (points_.empty()) return Length();
  return std::max_element(points_.begin(), points_.end(),
                          [](const auto& a, const auto& b) { return a.far < b.far; })
      ->far;
}

Rect Outline::bounds() const { return {Length(), lowest(), length(), highest() - lowest()}; }

Length Outline::nearAt(Length x) const { return clearSpan(x, x).near; }

Length Outline::farAt(Length x) const { return clearSpan(x, x).far; }

Outline::Span Outline::clearSpan(Length x0, Length x1) const {
  if (points_.empty()) return {};
  x0 = std::clamp(x0, Length(), length());
  x1 = std::clamp(x1, x0, length());
  // Extremes of a polyline over a span lie at its ends or at points inside it.
  Span span{lowest(), highest()};
  for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
    const OutlinePoint& a = points_[i];
    const OutlinePoint& b = points_[i + 1];
    if (b.x < x0 || a.x > x1) continue;
    for (const Length x : {std::max(a.x, x0), std::min(b.x, x1)}) {
      span.near = std::max(span.near, nearSlope(a, b).up(x));
      span.far = std::min(span.far, farSlope(a, b).down(x));
    }
  }
  return span;
}

bool Outline::contains(const Rect& r) const {
  if (points_.empty() || r.x < Length() || r.right() > length()) return false;
  const Span span = clearSpan(r.x, r.right());
  return r.y >= span.near && r.top() <= span.far;
}

Area Outline::area() const {
  Area sum;
  for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
    const OutlinePoint& a = points_[i];
    const OutlinePoint& b = points_[i + 1];
    const Length bothWidths = (a.far - a.near) + (b.far - b.near);
    sum.doubled += static_cast<Wide>((b.x - a.x).nm()) * bothWidths.nm();
  }
  return sum;
}

Area Outline::areaWithin(const Rect& r) const {
  Area sum;
  if (r.dx <= Length() || r.dy <= Length()) return sum;
  for (std::size_t i = 0; i + 1 < points_.size(); ++i) {
    const OutlinePoint& a = points_[i];
    const OutlinePoint& b = points_[i + 1];
    const std::int64_t u = std::max(a.x, r.x).nm();
    const std::int64_t v = std::min(b.x, r.right()).nm();
    if (u >= v) continue;
    const MixedNumber far = heldIntegral(farSlope(a, b), u, v, r.y.nm(), r.top().nm());
    const MixedNumber near = heldIntegral(nearSlope(a, b), u, v, r.y.nm(), r.top().nm());
    const bool borrows = far.rest * near.per < near.rest * far.per;
    sum.doubled += far.whole - near.whole - (borrows ? 1 : 0);
  }
  return sum;
}

}  // namespace flitch
