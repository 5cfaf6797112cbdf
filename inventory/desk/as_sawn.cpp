#include "inventory/desk/as_sawn.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "inventory/desk/offcut.h"
#include "inventory/records/account.h"
#include "inventory/records/refusal.h"
#include "inventory/records/saw_steps.h"

namespace flitch::desk {

namespace {

/// A cut tree with its children in hand.
struct Node {
  Piece piece;
  int before = -1;     ///< index in the cutting it came from
  bool toBin = false;  ///< a short that goes to the bin
  std::vector<Node> children;
};

Node treeOf(const Cutting& cutting, std::size_t at) {
  Node node;
  node.piece = cutting.pieces[at];
  node.before = static_cast<int>(at);
  for (const std::size_t child : childrenOf(cutting, at)) {
    node.children.push_back(treeOf(cutting, child));
  }
  return node;
}

void flatten(const Node& node, int depth, Cutting& out, std::map<int, int>& moved) {
  moved[node.before] = static_cast<int>(out.pieces.size());
  out.pieces.push_back(node.piece);
  out.pieces.back().depth = depth;
  for (const Node& child : node.children) flatten(child, depth + 1, out, moved);
}

/// Preorder again; layups of blanks that are still blanks go with them.
Cutting cuttingOf(const Node& tree, const Cutting& from, BoardId board) {
  Cutting out;
  out.board = board;
  std::map<int, int> moved;
  flatten(tree, 0, out, moved);
  for (Layup layup : from.layups) {
    const auto at = moved.find(layup.piece);
    if (at == moved.end()) continue;
    layup.piece = at->second;
    const Piece& piece = out.pieces[static_cast<std::size_t>(layup.piece)];
    if (piece.kind == PieceKind::blank) out.layups.push_back(layup);
  }
  return out;
}

Node leaf(PieceKind kind, const Rect& at) {
  Node node;
  node.piece.kind = kind;
  node.piece.at = at;
  return node;
}

bool isThrown(const Node& node) {
  return node.piece.kind == PieceKind::unusable || node.piece.kind == PieceKind::kerf;
}

bool isWaste(const Node& node) { return node.piece.kind == PieceKind::offcut || isThrown(node); }

bool dividedAlongX(const Node& node) {
  return std::all_of(node.children.begin(), node.children.end(), [&](const Node& child) {
    return child.piece.at.y == node.piece.at.y && child.piece.at.dy == node.piece.at.dy;
  });
}

/// Puts what lies side by side between blanks together to one remainder; the saw's cut beside a
/// blank stays.
void mergeRemainders(Node& node) {
  std::vector<Node>& children = node.children;
  std::vector<Node> merged;
  for (std::size_t i = 0; i < children.size();) {
    if (!isWaste(children[i])) {
      mergeRemainders(children[i]);
      merged.push_back(std::move(children[i++]));
      continue;
    }
    std::size_t end = i;
    while (end < children.size() && isWaste(children[end])) ++end;
    std::size_t first = i, last = end;
    if (first > 0 && children[first].piece.kind == PieceKind::kerf) ++first;
    if (end < children.size() && last > first && children[last - 1].piece.kind == PieceKind::kerf) {
      --last;
    }
    if (first > i) merged.push_back(children[i]);
    if (first < last) {
      const Rect& a = children[first].piece.at;
      const Rect& b = children[last - 1].piece.at;
      merged.push_back(leaf(PieceKind::unusable, {a.x, a.y, b.right() - a.x, b.top() - a.y}));
    }
    if (last < end) merged.push_back(children[last]);
    i = end;
  }
  children = std::move(merged);
}

/// Makes the corner of a leaf nearest the tag end and the near edge a piece of its own.
Node& cutCorner(Node& node, const OffcutSize& size, PieceKind kind) {
  const Rect at = node.piece.at;
  const Rect along{at.x, at.y, size.length, at.dy};
  Node corner = leaf(kind, {at.x, at.y, size.length, size.width});
  const bool ripped = size.width < at.dy;
  if (ripped) {
    const Node beside =
        leaf(PieceKind::unusable, {at.x, at.y + size.width, size.length, at.dy - size.width});
    Node both = leaf(PieceKind::cut, along);
    both.children = {corner, beside};
    corner = both;
  }
  if (size.length == at.dx) {
    node = corner;
  } else {
    node.piece = Piece{};
    node.piece.at = at;
    node.children = {
        corner, leaf(PieceKind::unusable, {at.x + size.length, at.y, at.dx - size.length, at.dy})};
  }
  Node* made = size.length == at.dx ? &node : &node.children.front();
  return ripped ? made->children.front() : *made;
}

Node* blankMarked(Node& node, const std::string& mark) {
  if (node.piece.kind == PieceKind::blank && handMark(node.piece.line, node.piece.copy) == mark) {
    return &node;
  }
  for (Node& child : node.children) {
    if (Node* found = blankMarked(child, mark)) return found;
  }
  return nullptr;
}

/// The smallest remainder that holds the size.
Node* remainderFor(Node& node, const OffcutSize& size) {
  Node* best = nullptr;
  const auto smaller = [](const Node& a, const Node& b) {
    return rectangle(a.piece.at.dx, a.piece.at.dy).doubled <
           rectangle(b.piece.at.dx, b.piece.at.dy).doubled;
  };
  if (node.piece.kind == PieceKind::unusable && node.piece.at.dx >= size.length &&
      node.piece.at.dy >= size.width) {
    best = &node;
  }
  for (Node& child : node.children) {
    Node* found = remainderFor(child, size);
    if (found != nullptr && (best == nullptr || smaller(*found, *best))) best = found;
  }
  return best;
}

void shorten(Node& tree, const CutShort& cut, const ShopProfile& shop, Unit unit) {
  Node* blank = blankMarked(tree, cut.mark);
  if (blank == nullptr) {
    throw Refusal("no-such-blank", Complaint{"", "This board gives no blank " + cut.mark, cut.mark,
                                             "the hand mark of one of its blanks"});
  }
  const Rect at = blank->piece.at;
  if (cut.length <= Length() || cut.length >= at.dx) {
    throw Refusal("not-short", Complaint{"",
                                         cut.mark + " is " + lengthText(at.dx, unit) +
                                             " long as planned; cut short it is less",
                                         lengthText(cut.length, unit), "less than its length"});
  }
  const bool kept = cut.length >= shop.keepLength && at.dy >= shop.keepWidth;
  const int before = blank->before;
  cutCorner(*blank, {cut.length, at.dy}, kept ? PieceKind::offcut : PieceKind::unusable);
  blank->before = before;
}

/// Puts together again what cuts not made would have parted.
class Stopping {
 public:
  Stopping(const std::vector<SawStep>& steps, int last, const CuttingCase& at) : at_(at) {
    bool made = true;
    for (const SawStep& step : steps) {
      if (step.kind != SawStep::Kind::remainder) (made ? made_ : missing_).push_back(step);
      // One line along the edge of all lengths: its place is told of the first alone.
      const bool shared = step.kind == SawStep::Kind::reference && step.section == 0;
      if (shared && !made) edgeMissing_ = true;
      if (step.number == last) made = false;
    }
  }

