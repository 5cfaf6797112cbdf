#include "inventory/records/saw_steps.h"

#include <algorithm>
#include <set>

namespace flitch {
namespace {

using Kind = SawStep::Kind;

/// Up to here a reference edge is jointed; more is cut off first, by sled or track saw (common
/// practice, no source).
constexpr Length mostJointed = Length::sixtyFourths(16);

/// An end that gives up to this much is squared; more is a length that the first cut throws.
constexpr Length mostSquared = Length::inches(6);

/// Walks a cut tree as a person at the saw does.
class SawWalk {
 public:
  SawWalk(const Cutting& cutting, const Board& board, const Job& job, const ShopProfile& shop)
      : cutting_(cutting),
        board_(board),
        job_(job),
        shop_(shop),
        faces_{lying(board, Face::a), lying(board, Face::b)} {}

  std::vector<SawStep> walk() {
    if (cutting_.pieces.empty()) return {};
    const int body = bodyOf();
    if (body < 0) return {};
    if (dividedAlongX(body))
      crosscutFirst(body);
    else
      ripFirst(body);
    return std::move(steps_);
  }

 private:
  /// A stick lies on the bench until all is cut from it.
  struct Stick {
    int piece = -1;  ///< node of the tree it still has to give
    int number = 0;  ///< the cut that freed it
    int section = 0;
    std::string edge;  ///< its straight edge: "edge V", "cut 4"
  };

  [[nodiscard]] const Piece& piece(int at) const {
    return cutting_.pieces[static_cast<std::size_t>(at)];
  }
  [[nodiscard]] const Rect& rect(int at) const { return piece(at).at; }

  /// True when something sawn out lies in the subtree.
  [[nodiscard]] bool gives(int at) const {
    const int depth = piece(at).depth;
    for (int i = at; i < static_cast<int>(cutting_.pieces.size()); ++i) {
      if (i > at && piece(i).depth <= depth) break;
      if (piece(i).kind == PieceKind::blank || piece(i).kind == PieceKind::offcut) return true;
    }
    return false;
  }

  /// The node itself, or the one below it when a single child fills it.
  [[nodiscard]] int core(int at) const {
    while (piece(at).kind == PieceKind::cut && !dividedAlongX(at) && !dividedAlongY(at)) ++at;
    return at;
  }

  /// Children that give something, rising along x or y; the node itself when it is a leaf.
  [[nodiscard]] std::vector<int> givers(int at) const {
    if (piece(at).kind != PieceKind::cut) return {at};
    std::vector<int> result;
    for (const std::size_t child : childrenOf(cutting_, static_cast<std::size_t>(at)))
      if (gives(static_cast<int>(child))) result.push_back(core(static_cast<int>(child)));
    return result;
  }

  [[nodiscard]] int bodyOf() const {
    for (const std::size_t child : childrenOf(cutting_, 0))
      if (cutting_.pieces[child].kind == PieceKind::cut && gives(static_cast<int>(child)))
        return core(static_cast<int>(child));
    return -1;
  }

  /// False for a leaf and for a node with a single child that fills it.
  [[nodiscard]] bool dividedAlongX(int at) const {
    const auto children = childrenOf(cutting_, static_cast<std::size_t>(at));
    return std::any_of(children.begin(), children.end(), [&](std::size_t child) {
      return cutting_.pieces[child].at.dx < rect(at).dx;
    });
  }
  [[nodiscard]] bool dividedAlongY(int at) const {
    const auto children = childrenOf(cutting_, static_cast<std::size_t>(at));
    return std::any_of(children.begin(), children.end(), [&](std::size_t child) {
      return cutting_.pieces[child].at.dy < rect(at).dy;
    });
  }

  [[nodiscard]] std::string nameOf(const Piece& blank) const {
    std::string name = handMark(blank.line, blank.copy);
    for (const Part& part : job_.parts)
      if (part.line == blank.line) name += " " + part.name;
    return name;
  }

