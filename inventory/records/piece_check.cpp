#include <algorithm>
#include <array>
#include <optional>

#include "inventory/records/account.h"
#include "inventory/records/blank.h"
#include "inventory/records/cutting_check.h"
#include "inventory/records/recipe.h"
#include "inventory/records/zones.h"

namespace flitch {

namespace {

Rect grown(const Rect& r, Length margin) {
  return {r.x - margin, r.y - margin, r.dx + 2 * margin, r.dy + 2 * margin};
}

bool showsOn(DefectFace where, Face face) {
  return where == DefectFace::through || where == (face == Face::a ? DefectFace::a : DefectFace::b);
}

class PieceJudge {
 public:
  PieceJudge(const CuttingCase& at, std::vector<Fault>& faults)
      : at_(at),
        board_(at.board),
        shop_(at.request.shop),
        faces_{lying(at.board, Face::a), lying(at.board, Face::b)},
        faults_(faults) {}

  void judge() {
    const std::vector<Piece>& pieces = at_.cutting.pieces;
    for (piece_ = 0; piece_ < pieces.size(); ++piece_) {
      const Piece& p = pieces[piece_];
      if (p.kind == PieceKind::blank) judgeBlank(p);
      if (p.kind == PieceKind::offcut) judgeOffcut(p);
      if (p.kind == PieceKind::blank || p.kind == PieceKind::offcut) judgeNeighbours(pieces);
    }
  }

 private:
  void fault(FaultKind kind, std::string sentence) {
    faults_.push_back({kind, board_.id, static_cast<int>(piece_), std::move(sentence)});
  }

  /// A defect that does not plane out of the blank at hand.
  [[nodiscard]] bool stays(const Defect& d) const {
    return !isZone(d.kind) && !planesOut(d, planedOff_);
  }

  void judgeNeighbours(const std::vector<Piece>& pieces) {
    for (std::size_t i = 0; i < piece_; ++i) {
      if (pieces[i].kind != PieceKind::cut && overlaps(pieces[i].at, pieces[piece_].at)) {
        fault(FaultKind::overlap, "it overlaps piece " + std::to_string(i));
      }
    }
  }

  void judgeBlank(const Piece& p) {
    const std::vector<Part>& parts = at_.request.job.parts;
    const auto part = std::find_if(parts.begin(), parts.end(),
                                   [&](const Part& each) { return each.line == p.line; });
    if (part == parts.end() || waits(*part, shop_)) {
      fault(FaultKind::unknownPart,
            "no part that can be planned on line " + std::to_string(p.line));
      return;
    }
    const std::vector<Layup> layups = layupsOf(at_.cutting, piece_);
    // A plan kept before small parts were ganged by themselves may have them alone.
    const bool alone = allowsRecipe(*part, RecipeKind::solid, shop_) ||
                       (part->recipe.empty() && part->run.empty() &&
                        allowsRecipe(*part, RecipeKind::ganged, shop_));
    if (layups.empty() && !alone) {
      fault(FaultKind::badLayup,
            part->name + " is " + recipeText(*part, shop_) + ", and the blank has no place in it");
    }
    const Blank blank = blankAsLaid(*part, layups, p.at, shop_, at_.tick);
    const bool ripped =
        !layups.empty() && layups.front().kind == LayupKind::stave && !layups.front().turned;
    const StaveRange range = staveRange(*part, shop_);
    const bool narrow = ripped && (p.at.dy < range.least || p.at.dy > onGrid(range.most));
    if (p.at.dx != onGrid(blank.length) || p.at.dy != onGrid(blank.width) || narrow) {
      fault(FaultKind::wrongSize, std::string("not the size of a ") + (ripped ? "stave" : "blank") +
                                      " for " + part->name);
    }
    if (blank.showing == Showing::sawnToo && p.at.dy > onGrid(shop_.resawHeight)) {
      fault(FaultKind::wrongSize, part->name + " is wider than the band saw resaws");
    }
    if (std::find(part->species.begin(), part->species.end(), board_.species) ==
        part->species.end()) {
      fault(FaultKind::wrongSpecies, part->name + " may not be of " + board_.species);
    }
    const auto off = [&](Length x) { return x.nm() % at_.tick.nm() != 0; };
    if (off(p.at.x) || off(p.at.y)) fault(FaultKind::offGrid, "it lies between grid steps");
    if (!insideWood(p.at)) {
      fault(FaultKind::outsideOutline, "it reaches out of the usable wood");
    }
    const std::optional<Length>& bend = board_.warp.bentAt;
    const bool crosses = bend && p.at.x < *bend && *bend < p.at.right();
    const Length flat = thicknessOver(board_, p.at.dx, p.at.dy, crosses);
    planedOff_ = planedOff(blank, flat, shop_);
    if (flat < blank.thickness) {
      fault(FaultKind::tooThin, "too thin for " + part->name + " once it is flat");
    }
    const bool setUp = std::all_of(layups.begin(), layups.end(),
                                   [&](const Layup& l) { return part->isSetUp(l.copy); }) &&
                       (!layups.empty() || part->isSetUp(p.copy));
    const Part asked = setUp ? asSetUp(*part) : *part;
    if (asked.straight && !isStraight(board_, shop_)) {
      fault(FaultKind::steepGrain, part->name + " must be of straight grain, and this board's is " +
                                       (board_.grain ? text(*board_.grain) : "not known"));
    }
    judgeSides(p, asked, blank);
  }

