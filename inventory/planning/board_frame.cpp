#include "inventory/planning/board_frame.h"

#include <algorithm>
#include <array>

#include "inventory/records/refusal.h"
#include "inventory/records/zones.h"

namespace flitch::planning {

using optimizer::ClassSet;
using optimizer::noClass;
using optimizer::orientations;
using optimizer::Tick;
using optimizer::Zone;

namespace {

Face faceUp(int orientation) { return orientation / 2 == 0 ? Face::a : Face::b; }
bool frontAtFar(int orientation) { return orientation % 2 == 1; }

bool showsOn(DefectFace where, Face face) {
  return where == DefectFace::through || where == (face == Face::a ? DefectFace::a : DefectFace::b);
}

/// What a class of blanks asks of the board.
struct Asking {
  const Demand* faceA;
  const Demand* faceB;
  const Demand* front;
  const Demand* back;
  bool clearOfKink;
  Showing showing;
  bool edgesInside;  ///< ripped apart later, so its edges may come to lie anywhere in it
  Length planesOut;  ///< the deepest mark of one face that planes out of them, zero: none
  bool offShow;      ///< keeps off wood marked for show
  friend bool operator==(const Asking&, const Asking&) = default;
};

const Demand& demandNamed(const ShopProfile& shop, const std::string& name, const Part& part) {
  const Demand* demand = findDemand(shop, name);
  if (demand == nullptr) {
    throw Refusal("unknown-demand",
                  Complaint{part.name, "the shop's table has no such demand", name,
                            "hidden, sound, clear, heart only, or a row of the shop's own"});
  }
  return *demand;
}

class Framer {
 public:
  Framer(const Board& board, const UsableWood& wood, const ShopProfile& shop, bool trustUnseen,
         Length tick)
      : board_(board), wood_(wood), shop_(shop), trustUnseen_(trustUnseen), tick_(tick) {}

  Barring frame(const std::vector<const Part*>& parts, const std::vector<Blank>& blanks,
                const std::vector<bool>& offShow) {
    const bool marked = std::any_of(board_.defects.begin(), board_.defects.end(),
                                    [](const Defect& d) { return d.kind == "show"; });
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const bool off = marked && !offShow.empty() && offShow[i];
      out_.partClass.push_back(classOf(*parts[i], blanks[i], off));
    }
    out_.offcutClass = static_cast<int>(asked_.size());
    for (const Defect& d : board_.defects) {
      if (isZone(d.kind)) continue;
      addMark(d);
    }
    addGood(Face::a);
    addGood(Face::b);
    addShow();
    addUnseen();
    addKink();
    return std::move(out_);
  }

 private:
  int classOf(const Part& part, const Blank& blank, bool offShow) {
    const auto& allowed = part.species;
    if (std::find(allowed.begin(), allowed.end(), board_.species) == allowed.end()) return noClass;
    if (part.straight && !isStraight(board_, shop_)) return noClass;
    const Length l = ticksUp(blank.length, tick_) * tick_;
    const Length w = ticksUp(blank.width, tick_) * tick_;
    const Length flat = thicknessOver(board_, l, w, false);
    if (flat < blank.thickness) return noClass;
    const Length bent = thicknessOver(board_, l, w, true);
    const bool clearOfKink = bent < blank.thickness;
    const bool edgesInside = blank.across > 1;
    const Asking asked{&demandNamed(shop_, part.faceA, part),
                       &demandNamed(shop_, part.faceB, part),
                       &demandNamed(shop_, part.edges[0], part),
                       &demandNamed(shop_, part.edges[1], part),
                       clearOfKink,
                       blank.showing,
                       edgesInside,
                       deepestOut(planedOff(blank, std::max(bent, blank.thickness), shop_)),
                       offShow};
    bool lies = false;
    for (int o = 0; o < orientations; ++o) lies = lies || seen(asked, o);
    if (!lies) return noClass;
    const auto at = std::find(asked_.begin(), asked_.end(), asked);
    if (at != asked_.end()) return static_cast<int>(at - asked_.begin());
    if (asked_.size() == 63) {
      throw Refusal("too-many-demands",
                    Complaint{part.name,
                              "the job's parts ask for more than 63 different things of one board; "
                              "split the job in two",
                              "", ""});
    }
    asked_.push_back(asked);
    return static_cast<int>(asked_.size()) - 1;
  }

