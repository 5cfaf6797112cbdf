#include "inventory/wood/shape.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

using namespace flitch;

namespace {

Length nm(std::int64_t n) { return Length::nanometres(n); }

/// Outlines so small that every corner case is common, or as large as boards.
Outline randomOutline(std::mt19937_64& random, std::int64_t step) {
  const auto upTo = [&random](std::int64_t n) {
    return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(n));
  };
  std::vector<OutlinePoint> points;
  Length x;
  const std::int64_t count = 2 + upTo(4);
  for (std::int64_t i = 0; i < count; ++i) {
    const Length near = nm(upTo(6) * step + (step > 1 ? upTo(step) : 0));
    points.push_back({x, near, near + nm(1 + upTo(7) * step)});
    x += nm(1 + upTo(5) * step);
  }
  return Outline(points);
}

/// An edge at x as a real number, found again from the points.
double edgeAt(const Outline& outline, double x, bool far) {
  const auto points = outline.points();
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const auto x0 = static_cast<double>(points[i].x.nm());
    const auto x1 = static_cast<double>(points[i + 1].x.nm());
    if (x > x1 && i + 2 < points.size()) continue;
    const auto y0 = static_cast<double>((far ? points[i].far : points[i].near).nm());
    const auto y1 = static_cast<double>((far ? points[i + 1].far : points[i + 1].near).nm());
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
  }
  return 0;
}

/// Area inside a rectangle by cutting it into slices so thin that none holds a corner (all
/// denominators of so small an outline divide 2520).
double slowArea(const Outline& outline, const Rect& r) {
  const auto low = static_cast<double>(r.y.nm());
  const auto high = static_cast<double>(r.top().nm());
  const double from = std::max(0.0, static_cast<double>(r.x.nm()));
  const double to =
      std::min(static_cast<double>(outline.length().nm()), static_cast<double>(r.right().nm()));
  const auto height = [&](double x) {
    return std::max(
        0.0, std::min(edgeAt(outline, x, true), high) - std::max(edgeAt(outline, x, false), low));
  };
  double sum = 0;
  constexpr int slices = 2520;
  for (int i = 0; i < static_cast<int>(to - from) * slices; ++i) {
    // The middle of a slice without corner is its mean height.
    sum += height(from + (i + 0.5) / slices) / slices;
  }
  return sum;
}

Rect randomRect(std::mt19937_64& random, const Rect& bounds) {
  const auto between = [&random](std::int64_t a, std::int64_t b) {
    return a + static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(b - a + 1));
  };
  const std::int64_t x = between(-1, bounds.dx.nm());
  const std::int64_t y = between(bounds.y.nm() - 1, bounds.top().nm());
  return {nm(x), nm(y), nm(between(0, bounds.dx.nm() - x + 1)),
          nm(between(0, bounds.top().nm() - y + 1))};
}

}  // namespace

TEST_CASE("rectangles that touch do not overlap") {
  const Rect a{nm(0), nm(0), nm(10), nm(10)};
  CHECK_FALSE(overlaps(a, {nm(10), nm(0), nm(5), nm(5)}));
  CHECK_FALSE(overlaps(a, {nm(0), nm(10), nm(5), nm(5)}));
  CHECK(overlaps(a, {nm(9), nm(9), nm(5), nm(5)}));
  CHECK(contains(a, a));
  CHECK_FALSE(contains(a, {nm(1), nm(1), nm(10), nm(2)}));
  CHECK(intersection(a, {nm(4), nm(6), nm(10), nm(2)}) == Rect{nm(4), nm(6), nm(6), nm(2)});
  CHECK(intersection(a, {nm(12), nm(0), nm(3), nm(3)}).dx < Length());
}

TEST_CASE("an outline that is none is refused") {
  using Points = std::vector<OutlinePoint>;
  const OutlinePoint start{nm(0), nm(0), nm(5)};
  CHECK_THROWS_AS(Outline(Points{}), std::invalid_argument);
  CHECK_THROWS_AS(Outline(Points{start}), std::invalid_argument);
  CHECK_THROWS_AS(Outline(Points{{nm(1), nm(0), nm(5)}, {nm(9), nm(0), nm(5)}}),
                  std::invalid_argument);
  CHECK_THROWS_AS(Outline(Points{start, {nm(0), nm(0), nm(5)}}), std::invalid_argument);
  CHECK_THROWS_AS(Outline(Points{start, {nm(9), nm(5), nm(5)}}), std::invalid_argument);
  CHECK_NOTHROW(Outline(Points{start, {nm(9), nm(4), nm(5)}}));
  CHECK(Outline().length() == Length());
  CHECK_FALSE(Outline().contains({nm(0), nm(0), nm(1), nm(1)}));
}

TEST_CASE("a tapered board by hand") {
  // 10 ft, 10 in at the tag end, 8 in at the far end: 9 in wide in the middle.
  const Outline board = Outline::tapered(Length::feet(10), Length::inches(10), Length::inches(8));
  CHECK(board.farAt(Length::feet(5)) == Length::inches(9));
  CHECK(board.nearAt(Length::feet(5)) == Length());
  CHECK(board.area() == rectangle(Length::feet(10), Length::inches(9)));
  CHECK(board.bounds() == Rect{{}, {}, Length::feet(10), Length::inches(10)});
  CHECK(board.contains({{}, {}, Length::feet(5), Length::inches(9)}));
  CHECK_FALSE(board.contains({{}, {}, Length::feet(5) + nm(61), Length::inches(9)}));
  CHECK_FALSE(board.contains({nm(-1), {}, Length::feet(5), Length::inches(9)}));
  // Past an end the edge is that of the end.
  CHECK(board.farAt(Length::feet(11)) == Length::inches(8));
  CHECK(board.farAt(nm(-5)) == Length::inches(10));
}

