#include "inventory/records/account.h"

#include <algorithm>
#include <optional>
#include <stdexcept>

#include "inventory/records/blank.h"
#include "inventory/records/zones.h"
#include "inventory/wood/split.h"
#include "inventory/wood/thickness.h"

namespace flitch {

namespace {

std::size_t index(Cause cause) { return static_cast<std::size_t>(cause); }

/// Areas of one board as the account counts them: both faces together, doubled nm².
class Plan {
 public:
  explicit Plan(const Board& board)
      : board_(board), faces_{lying(board, Face::a), lying(board, Face::b)} {}

  [[nodiscard]] Wide wood(const Rect& r) const {
    return faces_[0].areaWithin(r).doubled + faces_[1].areaWithin(r).doubled;
  }

  /// Wood of `r` under marks that show on a face, each place counted once a face. The marks' union
  /// is cut into the cells of all their sides. O(marks³) per call.
  [[nodiscard]] Wide underMarks(const Rect& r) const {
    return underMarks(r, DefectFace::a, faces_[0]) + underMarks(r, DefectFace::b, faces_[1]);
  }

 private:
  [[nodiscard]] Wide underMarks(const Rect& r, DefectFace face, const Outline& outline) const {
    std::vector<Rect> marks;
    for (const Defect& d : board_.defects) {
      if (isZone(d.kind)) continue;
      if (d.face != face && d.face != DefectFace::through) continue;
      const Rect common = intersection(placeOn(d, face == DefectFace::a ? Face::a : Face::b), r);
      if (common.dx > Length() && common.dy > Length()) marks.push_back(common);
    }
    std::vector<Length> xs;
    for (const Rect& m : marks) {
      xs.push_back(m.x);
      xs.push_back(m.right());
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    Wide sum = 0;
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
      std::vector<Rect> here;
      for (const Rect& m : marks) {
        if (m.x <= xs[i] && xs[i + 1] <= m.right()) here.push_back(m);
      }
      std::sort(here.begin(), here.end(), [](const Rect& a, const Rect& b) { return a.y < b.y; });
      Length done = r.y;
      for (const Rect& m : here) {
        const Length from = std::max(done, m.y);
        if (m.top() <= from) continue;
        sum += outline.areaWithin({xs[i], from, xs[i + 1] - xs[i], m.top() - from}).doubled;
        done = m.top();
      }
    }
    return sum;
  }

