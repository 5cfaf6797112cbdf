#include "inventory/desk/offcut.h"

#include <algorithm>
#include <optional>
#include <set>
#include <stdexcept>

#include "inventory/wood/split.h"

namespace flitch::desk {

namespace {

/// Where the line from (x0, y0) to (x1, y1) passes the height y, to the nanometre.
std::optional<Length> crossing(Length x0, Length y0, Length x1, Length y1, Length y) {
  if ((y0 < y) == (y1 < y) || y0 == y || y1 == y) return std::nullopt;
  const std::int64_t rise = y0 < y1 ? (y1 - y0).nm() : (y0 - y1).nm();
  const std::int64_t part = y0 < y1 ? (y - y0).nm() : (y0 - y).nm();
  return x0 + Length::nanometres(mulDiv((x1 - x0).nm(), part, rise));
}

/// What is left of a deviation `whole` when a length shrinks from `from` to `to` in two steps:
/// whole × (to/from) × (to2/from2), rounded up, and never more than the whole.
Length shrunk(Length whole, Length to, Length from, Length to2, Length from2) {
  const Wide divisor = static_cast<Wide>(from.nm()) * from2.nm();
  const Wide factor = static_cast<Wide>(to.nm()) * to2.nm();
  // mulDiv rounds down; one nanometre more is the rounding against the wood.
  const std::int64_t down = mulDiv(whole.nm(), factor, divisor);
  return std::min(whole, Length::nanometres(down + (whole > Length{} ? 1 : 0)));
}

Warp warpWithin(const Board& parent, const Rect& at) {
  const Length length = parent.length();
  // By the width thicknessOver() measures by: the bounds of a crooked board are wider than its
  // wood.
  const Length width = greatestWidth(parent);
  Warp warp;
  const Warp& of = parent.warp;
  if (of.bentAt) {
    if (*of.bentAt > at.x && *of.bentAt < at.right()) {
      warp.bow = of.bow;
      warp.bentAt = *of.bentAt - at.x;
    }
  } else {
    warp.bow = shrunk(of.bow, at.dx, length, at.dx, length);
  }
  warp.cup = shrunk(of.cup, at.dy, width, at.dy, width);
  warp.twist = shrunk(of.twist, at.dx, length, at.dy, width);
  warp.hollow = of.hollow;
  return warp;
}

bool hasGood(const Board& board, Face face) {
  const DefectFace own = face == Face::a ? DefectFace::a : DefectFace::b;
  return std::any_of(board.defects.begin(), board.defects.end(), [&](const Defect& defect) {
    return defect.kind == "good" && (defect.face == DefectFace::through || defect.face == own);
  });
}

std::optional<Rect> rectWithin(const Rect& of, const Rect& at) {
  const Rect common = intersection(of, at);
  if (common.dx <= Length{} || common.dy <= Length{}) return std::nullopt;
  return Rect{common.x - at.x, common.y - at.y, common.dx, common.dy};
}

/// A mark aslant that reaches out of the piece goes through it there, as far as it may reach: half
/// of its way is no longer half of what is left of it.
std::optional<Defect> markWithin(const Defect& mark, const Rect& at) {
  const std::optional<Rect> all = rectWithin(wholeOf(mark), at);
  if (!all) return std::nullopt;
  Defect within = mark;
  within.where = *all;
  within.onB.reset();
  if (mark.onB && contains(at, mark.where) && contains(at, *mark.onB)) {
    within.where = *rectWithin(mark.where, at);
    within.onB = rectWithin(*mark.onB, at);
  }
  return within;
}

}  // namespace

Outline clipped(const Outline& outline, const Rect& at) {
  const auto points = outline.points();
  const Length left = std::max(at.x, Length{});
  const Length right = std::min(at.right(), outline.length());
  if (left >= right) throw std::logic_error("an offcut lies off its board");
  std::set<Length> xs{left, right};
  const auto add = [&](Length x) {
    if (x > left && x < right) xs.insert(x);
  };
  for (std::size_t i = 0; i < points.size(); ++i) {
    add(points[i].x);
    if (i == 0) continue;
    const OutlinePoint& a = points[i - 1];
    const OutlinePoint& b = points[i];
    for (const Length y : {at.y, at.top()}) {
      if (const auto x = crossing(a.x, a.near, b.x, b.near, y)) add(*x);
      if (const auto x = crossing(a.x, a.far, b.x, b.far, y)) add(*x);
    }
  }
  // Where the wood leaves the rectangle, a sliver stands for nothing: an outline has some width
  // at each of its points.
  const Length sliver = Length::nanometres(1);
  std::vector<OutlinePoint> inside;
  for (const Length x : xs) {
    const Length near = std::clamp(outline.nearAt(x), at.y, at.top() - sliver);
    const Length far = std::clamp(outline.farAt(x), near + sliver, at.top());
    inside.push_back({x - at.x, near - at.y, far - at.y});
  }
  return Outline(std::move(inside));
}

Board offcutOf(const Board& parent, const Rect& at) {
  Board offcut;
  offcut.kind = BoardKind::offcut;
  offcut.species = parent.species;
  offcut.nominal = parent.nominal;
  offcut.thickness = parent.thickness;
  offcut.measured = parent.measured;
  offcut.outline = {clipped(lying(parent, Face::a), at), clipped(lying(parent, Face::b), at)};
  offcut.looked = parent.looked;
  offcut.warp = warpWithin(parent, at);
  offcut.grain = parent.grain;
  offcut.log = parent.log;
  offcut.placeInLog = parent.placeInLog;
  offcut.readings = parent.readings;
  offcut.parent = parent.id;
  offcut.inParent = at;
  const Rect whole = boundsOf(parent);
  offcut.sawnEnd = {parent.sawnEnd[0] || at.x > whole.x,
                    parent.sawnEnd[1] || at.right() < whole.right()};

  // An edge mark bars any edge that meets it, so it stays wherever it reaches into the offcut.
  for (const Defect& defect : parent.defects) {
    if (std::optional<Defect> within = markWithin(defect, at)) {
      offcut.defects.push_back(*std::move(within));
    }
  }
  const bool lostA = hasGood(parent, Face::a) && !hasGood(offcut, Face::a);
  const bool lostB = hasGood(parent, Face::b) && !hasGood(offcut, Face::b);
  if (lostA || lostB) {
    const DefectFace face = lostA && lostB ? DefectFace::through
                            : lostA        ? DefectFace::a
                                           : DefectFace::b;
    offcut.defects.push_back({"unsound knot", face, {Length{}, Length{}, at.dx, at.dy}});
    offcut.note = "lay outside what was marked good";
  }
  return offcut;
}

bool holdsTagEnd(const Board& parent, const Rect& at) {
  if (at.x > boundsOf(parent).x) return false;
  const Outline face = lying(parent, Face::a);
  const Length near = face.nearAt(Length());
  const Length far = face.farAt(Length());
  return 2 * (std::min(at.top(), far) - std::max(at.y, near)) >= far - near;
}

BoardId addRemainder(store::Writer& writer, const Board& parent, Board offcut) {
  const bool stays = parent.tag && holdsTagEnd(parent, offcut.inParent);
  if (!stays) offcut.tag = writer.nextTag();
  const BoardId id = writer.addBoard(offcut);
  if (stays) writer.passTag(parent.id, id);
  return id;
}

}  // namespace flitch::desk
