#include "inventory/records/board.h"

#include <algorithm>
#include <stdexcept>

#include "inventory/records/zones.h"
#include "inventory/wood/wide.h"

namespace flitch {

namespace {

constexpr std::int64_t crookPieces = 16;

/// ceil(a / b) for a >= 0, b > 0.
Wide dividedUp(Wide a, Wide b) { return (a + b - 1) / b; }

/// How far an even crook lifts both edges at x: the polyline through the parabola's points at every
/// sixteenth of the length. Rises toward the middle when the near edge is hollow, falls toward it
/// when the far edge is.
class CrookLine {
 public:
  CrookLine(Length depth, Length length, Edge hollow)
      : depth_(depth.nm()), length_(length.nm()), hollow_(hollow) {}

  [[nodiscard]] Length x(std::int64_t point) const {
    return Length::nanometres(
        static_cast<std::int64_t>(static_cast<Wide>(length_) * point / crookPieces));
  }
  [[nodiscard]] Length at(Length where) const {
    const Wide scaled = static_cast<Wide>(where.nm()) * crookPieces;
    const std::int64_t piece =
        std::min(static_cast<std::int64_t>(scaled / length_), crookPieces - 1);
    // Between two points the height is linear; in units of depth / (64 length).
    const Wide within = scaled - static_cast<Wide>(piece) * length_;
    const Wide left = static_cast<Wide>(piece) * (crookPieces - piece);
    const Wide right = static_cast<Wide>(piece + 1) * (crookPieces - piece - 1);
    Wide height = left * length_ + (right - left) * within;
    const Wide unit = static_cast<Wide>(64) * length_;
    if (hollow_ == Edge::far) height = unit - height;
    return Length::nanometres(static_cast<std::int64_t>((depth_ * height + unit / 2) / unit));
  }

