#include <algorithm>
#include <cmath>
#include <tuple>

#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

bool bars(const Defect& defect, const Demand& demand) {
  if (defect.kind == "good") return !demand.outsideGood;
  return !allows(demand, defect.kind);
}

bool shows(const Defect& defect, Face face) {
  return defect.face == DefectFace::through ||
         defect.face == (face == Face::a ? DefectFace::a : DefectFace::b);
}

/// Rectangles no blank of the demand may lie on; outside every `good` zone likewise.
std::vector<Rect> barredOn(const Board& board, Face face, const Demand& demand, Length margin) {
  std::vector<Rect> barred;
  std::vector<Rect> good;
  for (const Defect& defect : board.defects) {
    if (!shows(defect, face) || !bars(defect, demand)) continue;
    const Rect& w = placeOn(defect, face);
    if (defect.kind == "good") {
      good.push_back(w);
    } else {
      barred.push_back({w.x - margin, w.y - margin, w.dx + 2 * margin, w.dy + 2 * margin});
    }
  }
  if (good.empty()) return barred;
  const Rect all = boundsOf(board);
  std::sort(good.begin(), good.end(), [](const Rect& a, const Rect& b) { return a.x < b.x; });
  Length x = all.x;
  for (const Rect& g : good) {
    if (g.x > x) barred.push_back({x, all.y, g.x - x, all.dy});
    x = std::max(x, g.right());
  }
  if (x < all.right()) barred.push_back({x, all.y, all.right() - x, all.dy});
  return barred;
}

bool seen(const Board& board, Face face) {
  return board.looked[static_cast<std::size_t>(face)] != Looked::no;
}

}  // namespace

int clearPermille(const Board& board, Face face, const Demand& demand) {
  if (!seen(board, face)) return -1;
  const Outline& outline = board.outline[static_cast<std::size_t>(face)];
  const std::vector<Rect> barred = barredOn(board, face, demand, Length{});
  std::vector<Length> xs{Length{}, outline.length()};
  for (const Rect& r : barred) {
    xs.push_back(std::clamp(r.x, Length{}, outline.length()));
    xs.push_back(std::clamp(r.right(), Length{}, outline.length()));
  }
  std::sort(xs.begin(), xs.end());
  double lost = 0;
  for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
    if (xs[i] == xs[i + 1]) continue;
    std::vector<std::pair<Length, Length>> spans;
    for (const Rect& r : barred) {
      if (r.x <= xs[i] && xs[i + 1] <= r.right()) spans.emplace_back(r.y, r.top());
    }
    std::sort(spans.begin(), spans.end());
    const Length middle = xs[i] + (xs[i + 1] - xs[i]) / 2;
    Length y = outline.nearAt(middle);
    const Length far = outline.farAt(middle);
    for (const auto& [low, high] : spans) {
      const Length from = std::max(y, low), to = std::min(far, high);
      if (to > from) {
        lost +=
            static_cast<double>((xs[i + 1] - xs[i]).nm()) * static_cast<double>((to - from).nm());
        y = to;
      }
    }
  }
  double whole = 0;
  const auto points = outline.points();
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double w0 = static_cast<double>((points[i].far - points[i].near).nm());
    const double w1 = static_cast<double>((points[i + 1].far - points[i + 1].near).nm());
    whole += (w0 + w1) / 2 * static_cast<double>((points[i + 1].x - points[i].x).nm());
  }
  return whole <= 0 ? 0
                    : std::clamp(static_cast<int>(std::lround(1000 * (1 - lost / whole))), 0, 1000);
}

std::vector<Rect> clearPlaces(const Board& board, Face face, const Demand& demand, Length margin,
                              std::size_t count) {
  if (!seen(board, face) && !demand.unseen) return {};
  const Outline& outline = board.outline[static_cast<std::size_t>(face)];
  const std::vector<Rect> barred = barredOn(board, face, demand, margin);
  std::vector<Length> xs{Length{}, outline.length()};
  for (const OutlinePoint& p : outline.points()) xs.push_back(p.x);
  for (const Rect& r : barred) {
    xs.push_back(std::clamp(r.x, Length{}, outline.length()));
    xs.push_back(std::clamp(r.right(), Length{}, outline.length()));
  }
  std::sort(xs.begin(), xs.end());
  xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
  std::vector<Rect> best;  // widest for each span of x
  for (std::size_t i = 0; i < xs.size(); ++i) {
    for (std::size_t j = i + 1; j < xs.size(); ++j) {
      const Outline::Span span = outline.clearSpan(xs[i], xs[j]);
      std::vector<std::pair<Length, Length>> taken;
      for (const Rect& r : barred) {
        if (r.x < xs[j] && xs[i] < r.right()) taken.emplace_back(r.y, r.top());
      }
      std::sort(taken.begin(), taken.end());
      taken.emplace_back(span.far, span.far);
      Length y = span.near;
      Rect widest{xs[i], y, xs[j] - xs[i], Length{}};
      for (const auto& [low, high] : taken) {
        const Length to = std::min(low, span.far);
        if (to - y > widest.dy) widest = {xs[i], y, xs[j] - xs[i], to - y};
        y = std::max(y, high);
      }
      if (widest.dy > Length{}) best.push_back(widest);
    }
  }
  std::sort(best.begin(), best.end(), [](const Rect& a, const Rect& b) {
    return std::tie(b.dx, b.dy, a.x, a.y) < std::tie(a.dx, a.dy, b.x, b.y);
  });
  std::vector<Rect> front;  // none at least as long and as wide before it
  for (const Rect& r : best) {
    if (front.empty() || r.dy > front.back().dy) front.push_back(r);
  }
  if (front.size() <= count || count < 2) return front;
  std::vector<Rect> spread;
  for (std::size_t i = 0; i < count; ++i) {
    spread.push_back(front[i * (front.size() - 1) / (count - 1)]);
  }
  return spread;
}

}  // namespace flitch::desktop