  /// Of the board's marks, so that blanks which lose the same marks are of one class.
  [[nodiscard]] Length deepestOut(Length off) const {
    Length deepest;
    for (const Defect& d : board_.defects)
      if (planesOut(d, off)) deepest = std::max(deepest, *d.depth);
    return deepest;
  }

  [[nodiscard]] bool looked(Face face) const {
    return board_.looked[static_cast<std::size_t>(face)] != Looked::no || trustUnseen_;
  }
  /// All that a face of the board must be.
  [[nodiscard]] static std::vector<const Demand*> onFace(const Asking& asked, Face face,
                                                         int orientation) {
    const bool up = face == faceUp(orientation);
    switch (asked.showing) {
      case Showing::faces: return {up ? asked.faceA : asked.faceB};
      case Showing::sawnToo: return {asked.faceA, asked.faceB};
      case Showing::sawnFaces: return {asked.faceA, asked.faceB, up ? asked.front : asked.back};
    }
    return {};
  }
  template <class Holds>
  [[nodiscard]] static bool allOn(const Asking& asked, Face face, int orientation, Holds holds) {
    const std::vector<const Demand*> all = onFace(asked, face, orientation);
    return std::all_of(all.begin(), all.end(), [&](const Demand* d) { return holds(*d); });
  }
  [[nodiscard]] bool seen(const Asking& asked, int orientation) const {
    const auto unseen = [](const Demand& demand) { return demand.unseen; };
    return (looked(Face::a) || allOn(asked, Face::a, orientation, unseen)) &&
           (looked(Face::b) || allOn(asked, Face::b, orientation, unseen));
  }
  /// A mark bars a class by its faces where it shows on this one; not one that planes out.
  [[nodiscard]] static bool barsOn(const Asking& asked, const Defect& d, Face face,
                                   int orientation) {
    const auto allowed = [&](const Demand& demand) { return allows(demand, d); };
    return showsOn(d.face, face) && !planesOut(d, asked.planesOut) &&
           !allOn(asked, face, orientation, allowed);
  }
  /// It bars one by wood that is sawn open.
  [[nodiscard]] static bool barsInside(const Asking& asked, const Defect& d) {
    if (planesOut(d, asked.planesOut)) return false;
    const auto allowed = [&](const Demand& demand) { return allows(demand, d); };
    const bool open = asked.showing != Showing::faces;
    if (open && (!allowed(*asked.faceA) || !allowed(*asked.faceB))) return true;
    return asked.edgesInside && (!allowed(*asked.front) || !allowed(*asked.back));
  }

  /// Classes for which `holds`, as a set.
  template <class Holds>
  [[nodiscard]] ClassSet classesWhere(Holds holds) const {
    ClassSet set = 0;
    for (std::size_t c = 0; c < asked_.size(); ++c) {
      if (holds(asked_[c])) set |= ClassSet{1} << c;
    }
    return set;
  }

  /// Outward to whole cells, in cells of the usable wood.
  [[nodiscard]] optimizer::Rect outward(const Rect& r) const {
    const Tick x0 = ticksDown(r.x, tick_);
    const Tick y0 = ticksDown(r.y, tick_);
    return {x0 - wood_.origin.x, y0 - wood_.origin.y, ticksUp(r.right(), tick_) - x0,
            ticksUp(r.top(), tick_) - y0};
  }
  [[nodiscard]] optimizer::Rect whole() const { return {0, 0, wood_.origin.dx, wood_.origin.dy}; }

