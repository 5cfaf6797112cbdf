#include <algorithm>
#include <array>
#include <optional>

#include "inventory/records/cutting_check.h"

namespace flitch {

namespace {

enum class Along { x, y };

Along across(Along along) { return along == Along::x ? Along::y : Along::x; }
Length start(const Rect& r, Along along) { return along == Along::x ? r.x : r.y; }
Length end(const Rect& r, Along along) { return along == Along::x ? r.right() : r.top(); }

/// A piece that is sawn out, unlike waste and kerf.
bool kept(PieceKind kind) {
  return kind == PieceKind::cut || kind == PieceKind::blank || kind == PieceKind::offcut;
}

class TreeJudge {
 public:
  TreeJudge(const CuttingCase& at, std::vector<Fault>& faults)
      : at_(at), pieces_(at.cutting.pieces), faults_(faults) {}

  void judge() {
    if (!shaped()) return;
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      if (pieces_[i].kind == PieceKind::cut) judgeDivision(i);
    }
    judgeEnds();
  }

 private:
  void fault(FaultKind kind, std::size_t piece, std::string sentence) {
    faults_.push_back({kind, at_.board.id, static_cast<int>(piece), std::move(sentence)});
  }

  /// Depths, kinds and sizes by which the rest can walk the tree at all.
  bool shaped() {
    const std::size_t before = faults_.size();
    if (pieces_.empty() || pieces_[0].depth != 0 || pieces_[0].kind != PieceKind::cut) {
      fault(FaultKind::badTree, 0, "the tree has no root that is cut");
      return false;
    }
    if (!(pieces_[0].at == boundsOf(at_.board))) {
      fault(FaultKind::badTree, 0, "the root is not the board's bounds");
    }
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
      const Piece& p = pieces_[i];
      const bool deeper = i + 1 < pieces_.size() && pieces_[i + 1].depth > p.depth;
      if (i > 0 && (p.depth < 1 || p.depth > pieces_[i - 1].depth + 1)) {
        fault(FaultKind::badTree, i, "the depth jumps");
      }
      if (deeper != (p.kind == PieceKind::cut)) {
        fault(FaultKind::badTree, i, deeper ? "a leaf has children" : "a cut has no children");
      }
      if (p.at.dx <= Length() || p.at.dy <= Length()) {
        fault(FaultKind::badTree, i, "a piece has no size");
      }
      const bool product = p.kind == PieceKind::blank || p.kind == PieceKind::offcut;
      if (product && p.depth < 2) fault(FaultKind::badTree, i, "a blank or offcut above the body");
      if (p.kind == PieceKind::endTrim && p.depth != 1) {
        fault(FaultKind::badTree, i, "end trim that is not at an end");
      }
      if (p.depth > 4) fault(FaultKind::tooManyStages, i, "more than three stages of cutting");
    }
    return faults_.size() == before;
  }

  /// Along which its children divide a node; none when a single child fills it.
  std::optional<Along> divisionOf(const Rect& whole, const std::vector<std::size_t>& children,
                                  bool& guillotine) const {
    bool alongX = true;
    bool alongY = true;
    for (const std::size_t c : children) {
      const Rect& r = pieces_[c].at;
      alongX = alongX && r.y == whole.y && r.dy == whole.dy;
      alongY = alongY && r.x == whole.x && r.dx == whole.dx;
    }
    guillotine = alongX || alongY;
    if (alongX == alongY) return std::nullopt;
    return alongX ? Along::x : Along::y;
  }

  void judgeDivision(std::size_t node) {
    const std::vector<std::size_t> children = childrenOf(at_.cutting, node);
    const Rect& whole = pieces_[node].at;
    bool guillotine = true;
    const std::optional<Along> along = divisionOf(whole, children, guillotine);
    if (!guillotine) {
      fault(FaultKind::notGuillotine, node, "its pieces cannot be parted by straight cuts");
      return;
    }
    if (!along) {
      if (children.size() > 1) fault(FaultKind::overlap, node, "its pieces lie upon each other");
      return;
    }
    judgeTurn(node, *along);
    Length reached = start(whole, *along);
    for (const std::size_t c : children) {
      const Length from = start(pieces_[c].at, *along);
      if (from > reached) fault(FaultKind::gap, c, "wood before it belongs to no piece");
      if (from < reached) fault(FaultKind::overlap, c, "it reaches into the piece before it");
      reached = end(pieces_[c].at, *along);
    }
    if (reached < end(whole, *along)) {
      fault(FaultKind::gap, node, "wood at its end belongs to no piece");
    }
    if (reached > end(whole, *along)) {
      fault(FaultKind::overlap, node, "a piece reaches over its end");
    }
    if (node == 0) return;
    judgeKerfs(children, *along);
    for (const std::size_t c : children) {
      if (kept(pieces_[c].kind)) judgeGrid(c, *along);
    }
  }