  void join(Node& node) {
    std::vector<Node>& children = node.children;
    if (children.size() == 1 && !children.front().children.empty()) {
      join(children.front());  // it fills the node: the cuts are its own
      return;
    }
    const bool along = dividedAlongX(node);
    std::vector<bool> hangs(children.size(), false), withNext(children.size(), false);
    for (const SawStep& step : missing_) {
      if (!parts(step, node, along)) continue;
      const auto touches = [&](const Node& child) {
        return from(child.piece.at, along) <= to(step.at, along) &&
               to(child.piece.at, along) >= from(step.at, along);
      };
      for (std::size_t c = 0; c < children.size(); ++c) {
        if (!touches(children[c])) continue;
        hangs[c] = true;
        if (c > 0 && hangs[c - 1] && touches(children[c - 1])) withNext[c - 1] = true;
      }
    }
    if (edgeMissing_ && !along) {
      for (std::size_t c = 0; c + 1 < children.size() && isThrown(children[c]); ++c) {
        hangs[c] = hangs[c + 1] = withNext[c] = true;
      }
    }
    // What is thrown at the tag end hangs on the trim there.
    if (along && children.size() > 1 && children[0].piece.kind == PieceKind::endTrim && hangs[1]) {
      hangs[0] = withNext[0] = hangs[0] || isThrown(children[1]);
    }
    std::vector<Node> joined;
    for (std::size_t c = 0; c < children.size(); ++c) {
      if (!hangs[c]) {
        join(children[c]);
        joined.push_back(std::move(children[c]));
        continue;
      }
      const std::size_t first = c;
      while (withNext[c]) ++c;
      const Rect& a = children[first].piece.at;
      const Rect& b = children[c].piece.at;
      addWhole(joined, node, {a.x, a.y, b.right() - a.x, b.top() - a.y}, along);
    }
    children = std::move(joined);
  }

