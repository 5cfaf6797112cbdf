#include "ui/desktop/snap.h"

#include <optional>

namespace flitch::desktop {
namespace {

Length apart(Length a, Length b) { return a < b ? b - a : a - b; }

std::optional<Length> nearest(const std::vector<Length>& all, Length at, Length reach) {
  std::optional<Length> best;
  for (const Length each : all) {
    if (apart(each, at) <= reach && (!best || apart(each, at) < apart(*best, at))) best = each;
  }
  return best;
}

Length whole(Length at, Length step, Length reach) {
  const Length half = step / 2;
  const std::int64_t steps = (at.nm() + (at < Length() ? -half.nm() : half.nm())) / step.nm();
  const Length to = step * steps;
  return apart(to, at) <= reach ? to : at;
}

}  // namespace

Snap::Snap(const Board& board, Face face, Unit unit, int besides)
    : outline_(board.outline[static_cast<std::size_t>(face)]),
      step_(unit == Unit::inches ? Length::inches(1) : Length::millimetres(10)) {
  const Rect all = boundsOf(board);
  xs_ = {all.x, all.right()};
  int n = 0;
  for (const Defect& mark : board.defects) {
    const bool other = mark.face == (face == Face::a ? DefectFace::b : DefectFace::a);
    if (n++ == besides || other) continue;
    const Rect& at = placeOn(mark, face);
    xs_.insert(xs_.end(), {at.x, at.x + at.dx / 2, at.right()});
    ys_.insert(ys_.end(), {at.y, at.y + at.dy / 2, at.top()});
  }
}

Snap::Place Snap::at(Length x, Length y, Length reach) const {
  Place place;
  const std::optional<Length> toX = nearest(xs_, x, reach);
  place.toX = toX.has_value();
  place.x = toX ? *toX : whole(x, step_, reach);
  std::vector<Length> ys = ys_;
  ys.push_back(outline_.nearAt(place.x));
  ys.push_back(outline_.farAt(place.x));
  const std::optional<Length> toY = nearest(ys, y, reach);
  place.toY = toY.has_value();
  place.y = toY ? *toY : whole(y, step_, reach);
  return place;
}

}  // namespace flitch::desktop
