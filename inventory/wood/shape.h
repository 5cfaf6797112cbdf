#pragma once
#include <span>
#include <vector>

#include "inventory/wood/length.h"
#include "inventory/wood/measure.h"

namespace flitch {

/// x along the grain from the tag end, y across from the near edge (face A up, tag end left).
struct Rect {
  Length x, y, dx, dy;
  friend constexpr bool operator==(const Rect&, const Rect&) = default;
  [[nodiscard]] constexpr Length right() const { return x + dx; }
  [[nodiscard]] constexpr Length top() const { return y + dy; }
};

/// True when the interiors meet: touching sides do not.
[[nodiscard]] constexpr bool overlaps(const Rect& a, const Rect& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.top() && b.y < a.top();
}
[[nodiscard]] constexpr bool contains(const Rect& outer, const Rect& inner) {
  return outer.x <= inner.x && outer.y <= inner.y && inner.right() <= outer.right() &&
         inner.top() <= outer.top();
}
/// The common part; dx or dy zero or less when there is none.
[[nodiscard]] Rect intersection(const Rect& a, const Rect& b);

/// The least rectangle that holds both.
[[nodiscard]] Rect hull(const Rect& a, const Rect& b);

/// One point of an outline: where the edges are at x.
struct OutlinePoint {
  Length x, near, far;
  friend constexpr bool operator==(const OutlinePoint&, const OutlinePoint&) = default;
};

/// The wood of one face: between two polylines, from the first point (x = 0) to the last (x = the
/// board's length). At least two points, x rising strictly, near < far at each.
class Outline {
 public:
  Outline() = default;
  /// Throws std::invalid_argument when the points break a rule above.
  explicit Outline(std::vector<OutlinePoint> points);
  /// Straight near edge at y = 0.
  [[nodiscard]] static Outline tapered(Length length, Length widthAtTag, Length widthAtFar);

  [[nodiscard]] std::span<const OutlinePoint> points() const { return points_; }
  [[nodiscard]] Length length() const;
  [[nodiscard]] Length lowest() const;   ///< least near
  [[nodiscard]] Length highest() const;  ///< greatest far
  [[nodiscard]] Rect bounds() const;     ///< x 0 to length, y lowest to highest
  /// Edge at x, rounded against the wood (near up, far down); past an end, that end's.
  [[nodiscard]] Length nearAt(Length x) const;
  [[nodiscard]] Length farAt(Length x) const;
  /// Greatest near and least far over [x0, x1], rounded against the wood: a rectangle over that
  /// span lies inside exactly when its y range lies within. O(points).
  struct Span {
    Length near, far;
  };
  [[nodiscard]] Span clearSpan(Length x0, Length x1) const;
  /// Exact: no point of the rectangle lies outside the wood.
  [[nodiscard]] bool contains(const Rect& r) const;
  [[nodiscard]] Area area() const;
  /// Area of wood inside `r`, each stretch between two points rounded down to a whole (doubled)
  /// nm²; exact for a rectangle that holds the whole outline. O(points).
  [[nodiscard]] Area areaWithin(const Rect& r) const;
  friend bool operator==(const Outline&, const Outline&) = default;

 private:
  std::vector<OutlinePoint> points_;
};

}  // namespace flitch