 private:
  static Length from(const Rect& r, bool along) { return along ? r.x : r.y; }
  static Length to(const Rect& r, bool along) { return along ? r.right() : r.top(); }

  /// A cut of this node's own direction that meets it and is not one of a piece within.
  static bool parts(const SawStep& step, const Node& node, bool along) {
    const bool rip = step.kind == SawStep::Kind::rip || step.kind == SawStep::Kind::reference;
    const Rect& at = node.piece.at;
    if (rip == along || from(step.at, !along) >= to(at, !along) ||
        to(step.at, !along) <= from(at, !along) || from(step.at, along) > to(at, along) ||
        to(step.at, along) < from(at, along)) {
      return false;
    }
    return std::none_of(node.children.begin(), node.children.end(), [&](const Node& child) {
      return !child.children.empty() && contains(child.piece.at, step.at);
    });
  }

  /// One piece, less the saw's cut where one beside it was made.
  void addWhole(std::vector<Node>& row, const Node& node, const Rect& all, bool along) const {
    Length begin = from(all, along), end = to(all, along);
    for (const SawStep& step : made_) {
      if (!parts(step, node, along)) continue;
      if (from(step.at, along) <= begin) begin = std::max(begin, to(step.at, along));
      if (to(step.at, along) >= end) end = std::min(end, from(step.at, along));
    }
    const auto slice = [&](Length a, Length b) {
      return along ? Rect{a, all.y, b - a, all.dy} : Rect{all.x, a, all.dx, b - a};
    };
    const auto add = [&](PieceKind kind, const Rect& at) {
      if (at.dx > Length() && at.dy > Length()) row.push_back(leaf(kind, at));
    };
    const Rect whole = slice(begin, end);
    const ShopProfile& shop = at_.request.shop;
    const Rect core = offcutCore(at_.board, shop, at_.tick, whole);
    const bool kept = core.dx >= shop.keepLength && core.dy >= shop.keepWidth;
    add(PieceKind::kerf, slice(from(all, along), begin));
    add(kept ? PieceKind::offcut : PieceKind::unusable, whole);
    add(PieceKind::kerf, slice(end, to(all, along)));
  }