  const Board& board_;
  std::array<Outline, 2> faces_;
};

const Part* partOf(const Job& job, int line) {
  const auto at = std::find_if(job.parts.begin(), job.parts.end(),
                               [&](const Part& p) { return p.line == line; });
  return at == job.parts.end() ? nullptr : &*at;
}

Wide sumOf(const std::vector<Wide>& shares) {
  Wide sum = 0;
  for (const Wide s : shares) sum += s;
  return sum;
}

/// The finished wood a blank gives: seen on the board's face, and in all.
struct Finished {
  Area face;
  CubicMillimetres wood;
};

/// The finished wood of one layup, as it lies in its board: a stave or a lamina brings part of the
/// whole.
struct Lying {
  Length along, across, deep;
};
Lying lyingOf(const Layup& layup, const Part& part) {
  switch (layup.kind) {
    case LayupKind::lamina: return {part.length, part.width, layup.gives};
    case LayupKind::gang: return {part.length, part.width, part.thickness};
    case LayupKind::stave:
    case LayupKind::whole: break;
  }
  if (layup.turned) return {part.length, part.thickness, layup.gives};
  return {part.length, layup.gives, part.thickness};
}

Finished finishedOf(const Cutting& cutting, std::size_t piece, const Part& part) {
  const std::vector<Layup> layups = layupsOf(cutting, piece);
  if (layups.empty()) {
    const Area face = rectangle(part.length, part.width);
    return {face, volume(face, face, part.thickness)};
  }
  Finished all;
  for (const Layup& l : layups) {
    const Lying lies = lyingOf(l, part);
    const Area face = rectangle(lies.along, lies.across);
    all.wood += volume(face, face, lies.deep);
    // Leaves of one depth lie over each other.
    const bool seen = l.kind != LayupKind::whole || &l == &layups.front();
    if (seen) all.face.doubled += face.doubled;
  }
  return all;
}

/// What a leaf takes before anything is shared out: plan area, and of a blank what it becomes.
struct Claim {
  int piece = 0;
  Cause cause = Cause::unusable;
  Wide area = 0;
  std::optional<Finished> finished;
  Money worth;  ///< offcuts
};

std::vector<Claim> claimsOf(const Cutting& cutting, const Board& board, const Job& job,
                            const ShopProfile& shop, Length tick) {
  const Plan plan(board);
  std::vector<Claim> claims;
  for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
    const Piece& piece = cutting.pieces[i];
    const int number = static_cast<int>(i);
    if (piece.kind == PieceKind::cut) continue;
    const Wide area = plan.wood(piece.at);
    switch (piece.kind) {
      case PieceKind::cut: break;
      case PieceKind::blank: {
        const Part* part = partOf(job, piece.line);
        claims.push_back(
            {number,
             Cause::parts,
             area,
             part == nullptr ? std::nullopt : std::optional(finishedOf(cutting, i, *part)),
             {}});
        break;
      }
      case PieceKind::offcut: {
        const Rect core = offcutCore(board, shop, tick, piece.at);
        claims.push_back({number, Cause::offcuts, area, std::nullopt,
                          offcutWorth(board, shop, tick, core.dx, core.dy)});
        break;
      }
      case PieceKind::kerf: claims.push_back({number, Cause::kerf, area, std::nullopt, {}}); break;
      case PieceKind::endTrim:
        claims.push_back({number, Cause::endTrim, area, std::nullopt, {}});
        break;
      case PieceKind::unusable: {
        const Wide marked = plan.underMarks(piece.at);
        if (marked > 0) claims.push_back({number, Cause::defect, marked, std::nullopt, {}});
        claims.push_back({number, Cause::unusable, area - marked, std::nullopt, {}});
        break;
      }
    }
  }
  return claims;
}

/// Volume by share, blanks parted into part and machining.
std::vector<Share> sharesOf(const std::vector<Claim>& claims, CubicMillimetres whole) {
  std::vector<Wide> areas;
  areas.reserve(claims.size());
  for (const Claim& c : claims) areas.push_back(c.area);
  std::vector<Share> shares;
  if (sumOf(areas) == 0) return shares;
  const std::vector<std::int64_t> volumes = split(whole.value, areas);
  for (std::size_t i = 0; i < claims.size(); ++i) {
    const Claim& c = claims[i];
    const CubicMillimetres taken{volumes[i]};
    if (!c.finished) {
      shares.push_back({c.piece, c.cause, taken, {}});
      continue;
    }
    const CubicMillimetres part = std::min(taken, c.finished->wood);
    shares.push_back({c.piece, Cause::parts, part, {}});
    shares.push_back({c.piece, Cause::machining, taken - part, {}});
  }
  return shares;
}

/// Offcuts carry their worth; the rest of the cost falls on the others by volume.
void shareCost(std::vector<Share>& shares, const std::vector<Claim>& claims, Money cost) {
  Money rest = cost;
  for (const Claim& c : claims) rest -= c.worth;
  bool others = false;
  for (const Share& s : shares) {
    others = others || (s.cause != Cause::offcuts && s.volume.value > 0);
  }
  std::vector<Wide> weights;
  weights.reserve(shares.size());
  for (const Share& s : shares) {
    // A board kept whole has nothing else to carry its cost.
    const bool carries = !others || s.cause != Cause::offcuts;
    weights.push_back(carries ? s.volume.value : 0);
  }
  if (sumOf(weights) == 0) return;
  const std::vector<std::int64_t> costs = split(rest.raw(), weights);
  for (std::size_t i = 0; i < shares.size(); ++i) {
    shares[i].cost = Money::tenThousandths(costs[i]);
    for (const Claim& c : claims) {
      if (c.piece == shares[i].piece) shares[i].cost += c.worth;
    }
  }
}

std::array<Feet, causeCount> feetOf(const std::vector<Claim>& claims, Feet whole) {
  std::vector<Wide> areas(causeCount);
  for (const Claim& c : claims) {
    if (!c.finished) {
      areas[index(c.cause)] += c.area;
      continue;
    }
    const Wide finished = std::min(c.area, 2 * c.finished->face.doubled);
    areas[index(Cause::parts)] += finished;
    areas[index(Cause::machining)] += c.area - finished;
  }
  std::array<Feet, causeCount> feet{};
  if (sumOf(areas) == 0) return feet;
  const std::vector<std::int64_t> parts = split(whole.thousandths, areas);
  for (std::size_t i = 0; i < causeCount; ++i) feet[i] = Feet{parts[i]};
  return feet;
}

}  // namespace

std::string_view word(Cause cause) {
  switch (cause) {
    case Cause::parts: return "parts";
    case Cause::offcuts: return "offcuts";
    case Cause::kerf: return "kerf";
    case Cause::endTrim: return "end trim";
    case Cause::defect: return "defects";
    case Cause::machining: return "machining";
    case Cause::unusable: return "unusable";
  }
  throw std::logic_error("no such cause");
}