TEST_CASE("edges are rounded against the wood") {
  const Outline wedge({{nm(0), nm(0), nm(10)}, {nm(3), nm(1), nm(11)}});
  CHECK(wedge.nearAt(nm(1)) == nm(1));  // 1/3 up
  CHECK(wedge.farAt(nm(1)) == nm(10));  // 10 1/3 down
  CHECK(wedge.nearAt(nm(2)) == nm(1));
  CHECK(wedge.farAt(nm(2)) == nm(10));
  CHECK(wedge.nearAt(nm(3)) == nm(1));
  CHECK(wedge.farAt(nm(3)) == nm(11));
  const Outline below({{nm(0), nm(-4), nm(10)}, {nm(3), nm(-3), nm(11)}});
  CHECK(below.nearAt(nm(1)) == nm(-3));  // -3 2/3 up
}

TEST_CASE("a rectangle lies inside when no point of it lies outside") {
  std::mt19937_64 random(21);
  int inside = 0;
  for (int round = 0; round < 3000; ++round) {
    const Outline outline = randomOutline(random, 1);
    const Rect r = randomRect(random, outline.bounds());
    bool fits = r.x >= Length() && r.right() <= outline.length();
    // Corners of the outline and whole nanometres: edges are straight between them.
    for (std::int64_t x = r.x.nm(); fits && x <= r.right().nm(); ++x) {
      const auto at = static_cast<double>(x);
      // Heights are fractions with denominators up to 5, so 1e-6 tells them apart.
      fits = static_cast<double>(r.y.nm()) > edgeAt(outline, at, false) - 1e-6 &&
             static_cast<double>(r.top().nm()) < edgeAt(outline, at, true) + 1e-6;
    }
    if (outline.contains(r) != fits) FAIL("round " << round);
    if (fits) {
      ++inside;
      // All of it is wood then.
      if (outline.areaWithin(r) != rectangle(r.dx, r.dy)) FAIL("round " << round);
      const Outline::Span span = outline.clearSpan(r.x, r.right());
      if (span.near > r.y || span.far < r.top()) FAIL("round " << round);
    }
  }
  CHECK(inside > 200);
}

TEST_CASE("area inside a rectangle against thin slices") {
  std::mt19937_64 random(22);
  for (int round = 0; round < 300; ++round) {
    const Outline outline = randomOutline(random, 1);
    const Rect r = randomRect(random, outline.bounds());
    const auto ours = static_cast<double>(outline.areaWithin(r).doubled);
    const double slow = 2 * slowArea(outline, r);
    // Rounded down on each stretch between two points; slices with a corner are off by 1e-4.
    const auto stretches = static_cast<double>(outline.points().size() - 1);
    if (ours > slow + 0.01 || ours < slow - stretches - 0.01) {
      FAIL("round " << round << ": " << ours << ", slices " << slow);
    }
  }
}

TEST_CASE("the areas of a tiling sum to the whole within the rounding") {
  std::mt19937_64 random(23);
  for (int round = 0; round < 500; ++round) {
    // Up to boards of 5 m and more, off every round figure.
    const Outline outline = randomOutline(random, round % 2 == 0 ? 1 : 499'999'993);
    const Rect bounds = outline.bounds();
    if (outline.areaWithin(bounds) != outline.area()) FAIL("round " << round);
    std::vector<Length> xs{bounds.x, bounds.right()};
    std::vector<Length> ys{bounds.y, bounds.top()};
    for (int i = 0; i < 4; ++i) {
      xs.push_back(
          nm(static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(bounds.dx.nm()))));
      ys.push_back(bounds.y + nm(static_cast<std::int64_t>(
                                  random() % static_cast<std::uint64_t>(bounds.dy.nm()))));
    }
    std::sort(xs.begin(), xs.end());
    std::sort(ys.begin(), ys.end());
    Area sum;
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
      for (std::size_t j = 0; j + 1 < ys.size(); ++j) {
        sum = sum + outline.areaWithin({xs[i], ys[j], xs[i + 1] - xs[i], ys[j + 1] - ys[j]});
      }
    }
    const Wide lost = outline.area().doubled - sum.doubled;
    const auto most = static_cast<Wide>(25 * (outline.points().size() - 1));
    if (lost < 0 || lost > most) FAIL("round " << round);
  }
}

TEST_CASE("the largest board there is does not overflow") {
  // 60 ft x 5 ft with an edge that crosses the rectangle's sides at no round figure.
  const Outline board({{nm(0), nm(0), Length::feet(5)},
                       {Length::feet(60) - nm(1), Length::feet(2) + nm(7), Length::feet(5) - nm(3)},
                       {Length::feet(60), Length::feet(1), Length::feet(3)}});
  const Rect bounds = board.bounds();
  CHECK(board.areaWithin(bounds) == board.area());
  Wide sum = 0;
  for (int i = 0; i < 7; ++i) {
    const Length low = Length::feet(5) * i / 7;
    const Length high = Length::feet(5) * (i + 1) / 7;
    sum += board.areaWithin({nm(0), low, bounds.dx, high - low}).doubled;
  }
  CHECK(board.area().doubled - sum >= 0);
  CHECK(board.area().doubled - sum <= 14);
}