  const CuttingCase& at_;
  std::vector<SawStep> made_, missing_;
  bool edgeMissing_ = false;
};

/// True for an offcut with a tag that `holds` says of its place.
template <class Holds>
bool offcutWhere(const Node& node, Holds holds) {
  const bool offcut = node.piece.kind == PieceKind::offcut && !node.toBin;
  return (offcut && holds(node.piece.at)) ||
         std::any_of(node.children.begin(), node.children.end(),
                     [&](const Node& child) { return offcutWhere(child, holds); });
}

/// Gives what lies at the tag end its end trim back, as a leaf of its own before it: until the last
/// cut at that end is made, the two are one. `grown`: of what takes the trim in as its own.
void takeInTrim(Node& node, Length from, PieceKind grown) {
  Rect& at = node.piece.at;
  const Length body = at.x;
  const Rect trim{from, at.y, at.x - from, at.dy};
  const Rect whole{from, at.y, at.dx + trim.dx, at.dy};
  const bool onlyLeaf = node.children.size() == 1 && node.children.front().children.empty();
  if (isThrown(node) || (node.piece.kind == grown && !node.toBin)) {
    at = whole;
  } else if (node.children.empty()) {
    Node both = leaf(PieceKind::cut, whole);
    both.children = {leaf(PieceKind::endTrim, trim), std::move(node)};
    node = std::move(both);
  } else {
    at = whole;
    const bool along = node.children.size() > 1 && dividedAlongX(node);
    if (along && grown == PieceKind::offcut &&
        offcutWhere(node.children.front(), [&](const Rect& r) { return r.x == body; })) {
      takeInTrim(node.children.front(), from, grown);
    } else if (onlyLeaf || along) {
      node.children.insert(node.children.begin(), leaf(PieceKind::endTrim, trim));
    } else {
      for (Node& child : node.children) takeInTrim(child, from, grown);
    }
  }
}

/// Takes the end trim at the tag off the tree; false where there is none.
bool tookTrimOff(Node& tree) {
  const Piece& first = tree.children.front().piece;
  if (first.kind != PieceKind::endTrim || first.at.x != tree.piece.at.x) return false;
  tree.children.erase(tree.children.begin());
  return true;
}

/// The offcuts that border the end trim at the tag keep it.
void leaveTagOn(Node& tree, const CuttingCase& at) {
  const Length end = tree.piece.at.x;
  if (tookTrimOff(tree)) takeInTrim(tree.children.front(), end, PieceKind::offcut);
  if (offcutWhere(tree, [&](const Rect& r) { return holdsTagEnd(at.board, r); })) return;
  throw Refusal(
      "no-tag-end",
      Complaint{"", "No offcut of this board holds half of its tag end: the tag stays on none",
                at.board.tagText(),
                "an offcut at the tag end, or `keep 14 x 4` for what was kept"});
}

/// Blanks and offcuts.
int productsOf(const Node& node) {
  const bool product = node.piece.kind == PieceKind::blank || node.piece.kind == PieceKind::offcut;
  return std::accumulate(node.children.begin(), node.children.end(), product ? 1 : 0,
                         [](int sum, const Node& child) { return sum + productsOf(child); });
}

bool givesBlank(const Node& node) {
  return node.piece.kind == PieceKind::blank ||
         std::any_of(node.children.begin(), node.children.end(), givesBlank);
}

void stopAfter(Node& tree, int last, const CuttingCase& at) {
  const std::vector<SawStep> steps =
      sawSteps(at.cutting, at.board, at.request.job, at.request.shop);
  int cuts = 0;
  for (const SawStep& step : steps) cuts = std::max(cuts, step.number);
  const std::string asked = std::to_string(last);
  if (last < 1 || last >= cuts) {
    throw Refusal("no-such-cut",
                  Complaint{"",
                            "Stopping after cut " + asked +
                                " leaves nothing to stop: the sheet of "
                                "this board has " +
                                std::to_string(cuts) + (cuts == 1 ? " cut" : " cuts"),
                            asked,
                            cuts < 2 ? "the board as planned, or not sawn"
                                     : "the number of a cut, 1 to " + std::to_string(cuts - 1)});
  }
  Stopping stopping(steps, last, at);
  if (tookTrimOff(tree)) {
    takeInTrim(tree.children.front(), tree.piece.at.x, PieceKind::unusable);
  }
  for (Node& child : tree.children) {
    if (child.piece.kind == PieceKind::cut) stopping.join(child);
  }
  if (!givesBlank(tree) && productsOf(tree) < 2) {
    throw Refusal(
        "nothing-sawn",
        Complaint{"", "After cut " + asked + " nothing to keep is off this board yet", asked,
                  "a later cut; or mark what was found before sawing, and plan again"});
  }
}

/// Refits a node to a rectangle that may differ from its own: pieces stay where they are, waste at
/// the ends of each row gives way or fills up.
class Refitting {
 public:
  Refitting(const std::string& name, Unit unit) : name_(name), unit_(unit) {}

  void fit(Node& node, const Rect& at) {
    const bool alongX = dividedAlongX(node);
    const bool leafNow = node.children.empty();
    const bool product = node.piece.kind == PieceKind::blank;
    if (product && !(node.piece.at == at)) refuse(node.piece);
    node.piece.at = at;
    if (leafNow) return;
    std::vector<Node> row;
    Length reached = alongX ? at.x : at.y;
    const Length end = alongX ? at.right() : at.top();
    for (Node& child : node.children) {
      const Rect was = child.piece.at;
      const Length from = alongX ? was.x : was.y;
      const Length to = alongX ? was.right() : was.top();
      if (isWaste(child)) {
        const Length until = &child == &node.children.back() ? end : to;
        reached = add(row, child, reached, until, at, alongX);
        continue;
      }
      if (from < reached || to > end) refuse(child.piece);
      if (from > reached) {
        Node filler = leaf(PieceKind::unusable, {});
        reached = add(row, filler, reached, from, at, alongX);
      }
      reached = add(row, child, from, to, at, alongX);
    }
    if (reached < end) {
      Node filler = leaf(PieceKind::unusable, {});
      add(row, filler, reached, end, at, alongX);
    }
    node.children = std::move(row);
  }

 private:
  [[noreturn]] void refuse(const Piece& piece) const {
    const std::string what =
        piece.kind == PieceKind::blank ? handMark(piece.line, piece.copy) : "what was sawn";
    throw Refusal("too-small",
                  Complaint{"",
                            name_ + " does not hold " + what + ", which reaches to " +
                                lengthText(piece.at.right(), unit_) + " from the tag end",
                            name_, "a board as long and as wide"});
  }