  /// What a piece that comes free is called; `longer`: it is cut to its length later.
  [[nodiscard]] std::string fallsOf(int at, bool longer = false) const {
    const Piece& freed = piece(at);
    if (freed.kind == PieceKind::blank && !longer) return nameOf(freed);
    if (freed.kind == PieceKind::offcut && !longer) return "keep";
    std::set<std::pair<int, int>> marks;  // by line and copy, as they are looked for on the bench
    for (int i = at; i < static_cast<int>(cutting_.pieces.size()); ++i) {
      if (i > at && piece(i).depth <= freed.depth) break;
      if (piece(i).kind != PieceKind::blank) continue;
      marks.emplace(piece(i).line, piece(i).copy);
    }
    if (marks.empty()) return "strip";
    const std::string first = handMark(marks.begin()->first, marks.begin()->second);
    const std::string last = handMark(marks.rbegin()->first, marks.rbegin()->second);
    return "strip " + first + (first == last ? "" : " to " + last);
  }

  SawStep& add(Kind kind, const Stick& stick, Length measure, std::string from, std::string falls,
               const Rect& at, int freed) {
    SawStep step;
    step.kind = kind;
    step.measure = measure;
    step.from = std::move(from);
    step.falls = std::move(falls);
    step.at = at;
    step.piece = freed;
    step.stick = stick.number;
    step.section = stick.section;
    if (kind != Kind::reference && kind != Kind::remainder) step.number = ++cuts_;
    return steps_.emplace_back(std::move(step));
  }

  /// Cuts `stick`, whose free end is at `fresh` and whose wood ends at `end`, from the free end
  /// into the pieces given; returns them as sticks. `across` is its extent across.
  std::vector<Stick> crosscuts(const Stick& stick, Kind kind, const std::vector<int>& pieces,
                               Length fresh, Length end, const Rect& across) {
    std::vector<Stick> freed;
    const Length zero = board_.length();
    for (auto at = pieces.rbegin(); at != pieces.rend(); ++at) {
      const Rect& r = rect(*at);
      if (fresh > r.right()) {
        const Length kerf = std::min(shop_.crosscutKerf, fresh - r.right());
        const bool first = stick.number == 0 && cuts_ == 0;
        SawStep& off = add(first ? Kind::squareEnd : kind, stick, fresh - r.right(), "off end",
                           "waste", {r.right(), across.y, kerf, across.dy}, -1);
        if (first) {
          off.falls = thrownOf(off.measure);
          chalkZero_ = r.right();
        }
        if (kind == Kind::crosscut) off.chalk = chalkZero_ - r.right();
      } else if (stick.number == 0 && cuts_ == 0) {
        chalkZero_ = zero;
      }
      Stick next{*at, stick.number, stick.section, stick.edge};
      fresh = r.x;
      if (r.x > end) {
        const Length kerf = std::min(shop_.crosscutKerf, r.x - end);
        SawStep& cut = add(kind, stick, r.dx, "from stop", fallsOf(*at),
                           {r.x - kerf, across.y, kerf, across.dy}, *at);
        if (kind == Kind::crosscut) {
          cut.chalk = chalkZero_ - r.x;
          cut.section = static_cast<int>(freed.size()) + 1;
          if (piece(*at).kind == PieceKind::cut) cut.falls.clear();
        }
        next.number = cut.number;
        fresh = r.x - kerf;
      }
      if (kind == Kind::crosscut) next.section = static_cast<int>(freed.size()) + 1;
      freed.push_back(next);
    }
    freshEnd_ = fresh;
    return freed;
  }