std::string_view word(AccountKind kind) {
  switch (kind) {
    case AccountKind::board: return "board";
    case AccountKind::bought: return "bought";
    case AccountKind::opening: return "opening";
    case AccountKind::found: return "found";
    case AccountKind::returned: return "returned";
    case AccountKind::credit: return "credit";
    case AccountKind::parts: return "parts";
    case AccountKind::kerf: return "kerf";
    case AccountKind::endTrim: return "end trim";
    case AccountKind::defect: return "defect";
    case AccountKind::machining: return "machining";
    case AccountKind::unusable: return "unusable";
    case AccountKind::lost: return "lost";
    case AccountKind::missing: return "missing";
    case AccountKind::retired: return "retired";
    case AccountKind::sold: return "sold";
    case AccountKind::priceDifference: return "price difference";
    case AccountKind::remeasured: return "remeasured";
    case AccountKind::byHand: return "by hand";
    case AccountKind::bin: return "bin";
  }
  throw std::logic_error("no such account");
}

AccountKind accountOf(Cause cause) {
  switch (cause) {
    case Cause::parts: return AccountKind::parts;
    case Cause::kerf: return AccountKind::kerf;
    case Cause::endTrim: return AccountKind::endTrim;
    case Cause::defect: return AccountKind::defect;
    case Cause::machining: return AccountKind::machining;
    case Cause::unusable: return AccountKind::unusable;
    case Cause::offcuts: break;
  }
  throw std::logic_error("an offcut has an account of its own");
}

Breakdown account(const Cutting& cutting, const Board& board, const Job& job,
                  const ShopProfile& shop, Length tick) {
  const std::vector<Claim> claims = claimsOf(cutting, board, job, shop, tick);
  Breakdown out;
  out.shares = sharesOf(claims, board.onRack() ? board.wood : volumeOf(board));
  shareCost(out.shares, claims, board.cost);
  out.feet = feetOf(claims, board.measuredFeet);
  for (const Share& s : out.shares) {
    out.volume[index(s.cause)] += s.volume;
    out.cost[index(s.cause)] += s.cost;
  }
  out.offcutWorth = out.cost[index(Cause::offcuts)];
  out.woodCost = board.cost - out.offcutWorth;
  out.cutCost = openingCost(board, shop) + cuttingCost(cutting, shop);
  return out;
}

Money openingCost(const Board& board, const ShopProfile& shop) {
  int cuts = edgeTaken(board, shop) > Length() ? 1 : 0;
  for (const bool sawn : board.sawnEnd) {
    if (!sawn && shop.endTrim > Length()) ++cuts;
  }
  return labour(shop, shop.pullMinutes + cuts * shop.cutMinutes);
}

Money cuttingCost(const Cutting& cutting, const ShopProfile& shop) {
  std::int64_t cuts = 0;
  for (const Piece& p : cutting.pieces) {
    const bool sawn = p.kind == PieceKind::cut || p.kind == PieceKind::blank ||
                      (p.kind == PieceKind::offcut && !shop.offcutsAtZero);
    if (p.depth > 1 && sawn) ++cuts;
  }
  // Each leaf of a resawn blank but one is a cut more.
  for (const Layup& l : cutting.layups) {
    if (l.kind == LayupKind::whole && l.slot > 1) ++cuts;
  }
  return labour(shop, shop.cutMinutes) * cuts + labour(shop, shop.glueMinutes) * gluedOf(cutting);
}

std::int64_t gluedOf(const Cutting& cutting) {
  return std::count_if(cutting.layups.begin(), cutting.layups.end(), [](const Layup& l) {
    const bool loose = l.section == 0 && !l.turned;
    return l.kind == LayupKind::lamina || (l.kind == LayupKind::stave && !loose);
  });
}

Money shortagePrice(const Part& part, const PlanRequest& request) {
  const Blank blank = blankFor(part, request.shop);
  const Feet feet = volumeTally(leastNominal(blank.thickness), blank.width, blank.length);
  const auto allowed = [&](const Board& board) {
    return std::find(part.species.begin(), part.species.end(), board.species) != part.species.end();
  };
  const bool some = std::any_of(request.boards.begin(), request.boards.end(), allowed);
  Money dearestFoot;
  for (const Board& board : request.boards) {
    if (some && !allowed(board)) continue;
    if (board.measuredFeet.thousandths > 0) {
      const std::int64_t foot = mulDiv(board.cost.raw(), 1000, board.measuredFeet.thousandths) + 1;
      dearestFoot = std::max(dearestFoot, Money::tenThousandths(foot));
    }
  }
  if (dearestFoot == Money()) dearestFoot = Money::units(10);
  return cost(Rate{dearestFoot}, feet) * request.shop.shortageFactor;
}

}  // namespace flitch