  Length add(std::vector<Node>& row, Node& child, Length from, Length to, const Rect& at,
             bool alongX) {
    if (to <= from) return from;
    const Rect now =
        alongX ? Rect{from, at.y, to - from, at.dy} : Rect{at.x, from, at.dx, to - from};
    if (child.piece.kind == PieceKind::kerf) {
      const Rect& was = child.piece.at;
      const Length kerf = alongX ? was.dx : was.dy;
      if (to - from > kerf) child.piece.kind = PieceKind::unusable;
    }
    fit(child, now);
    row.push_back(std::move(child));
    return to;
  }

  const std::string& name_;
  Unit unit_;
};

void dropSmallOffcuts(Node& node, const ShopProfile& shop) {
  if (node.piece.kind == PieceKind::offcut &&
      (node.piece.at.dx < shop.keepLength || node.piece.at.dy < shop.keepWidth)) {
    node.piece.kind = PieceKind::unusable;
  }
  for (Node& child : node.children) dropSmallOffcuts(child, shop);
}

std::string sizeText(const OffcutSize& size, Unit unit) {
  return lengthText(size.length, unit) + " x " + lengthText(size.width, unit);
}

std::vector<OffcutSize> largestFirst(std::vector<OffcutSize> sizes) {
  std::stable_sort(sizes.begin(), sizes.end(), [](const OffcutSize& a, const OffcutSize& b) {
    return rectangle(a.length, a.width).doubled > rectangle(b.length, b.width).doubled;
  });
  return sizes;
}

/// The smallest remainder that holds the size gives it.
Node& keep(Node& tree, const OffcutSize& size, Unit unit) {
  Node* at = remainderFor(tree, size);
  if (at == nullptr) {
    const std::string text = sizeText(size, unit);
    throw Refusal("no-room", Complaint{"", "No offcut of " + text + " is left beside the blanks",
                                       text, "what lies inside one remainder of the cut sheet"});
  }
  return cutCorner(*at, size, PieceKind::offcut);
}

/// Every clear remainder worth a bin and too small for a tag.
void keepShorts(Node& node, const CuttingCase& at) {
  const ShopProfile& shop = at.request.shop;
  if (node.piece.kind == PieceKind::unusable &&
      isClear(at.board, shop, at.tick, node.piece.at, shop.shortLength, shop.shortWidth) &&
      !isOffcut(at.board, shop, at.tick, node.piece.at)) {
    node.piece.kind = PieceKind::offcut;
    node.toBin = true;
  }
  for (Node& child : node.children) keepShorts(child, at);
}

/// Places in preorder of the pieces that go to the bin.
void listShorts(const Node& node, std::size_t& place, std::set<int>& shorts) {
  if (node.toBin) shorts.insert(static_cast<int>(place));
  ++place;
  for (const Node& child : node.children) listShorts(child, place, shorts);
}

/// Faults that no eye can overrule once the wood is sawn.
bool cannotBe(FaultKind kind) {
  return kind == FaultKind::outsideOutline || kind == FaultKind::tooThin ||
         kind == FaultKind::wrongSpecies || kind == FaultKind::wrongSize;
}

}  // namespace

AsSawn asSawn(const Deviation& deviation, const CuttingCase& at) {
  const ShopProfile& shop = at.request.shop;
  const Unit unit = at.request.unit;
  Node tree = treeOf(at.cutting, 0);
  if (deviation.stoppedAfter) stopAfter(tree, *deviation.stoppedAfter, at);
  if (deviation.offcuts || !deviation.shorts.empty()) {
    if (deviation.offcuts) {
      mergeRemainders(tree);
      for (const OffcutSize& size : largestFirst(*deviation.offcuts)) keep(tree, size, unit);
    }
    for (const OffcutSize& size : largestFirst(deviation.shorts)) {
      if (size.length >= shop.keepLength && size.width >= shop.keepWidth) {
        const std::string text = sizeText(size, unit);
        throw Refusal("no-short", Complaint{"", "A piece of " + text + " is large enough for a tag",
                                            text, "keep " + text});
      }
      keep(tree, size, unit).toBin = true;
    }
  }
  if (deviation.tagStays) leaveTagOn(tree, at);
  for (const CutShort& cut : deviation.cutShort) shorten(tree, cut, shop, unit);
  if (deviation.allShorts) keepShorts(tree, at);
  AsSawn sawn;
  sawn.cutting = cuttingOf(tree, at.cutting, at.cutting.board);
  std::size_t place = 0;
  listShorts(tree, place, sawn.shorts);
  return sawn;
}

Cutting onBoard(const Cutting& planned, const Board& board, const PlanRequest& request,
                Length tick) {
  const ShopProfile& shop = request.shop;
  const std::string name = board.tag ? text(*board.tag) : "The board";
  Node tree = treeOf(planned, 0);
  const auto body = std::find_if(tree.children.begin(), tree.children.end(), [](const Node& node) {
    return node.piece.kind == PieceKind::cut;
  });
  const Rect whole = boundsOf(board);
  const Length left = board.sawnEnd[0] ? Length() : std::max(shop.endTrim, body->piece.at.x);
  const Length right = board.sawnEnd[1] ? Length() : shop.endTrim;
  Node sawn = std::move(*body);
  Refitting(name, request.unit)
      .fit(sawn, {whole.x + left, whole.y, whole.dx - left - right, whole.dy});
  dropSmallOffcuts(sawn, shop);
  Node root = leaf(PieceKind::cut, whole);
  if (left > Length())
    root.children.push_back(leaf(PieceKind::endTrim, {whole.x, whole.y, left, whole.dy}));
  root.children.push_back(std::move(sawn));
  if (right > Length()) {
    root.children.push_back(
        leaf(PieceKind::endTrim, {whole.right() - right, whole.y, right, whole.dy}));
  }
  Cutting out = cuttingOf(root, planned, board.id);
  for (const Fault& fault : faultsOf({out, board, request, tick})) {
    if (cannotBe(fault.kind)) {
      throw Refusal("too-small",
                    Complaint{"", name + " cannot have given these blanks: " + fault.sentence, name,
                              "the board that was really sawn"});
    }
  }
  return out;
}

Length freshEnd(const Cutting& cutting) {
  const auto body = std::find_if(cutting.pieces.begin(), cutting.pieces.end(), [](const Piece& p) {
    return p.depth == 1 && p.kind == PieceKind::cut;
  });
  const auto at = static_cast<std::size_t>(body - cutting.pieces.begin());
  Length crosscut;
  for (const std::size_t child : childrenOf(cutting, at)) {
    const Piece& piece = cutting.pieces[child];
    if (piece.at.dy != body->at.dy) return body->at.right();  // ripped first
    const bool kept = piece.kind == PieceKind::cut || piece.kind == PieceKind::blank ||
                      piece.kind == PieceKind::offcut;
    if (kept) crosscut = std::max(crosscut, piece.at.right());
  }
  return crosscut > Length() ? crosscut : body->at.right();
}

std::vector<exchange::MarkLine> fromTagEnd(std::vector<exchange::MarkLine> marks,
                                           const Cutting& cutting, Unit unit) {
  const Length fresh = freshEnd(cutting);
  for (exchange::MarkLine& mark : marks) {
    if (mark.xFrom >= fresh) {
      const std::string at = lengthText(mark.xFrom, unit);
      throw Refusal("off-the-board",
                    Complaint{"", "A mark at " + at + " from the fresh end lies past the tag end",
                              at, "at most " + lengthText(fresh, unit)});
    }
    const Length far = fresh - mark.xFrom;
    mark.xFrom = mark.xTo ? std::max(Length(), fresh - *mark.xTo) : Length();
    mark.xTo = far;
  }
  return marks;
}

std::vector<std::string> barredBy(const std::vector<Defect>& found, const CuttingCase& at) {
  const auto onMarks = [&](const Board& board) {
    std::set<int> pieces;
    for (const Fault& fault : faultsOf({at.cutting, board, at.request, at.tick})) {
      if (fault.kind == FaultKind::onMark && fault.piece >= 0) pieces.insert(fault.piece);
    }
    return pieces;
  };
  Board marked = at.board;
  marked.defects.insert(marked.defects.end(), found.begin(), found.end());
  const std::set<int> before = onMarks(at.board);
  std::set<std::pair<int, int>> blanks;
  for (const int piece : onMarks(marked)) {
    const Piece& blank = at.cutting.pieces[static_cast<std::size_t>(piece)];
    if (!before.contains(piece)) blanks.emplace(blank.line, blank.copy);
  }
  std::vector<std::string> marks;
  for (const auto& [line, copy] : blanks) marks.push_back(handMark(line, copy));
  return marks;
}

}  // namespace flitch::desk