  /// Rips a stick from its straight edge, at `edge`, into the strips given. `end`: top of the wood.
  std::vector<Stick> rips(const Stick& stick, const std::vector<int>& strips, Length edge,
                          Length end, const Rect& along) {
    std::vector<Stick> freed;
    std::string from = stick.edge;
    for (const int at : strips) {
      const Rect& r = rect(at);
      if (r.y > edge) {
        const Length gap = r.y - edge;
        const bool blade = gap <= shop_.ripKerf;  // all of it is dust
        const Length kerf = blade ? gap : shop_.ripKerf;
        const SawStep& waste =
            add(Kind::rip, stick, blade ? gap : gap - kerf, (blade ? "off " : "from ") + from,
                "waste", {along.x, r.y - kerf, along.dx, kerf}, -1);
        from = "cut " + std::to_string(waste.number);
      }
      Stick next{at, stick.number, stick.section, from};
      edge = r.top();
      if (r.top() < end) {
        const Length kerf = std::min(shop_.ripKerf, end - r.top());
        const bool longer = r.dx < along.dx;  // its ends are trimmed once it is off
        const SawStep& cut = add(Kind::rip, stick, r.dy, "from " + from, fallsOf(at, longer),
                                 {along.x, r.top(), along.dx, kerf}, longer ? -1 : at);
        next.number = cut.number;
        from = "cut " + std::to_string(cut.number);
        edge = r.top() + kerf;
      }
      freed.push_back(next);
    }
    return freed;
  }

  /// What the first cut of all throws; nothing worth a word when it squares the end.
  [[nodiscard]] static std::string thrownOf(Length off) { return off > mostSquared ? "waste" : ""; }

  /// The rough near edge over a stretch: its innermost point on either face.
  [[nodiscard]] Length roughEdge(Length x0, Length x1) const {
    return std::max(faces_[0].clearSpan(x0, x1).near, faces_[1].clearSpan(x0, x1).near);
  }

  /// Where the wood ends above a stretch, on the higher face.
  [[nodiscard]] Length woodTop(Length x0, Length x1) const {
    Length top = std::max(faces_[0].farAt(x0), faces_[1].farAt(x0));
    for (const Outline& face : faces_) {
      top = std::max(top, face.farAt(x1));
      for (const OutlinePoint& point : face.points())
        if (x0 < point.x && point.x < x1) top = std::max(top, point.far);
    }
    return top;
  }

  [[nodiscard]] SawStep referenceFor(const Stick& stick, Length x0, Length x1, Length edge) const {
    SawStep step;
    step.kind = Kind::reference;
    const Length rough = roughEdge(x0, x1);
    step.measure = edge - rough;
    const bool little = step.measure <= mostJointed;
    const bool longEnough = x1 - x0 >= shop_.jointerShortest;
    step.from = step.measure <= Length() ? "as sawn"
                : little && longEnough   ? "off, jointer"
                : longEnough             ? "off, track saw"
                                         : "off, sled";
    step.falls = "near edge";
    step.at = {x0, rough, x1 - x0, edge - rough};
    step.stick = stick.number;
    step.section = stick.section;
    return step;
  }

  void crosscutFirst(int body) {
    const Rect bounds = rect(0);
    const Stick whole{body, 0, 0, ""};
    const std::vector<Stick> lengths =
        crosscuts(whole, Kind::crosscut, givers(body), bounds.right(), bounds.x, bounds);
    addRemainder(whole, bounds);
    std::vector<Stick> toRip, strips;
    for (const Stick& length : lengths)
      (dividedAlongY(length.piece) ? toRip : strips).push_back(length);
    std::vector<SawStep> edges;
    for (const Stick& length : toRip) {
      const Rect& r = rect(length.piece);
      edges.push_back(referenceFor(length, r.x, r.right(), rect(givers(length.piece).front()).y));
    }
    // One line serves all lengths when it is the same for each and a rip follows on each.
    bool alike = true;
    for (std::size_t n = 0; n < toRip.size(); ++n) {
      const std::vector<int> pieces = givers(toRip[n].piece);
      const Rect& r = rect(toRip[n].piece);
      const bool ripped = pieces.size() > 1 ||
                          rect(pieces.front()).top() < std::min(r.top(), woodTop(r.x, r.right()));
      alike = alike && ripped && edges[n].measure == edges.front().measure &&
              edges[n].from == edges.front().from;
    }
    for (std::size_t n = 0; n < toRip.size(); ++n) {
      if (!alike || n == 0) {
        steps_.push_back(edges[n]);
        if (alike && toRip.size() > 1) steps_.back().stick = steps_.back().section = 0;
      }
      Stick length = toRip[n];
      length.edge = "edge V";
      const Rect& r = rect(length.piece);
      const std::vector<int> pieces = givers(length.piece);
      const std::vector<Stick> freed = rips(length, pieces, rect(pieces.front()).y,
                                            std::min(r.top(), woodTop(r.x, r.right())), r);
      strips.insert(strips.end(), freed.begin(), freed.end());
    }
    for (const Stick& strip : strips)
      if (dividedAlongX(strip.piece)) {
        const Rect& r = rect(strip.piece);
        crosscuts(strip, Kind::trimStrip, givers(strip.piece), r.right(), r.x, r);
      }
  }