  /// Marks wholly beside the usable wood are dropped; an edge line may still touch one's side.
  [[nodiscard]] bool touchesWood(const optimizer::Rect& r) const {
    return r.x < wood_.origin.dx && r.x + r.dx > 0 && r.y <= wood_.origin.dy && r.y + r.dy >= 0;
  }
  void add(int orientation, const Zone& zone) {
    if ((zone.barred | zone.nearEdge | zone.farEdge) == 0 || !touchesWood(zone.where)) return;
    out_.zones[static_cast<std::size_t>(orientation)].push_back(zone);
  }

  [[nodiscard]] optimizer::Rect grown(const Rect& r) const {
    const Length m = shop_.markMargin;
    return outward({r.x - m, r.y - m, r.dx + 2 * m, r.dy + 2 * m});
  }

  void addMark(const Defect& d) {
    const optimizer::Rect bare = outward(wholeOf(d));
    const ClassSet offcut = barsOffcut(d.kind) ? ClassSet{1} << out_.offcutClass : 0;
    for (int o = 0; o < orientations; ++o) {
      // One place for both faces and the wood between, unless the mark goes through aslant.
      const ClassSet inside =
          classesWhere([&](const Asking& asked) { return barsInside(asked, d); });
      std::array<ClassSet, 2> on{};
      for (const Face face : {Face::a, Face::b}) {
        on[static_cast<std::size_t>(face)] =
            classesWhere([&](const Asking& asked) { return barsOn(asked, d, face, o); });
      }
      if (d.onB) {
        add(o, {grown(planedPlaceOn(d, Face::a)), on[0], 0, 0});
        add(o, {grown(planedPlaceOn(d, Face::b)), on[1], 0, 0});
        add(o, {grown(wholeOf(d)), inside, 0, 0});
      } else {
        add(o, {grown(d.where), on[0] | on[1] | inside, 0, 0});
      }
      const auto edge = [&](const Demand* Asking::*side) {
        return classesWhere([&](const Asking& asked) {
          return asked.showing != Showing::sawnFaces && !planesOut(d, asked.planesOut) &&
                 !allows(*(asked.*side), d);
        });
      };
      const ClassSet front = edge(&Asking::front);
      const ClassSet back = edge(&Asking::back);
      add(o, {bare, offcut, frontAtFar(o) ? back : front, frontAtFar(o) ? front : back});
    }
  }

  /// Wood marked for show is barred to what leaves it to others, whichever face it lies on.
  void addShow() {
    const ClassSet set = classesWhere([](const Asking& asked) { return asked.offShow; });
    for (const Defect& d : board_.defects) {
      if (d.kind != "show") continue;
      for (int o = 0; o < orientations; ++o) add(o, {outward(d.where), set, 0, 0});
    }
  }

  /// All wood that no zone marked good on the face covers is barred to what may not leave them.
  void addGood(Face face) {
    std::vector<optimizer::Rect> good;
    bool any = false;
    for (const Defect& d : board_.defects) {
      if (d.kind != "good" || !showsOn(d.face, face)) continue;
      any = true;
      const Tick x0 = ticksUp(d.where.x, tick_) - wood_.origin.x;
      const Tick y0 = ticksUp(d.where.y, tick_) - wood_.origin.y;
      const Tick x1 = ticksDown(d.where.right(), tick_) - wood_.origin.x;
      const Tick y1 = ticksDown(d.where.top(), tick_) - wood_.origin.y;
      if (x0 < x1 && y0 < y1) good.push_back({x0, y0, x1 - x0, y1 - y0});
    }
    if (!any) return;
    for (const optimizer::Rect& r : uncovered(good)) {
      for (int o = 0; o < orientations; ++o) {
        const ClassSet set = classesWhere([&](const Asking& asked) {
          return !allOn(asked, face, o, [](const Demand& d) { return d.outsideGood; });
        });
        add(o, {r, set, 0, 0});
      }
    }
  }