 private:
  Wide depth_;
  std::int64_t length_;
  Edge hollow_;
};

}  // namespace

const Rect& placeOn(const Defect& defect, Face face) {
  return face == Face::b && defect.onB ? *defect.onB : defect.where;
}

Rect wholeOf(const Defect& defect) {
  return defect.onB ? hull(defect.where, *defect.onB) : defect.where;
}

Rect planedPlaceOn(const Defect& defect, Face face) {
  if (!defect.onB) return defect.where;
  // Outward to whole nanometres; places may lie below zero.
  const auto half = [](Length a, Length b, bool up) {
    const std::int64_t sum = (a + b).nm();
    return Length::nanometres((sum + (up ? 1 : 0)) >> 1);
  };
  const Rect& a = defect.where;
  const Rect& b = *defect.onB;
  const Length x = half(a.x, b.x, false);
  const Length y = half(a.y, b.y, false);
  return hull(placeOn(defect, face),
              {x, y, half(a.right(), b.right(), true) - x, half(a.top(), b.top(), true) - y});
}

void settle(Defect& defect) {
  const bool zone = isZone(defect.kind);
  if (zone || (defect.face != DefectFace::a && defect.face != DefectFace::b)) defect.depth.reset();
  if (zone || defect.face != DefectFace::through) defect.onB.reset();
}

Length Board::widthAtTag() const {
  const OutlinePoint& p = outline[0].points().front();
  return p.far - p.near;
}

Length Board::widthAtFar() const {
  const OutlinePoint& p = outline[0].points().back();
  return p.far - p.near;
}

Length greatestWidth(const Board& board) {
  Length widest;
  for (const Outline& outline : board.outline) {
    for (const OutlinePoint& p : outline.points()) widest = std::max(widest, p.far - p.near);
  }
  return widest;
}

Outline lying(const Board& board, Face face) {
  const Outline& straight = board.outline[static_cast<std::size_t>(face)];
  if (board.warp.crook == Length()) return straight;
  const CrookLine line(board.warp.crook, straight.length(), board.warp.hollow);
  std::vector<Length> places;
  for (const OutlinePoint& p : straight.points()) places.push_back(p.x);
  for (std::int64_t i = 0; i <= crookPieces; ++i) places.push_back(line.x(i));
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  std::vector<OutlinePoint> points;
  points.reserve(places.size());
  for (const Length x : places) {
    const Length up = line.at(x);
    points.push_back({x, straight.nearAt(x) + up, straight.farAt(x) + up});
  }
  return Outline(std::move(points));
}

Rect boundsOf(const Board& board) {
  const Outline a = lying(board, Face::a);
  const Outline b = lying(board, Face::b);
  const Length low = std::min(a.lowest(), b.lowest());
  const Length high = std::max(a.highest(), b.highest());
  return {Length(), low, std::max(a.length(), b.length()), high - low};
}

Length thicknessOver(const Board& board, Length l, Length w, bool crossesBend) {
  const Wide length = board.length().nm();
  const Wide width = greatestWidth(board).nm();
  const Wide ll = std::min<Wide>(l.nm(), length);
  const Wide ww = std::min<Wide>(w.nm(), width);
  const Warp& warp = board.warp;
  Wide loss = 0;
  if (warp.bentAt) {
    if (crossesBend) loss += warp.bow.nm();
  } else {
    loss += dividedUp(warp.bow.nm() * ll * ll, length * length);
  }
  loss += dividedUp(warp.cup.nm() * ww * ww, width * width);
  loss += dividedUp(warp.twist.nm() * ll * ww, length * width);
  return board.thickness - Length::nanometres(static_cast<std::int64_t>(loss));
}

bool nearEdgeSawn(const Board& board) {
  if (board.kind != BoardKind::offcut || board.inParent.y <= Length()) return false;
  for (const Face face : {Face::a, Face::b}) {
    const Outline wood = lying(board, face);
    if (wood.clearSpan(Length(), wood.length()).near > Length()) return false;
  }
  return true;
}

CubicMillimetres volumeOf(const Board& board) {
  return volume(board.outline[0].area(), board.outline[1].area(), board.thickness);
}

std::string sizeText(const Board& board, Unit unit) {
  const bool inches = unit == Unit::inches;
  const LengthStyle along = inches ? LengthStyle::feetInches : LengthStyle::millimetres;
  const LengthStyle across = inches ? LengthStyle::inches : LengthStyle::millimetres;
  const std::string tag = text(board.widthAtTag(), across);
  const std::string far = text(board.widthAtFar(), across);
  return text(board.length(), along) + " × " + (tag == far ? tag : tag + "–" + far);
}

std::string_view word(Looked looked) {
  switch (looked) {
    case Looked::no: return "no";
    case Looked::rough: return "rough";
    case Looked::planed: return "planed";
  }
  throw std::logic_error("no such state of looking");
}

std::string_view word(DefectFace face) {
  switch (face) {
    case DefectFace::a: return "A";
    case DefectFace::b: return "B";
    case DefectFace::through: return "through";
    case DefectFace::near: return "near";
    case DefectFace::far: return "far";
  }
  throw std::logic_error("no such face");
}

std::string_view word(MoistureState state) {
  switch (state) {
    case MoistureState::wet: return "wet";
    case MoistureState::resting: return "resting";
    case MoistureState::ready: return "ready";
  }
  throw std::logic_error("no such state of moisture");
}

std::string_view word(BoardKind kind) {
  switch (kind) {
    case BoardKind::plank: return "plank";
    case BoardKind::slab: return "slab";
    case BoardKind::offcut: return "offcut";
  }
  throw std::logic_error("no such kind of board");
}

std::string_view word(PriceBasis basis) {
  switch (basis) {
    case PriceBasis::perFoot: return "foot";
    case PriceBasis::each: return "each";
    case PriceBasis::perCubicMetre: return "cubic metre";
    case PriceBasis::perRunningFoot: return "running foot";
    case PriceBasis::lot: return "lot";
  }
  throw std::logic_error("no such basis of a price");
}

const std::vector<DefectKind>& startingDefectKinds() {
  static const std::vector<DefectKind> kinds{
      {"sound knot", 'K', true}, {"unsound knot", 'U', false},
      {"check", 'C', false},     {"split", 'S', false},
      {"wane", 'W', false},      {"hole", 'H', false},
      {"stain", 'T', true},      {"sapwood", 'L', true},
      {"pith", 'P', false},      {"bark pocket", 'B', false},
      {"gum", 'G', true},        {"good", 0, true},
      {"show", 0, true}};
  return kinds;
}

}  // namespace flitch