  void ripFirst(int body) {
    const Rect bounds = rect(0);
    const Rect& r = rect(body);
    Stick whole{body, 0, 0, ""};
    const Rect stock{bounds.x, bounds.y, r.right() - bounds.x, bounds.dy};
    chalkZero_ = r.right();
    if (bounds.right() > r.right()) {
      const Length kerf = std::min(shop_.crosscutKerf, bounds.right() - r.right());
      const Length off = bounds.right() - r.right();
      add(Kind::squareEnd, whole, off, "off end", thrownOf(off),
          {r.right(), bounds.y, kerf, bounds.dy}, -1);
    }
    const std::vector<int> pieces = dividedAlongY(body) ? givers(body) : std::vector<int>{body};
    std::vector<Stick> strips{whole};
    if (dividedAlongY(body)) {
      const Length edge = rect(pieces.front()).y;
      steps_.push_back(referenceFor(whole, stock.x, stock.right(), edge));
      whole.edge = "edge V";
      strips = rips(whole, pieces, edge, woodTop(stock.x, stock.right()), stock);
    }
    std::vector<Stick> sections;
    for (const Stick& strip : strips) {
      const Rect& s = rect(strip.piece);
      const std::vector<int> across =
          dividedAlongX(strip.piece) ? givers(strip.piece) : std::vector<int>{strip.piece};
      // A single strip that no rip has freed is the board itself, cut into lengths.
      const bool ofBoard = strips.size() == 1 && strip.number == 0;
      const Kind kind = ofBoard ? Kind::crosscut : Kind::trimStrip;
      const std::vector<Stick> freed = crosscuts(strip, kind, across, r.right(), bounds.x, s);
      if (ofBoard) addRemainder(strip, bounds);
      sections.insert(sections.end(), freed.begin(), freed.end());
    }
    for (const Stick& section : sections)
      if (dividedAlongY(section.piece)) {
        const Rect& s = rect(section.piece);
        rips(section, givers(section.piece), s.y, s.top(), s);
      }
  }

  /// What is left at the tag once the last length is off.
  void addRemainder(const Stick& whole, const Rect& bounds) {
    if (freshEnd_ <= bounds.x) return;
    SawStep& rest = add(Kind::remainder, whole, freshEnd_ - bounds.x, "", "throw, staple and all",
                        {bounds.x, bounds.y, freshEnd_ - bounds.x, bounds.dy}, -1);
    rest.chalk = chalkZero_ - bounds.x;
  }

  const Cutting& cutting_;
  const Board& board_;
  const Job& job_;
  const ShopProfile& shop_;
  std::array<Outline, 2> faces_;
  std::vector<SawStep> steps_;
  int cuts_ = 0;
  Length chalkZero_;  ///< x of the fresh end, where chalk marks count from
  Length freshEnd_;   ///< x of the free end after the last crosscuts
};

}  // namespace

std::vector<SawStep> sawSteps(const Cutting& cutting, const Board& board, const Job& job,
                              const ShopProfile& shop) {
  return SawWalk(cutting, board, job, shop).walk();
}

}  // namespace flitch