  /// Faces and edges by how the part lies in the board.
  void judgeSides(const Piece& p, const Part& part, const Blank& blank) {
    const Face up = p.faceUp;
    const Face down = up == Face::a ? Face::b : Face::a;
    if (blank.showing == Showing::faces) {
      judgeFace(p, part.faceA, up);
      judgeFace(p, part.faceB, down);
    } else {
      for (const std::string& name : {part.faceA, part.faceB}) {
        judgeFace(p, name, Face::a);
        judgeFace(p, name, Face::b);
        judgeDepth(p, name);
      }
    }
    if (blank.showing == Showing::sawnFaces) {
      judgeFace(p, part.edges[0], up);
      judgeFace(p, part.edges[1], down);
      return;
    }
    const std::size_t front = p.frontEdge == Edge::near ? 0 : 1;
    judgeEdge(p, part.edges[front], p.at.y);
    judgeEdge(p, part.edges[1 - front], p.at.top());
    if (blank.across == 1) return;
    for (const std::string& name : part.edges) judgeDepth(p, name);
  }

  [[nodiscard]] Length onGrid(Length size) const { return stepsUp(size, at_.tick) * at_.tick; }

  /// Inside both lying outlines, clear of the reference edge and of the trim of ends as bought.
  [[nodiscard]] bool insideWood(const Rect& r) const {
    const Length edge = edgeTaken(board_, shop_);
    for (const Outline& face : faces_) {
      const Length left = board_.sawnEnd[0] ? Length() : shop_.endTrim;
      const Length right = face.length() - (board_.sawnEnd[1] ? Length() : shop_.endTrim);
      if (r.x < left || r.right() > right) return false;
      const Outline::Span wood = face.clearSpan(r.x, r.right());
      if (r.y < wood.near + edge || r.top() > wood.far) return false;
    }
    return true;
  }

  [[nodiscard]] const Demand* demandNamed(const std::string& name) {
    const Demand* demand = findDemand(shop_, name);
    if (demand == nullptr) {
      fault(FaultKind::unknownPart, "the shop's table has no demand called " + name);
    }
    return demand;
  }