  /// The usable rectangle less `covers`, as rectangles over runs of columns.
  [[nodiscard]] std::vector<optimizer::Rect> uncovered(std::vector<optimizer::Rect> covers) const {
    const Tick length = wood_.origin.dx;
    const Tick width = wood_.origin.dy;
    std::vector<Tick> xs{0, length};
    for (const optimizer::Rect& r : covers) {
      xs.push_back(std::clamp(r.x, 0, length));
      xs.push_back(std::clamp(r.x + r.dx, 0, length));
    }
    std::sort(xs.begin(), xs.end());
    xs.erase(std::unique(xs.begin(), xs.end()), xs.end());
    std::sort(covers.begin(), covers.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
    std::vector<optimizer::Rect> rest;
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
      Tick reached = 0;
      for (const optimizer::Rect& r : covers) {
        if (r.x > xs[i] || r.x + r.dx < xs[i + 1]) continue;
        if (r.y > reached) rest.push_back({xs[i], reached, xs[i + 1] - xs[i], r.y - reached});
        reached = std::max(reached, r.y + r.dy);
      }
      if (reached < width) rest.push_back({xs[i], reached, xs[i + 1] - xs[i], width - reached});
    }
    return rest;
  }

  void addUnseen() {
    if (looked(Face::a) && looked(Face::b)) return;
    for (int o = 0; o < orientations; ++o) {
      const ClassSet set = classesWhere([&](const Asking& asked) { return !seen(asked, o); });
      add(o, {whole(), set, 0, 0});
    }
  }

  /// Blanks that cannot bear the whole bow at one place keep clear of the kink's cell.
  void addKink() {
    if (!board_.warp.bentAt) return;
    const ClassSet set = classesWhere([](const Asking& asked) { return asked.clearOfKink; });
    const Tick x = ticksDown(*board_.warp.bentAt, tick_) - wood_.origin.x;
    for (int o = 0; o < orientations; ++o) add(o, {{x, 0, 1, wood_.origin.dy}, set, 0, 0});
  }

  const Board& board_;
  const UsableWood& wood_;
  const ShopProfile& shop_;
  bool trustUnseen_;
  Length tick_;
  std::vector<Asking> asked_;
  Barring out_;
};

}  // namespace

Tick ticksDown(Length length, Length tick) { return static_cast<Tick>(stepsDown(length, tick)); }

Tick ticksUp(Length length, Length tick) { return static_cast<Tick>(stepsUp(length, tick)); }

UsableWood usableWood(const Board& board, const ShopProfile& shop, Length tick) {
  const std::array<Outline, 2> faces{lying(board, Face::a), lying(board, Face::b)};
  const Length end = std::min(faces[0].length(), faces[1].length());
  const Tick left = ticksUp(board.sawnEnd[0] ? Length() : shop.endTrim, tick);
  const Tick right = ticksDown(end - (board.sawnEnd[1] ? Length() : shop.endTrim), tick);
  const Length edge = edgeTaken(board, shop);
  UsableWood wood;
  std::vector<Tick>& low = wood.profile.low;
  std::vector<Tick>& high = wood.profile.high;
  for (Tick x = left; x < right; ++x) {
    Tick from = 0;
    Tick to = 0;
    for (std::size_t f = 0; f < 2; ++f) {
      const Outline::Span span = faces[f].clearSpan(x * tick, (x + 1) * tick);
      const Tick near = ticksUp(span.near + edge, tick);
      const Tick far = ticksDown(span.far, tick);
      from = f == 0 ? near : std::max(from, near);
      to = f == 0 ? far : std::min(to, far);
    }
    low.push_back(from);
    high.push_back(std::max(from, to));
  }
  if (low.empty()) return wood;
  const Tick lowest = *std::min_element(low.begin(), low.end());
  for (Tick& y : low) y -= lowest;
  for (Tick& y : high) y -= lowest;
  wood.origin = {left, lowest, right - left, wood.profile.width()};
  return wood;
}

Barring barring(const Board& board, const UsableWood& wood, const std::vector<const Part*>& parts,
                const std::vector<Blank>& blanks, const ShopProfile& shop, bool trustUnseen,
                Length tick, const std::vector<bool>& offShow) {
  return Framer(board, wood, shop, trustUnseen, tick).frame(parts, blanks, offShow);
}

}  // namespace flitch::planning