  /// Ends off the root along x, then directions in turn.
  void judgeTurn(std::size_t node, Along along) {
    const int depth = pieces_[node].depth;
    if (depth == 0) {
      if (along != Along::x)
        fault(FaultKind::badTree, node, "the board's ends are not trimmed off");
      return;
    }
    const Along first = depth == 2 ? across(along) : along;
    if (!first_) first_ = first;
    if (*first_ != first) fault(FaultKind::badTree, node, "stages do not turn in turn");
  }

  void judgeKerfs(const std::vector<std::size_t>& children, Along along) {
    const ShopProfile& shop = at_.request.shop;
    const Length kerf = along == Along::x ? shop.crosscutKerf : shop.ripKerf;
    if (kerf == Length()) return;
    const Piece* before = nullptr;  // the last that is more than dust
    Length dust;                    // of the kerf leaves since
    for (const std::size_t c : children) {
      const Piece& p = pieces_[c];
      const Length wide = end(p.at, along) - start(p.at, along);
      if (p.kind == PieceKind::kerf) {
        dust += wide;
        // Two passes may leave their kerfs side by side, or one over the other.
        if (wide > kerf || dust > 2 * kerf) {
          fault(FaultKind::badTree, c, "more dust than the saw makes");
        }
        continue;
      }
      const bool sawn = before != nullptr && (kept(before->kind) || kept(p.kind));
      if (sawn && dust < kerf) {
        fault(FaultKind::missedKerf, c, "less than the kerf between it and what lies before it");
      }
      before = &p;
      dust = Length();
    }
  }

  void judgeGrid(std::size_t piece, Along along) {
    // At zero an offcut is what other cuts leave: none is made for it, on the grid or off.
    if (pieces_[piece].kind == PieceKind::offcut && at_.request.shop.offcutsAtZero) return;
    const Rect& r = pieces_[piece].at;
    const auto off = [&](Length x) { return x.nm() % at_.tick.nm() != 0; };
    if (off(start(r, along)) || off(end(r, along))) {
      fault(FaultKind::offGrid, piece, "it does not begin and end on whole grid steps");
    }
  }

  void judgeEnds() {
    const std::vector<std::size_t> children = childrenOf(at_.cutting, 0);
    const auto isTrim = [&](std::size_t c) { return pieces_[c].kind == PieceKind::endTrim; };
    const std::size_t bodies = static_cast<std::size_t>(
        std::count_if(children.begin(), children.end(),
                      [&](std::size_t c) { return pieces_[c].kind == PieceKind::cut; }));
    const bool trimAtTag = isTrim(children.front());
    const bool trimAtFar = isTrim(children.back());
    const std::size_t expected = 1 + std::size_t{trimAtTag} + std::size_t{trimAtFar};
    if (bodies != 1 || children.size() != expected) {
      fault(FaultKind::badTree, 0, "between the end trims lies more than the body");
      return;
    }
    judgeEnd(children.front(), trimAtTag, at_.board.sawnEnd[0]);
    judgeEnd(children.back(), trimAtFar, at_.board.sawnEnd[1]);
  }

  void judgeEnd(std::size_t piece, bool trimmed, bool sawn) {
    const Length trim = at_.request.shop.endTrim;
    const bool needed = !sawn && trim > Length();
    if (trimmed != needed) {
      fault(FaultKind::endTrimMissing, piece,
            needed ? "an end as bought is not trimmed" : "an end that needs no trim is trimmed");
      return;
    }
    if (trimmed && pieces_[piece].at.dx < trim) {
      fault(FaultKind::endTrimMissing, piece, "less than the shop's end trim");
    }
    if (trimmed && pieces_[piece].at.dx >= trim + at_.tick) {
      fault(FaultKind::badTree, piece, "more than the shop's end trim and a grid step");
    }
  }

  const CuttingCase& at_;
  const std::vector<Piece>& pieces_;
  std::vector<Fault>& faults_;
  std::optional<Along> first_;  ///< how the body is divided, once known
};

}  // namespace

void checkTree(const CuttingCase& at, std::vector<Fault>& faults) { TreeJudge(at, faults).judge(); }

}  // namespace flitch