  void judgeFace(const Piece& p, const std::string& name, Face face) {
    const Demand* demand = demandNamed(name);
    if (demand == nullptr) return;
    const bool unseen = board_.looked[static_cast<std::size_t>(face)] == Looked::no;
    if (unseen && !demand->unseen && !at_.request.choices.trustUnseen) {
      fault(FaultKind::unseenFace, "a face that asks for " + name + " was never looked at");
    }
    for (const Defect& d : board_.defects) {
      if (!stays(d) || !showsOn(d.face, face) || allows(*demand, d)) continue;
      if (overlaps(grown(planedPlaceOn(d, face), shop_.markMargin), p.at)) {
        fault(FaultKind::onMark, d.kind + " on a face that asks for " + name);
      }
    }
    if (!demand->outsideGood && !insideGood(p.at, face)) {
      fault(FaultKind::onMark, "outside the wood marked good");
    }
  }

  /// Wood sawn open anywhere in it: every mark on or near the piece counts, whatever it shows on.
  void judgeDepth(const Piece& p, const std::string& name) {
    const Demand* demand = demandNamed(name);
    if (demand == nullptr) return;
    for (const Defect& d : board_.defects) {
      if (!stays(d) || allows(*demand, d)) continue;
      if (overlaps(grown(wholeOf(d), shop_.markMargin), p.at)) {
        fault(FaultKind::onMark, d.kind + " in wood sawn open that asks for " + name);
      }
    }
  }

  /// True when the face has no zone marked good, or the zones cover the rectangle together.
  [[nodiscard]] bool insideGood(const Rect& r, Face face) const {
    std::vector<Rect> zones;
    std::vector<Length> xs{r.x, r.right()};
    std::vector<Length> ys{r.y, r.top()};
    for (const Defect& d : board_.defects) {
      if (d.kind != "good" || !showsOn(d.face, face)) continue;
      zones.push_back(d.where);
      xs.insert(xs.end(), {d.where.x, d.where.right()});
      ys.insert(ys.end(), {d.where.y, d.where.top()});
    }
    if (zones.empty()) return true;
    std::sort(xs.begin(), xs.end());
    std::sort(ys.begin(), ys.end());
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
      for (std::size_t j = 0; j + 1 < ys.size(); ++j) {
        const Rect cell{xs[i], ys[j], xs[i + 1] - xs[i], ys[j + 1] - ys[j]};
        const bool empty = cell.dx == Length() || cell.dy == Length();
        if (empty || !contains(r, cell)) continue;
        const auto covers = [&](const Rect& zone) { return contains(zone, cell); };
        if (std::none_of(zones.begin(), zones.end(), covers)) return false;
      }
    }
    return true;
  }

  /// The blank's long side at `y`: every mark it meets counts, whichever face that shows on.
  void judgeEdge(const Piece& p, const std::string& name, Length y) {
    const Demand* demand = demandNamed(name);
    if (demand == nullptr) return;
    for (const Defect& d : board_.defects) {
      if (!stays(d) || allows(*demand, d)) continue;
      const Rect where = wholeOf(d);
      const bool common = where.x < p.at.right() && p.at.x < where.right();
      if (common && where.y <= y && y <= where.top()) {
        fault(FaultKind::onMark, d.kind + " on an edge that asks for " + name);
      }
    }
  }

  void judgeOffcut(const Piece& p) {
    const Rect core = offcutCore(board_, shop_, at_.tick, p.at);
    if (core.dx < shop_.keepLength || core.dy < shop_.keepWidth) {
      fault(FaultKind::badOffcut, "an offcut smaller than the shop keeps");
    }
    for (const Defect& d : board_.defects) {
      if (barsOffcut(d.kind) && overlaps(wholeOf(d), core)) {
        fault(FaultKind::badOffcut, "an offcut with " + d.kind + " in it");
      }
    }
  }

  const CuttingCase& at_;
  const Board& board_;
  const ShopProfile& shop_;
  std::array<Outline, 2> faces_;
  std::vector<Fault>& faults_;
  std::size_t piece_ = 0;
  Length planedOff_;  ///< off each face of the blank at hand
};

}  // namespace

void checkPieces(const CuttingCase& at, std::vector<Fault>& faults) {
  PieceJudge(at, faults).judge();
}

}  // namespace flitch
