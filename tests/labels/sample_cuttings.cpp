#include "tests/labels/sample_cuttings.h"

#include <algorithm>

namespace flitch::test {
namespace {

std::int64_t between(std::mt19937& random, std::int64_t low, std::int64_t high) {
  return std::uniform_int_distribution<std::int64_t>(low, high)(random);
}
Length sixteenths(std::int64_t n) { return Length::sixtyFourths(4 * n); }

enum class Along { x, y };

Length start(const Rect& r, Along along) { return along == Along::x ? r.x : r.y; }
Length size(const Rect& r, Along along) { return along == Along::x ? r.dx : r.dy; }
Rect slice(const Rect& r, Along along, Length from, Length length) {
  return along == Along::x ? Rect{from, r.y, length, r.dy} : Rect{r.x, from, r.dx, length};
}

/// Writes a tree in preorder, node by node.
class TreeWriter {
 public:
  TreeWriter(std::mt19937& random, const Board& board, const ShopProfile& shop, Cutting& cutting)
      : random_(random), outline_(lying(board, Face::a)), shop_(shop), cutting_(cutting) {}

  void leaf(int depth, PieceKind kind, const Rect& at) {
    if (at.dx <= Length() || at.dy <= Length()) return;
    Piece piece;
    piece.depth = depth;
    piece.kind = kind;
    piece.at = at;
    if (kind == PieceKind::blank) {
      piece.line = static_cast<int>(between(random_, 1, 5));
      piece.copy = ++copies_[static_cast<std::size_t>(piece.line)];
    }
    cutting_.pieces.push_back(piece);
  }

  /// Divides `at` along one direction; `lead` is lost before the first piece. A third of the
  /// pieces is followed by waste.
  void divide(int depth, const Rect& at, Along along, Length lead, Length least) {
    Piece node;
    node.depth = depth;
    node.at = at;
    cutting_.pieces.push_back(node);
    const Length kerf = along == Along::x ? shop_.crosscutKerf : shop_.ripKerf;
    const Length end = start(at, along) + size(at, along);
    // Rips of a stick as bought stay inside its wood.
    const Length stop = along == Along::y && lead > Length()
                            ? std::min(end, outline_.clearSpan(at.x, at.right()).far)
                            : end;
    Length reached = start(at, along) + lead;
    leaf(depth + 1, PieceKind::unusable, slice(at, along, start(at, along), lead));
    bool any = false;
    while (stop - reached >= least && (!any || between(random_, 0, 5) > 0)) {
      Length length = std::min(stop - reached, least + sixteenths(between(random_, 0, 160)));
      if (stop == end && end - reached - length < kerf) length = end - reached;
      piece(depth + 1, slice(at, along, reached, length), along);
      any = true;
      reached += length;
      if (reached == end) return;
      const Length dust = std::min(kerf, end - reached);
      leaf(depth + 1, PieceKind::kerf, slice(at, along, reached, dust));
      reached += dust;
      const Length waste = sixteenths(between(random_, 6, 40));
      if (between(random_, 0, 2) == 0 && stop - reached > waste + kerf) {
        leaf(depth + 1, PieceKind::unusable, slice(at, along, reached, waste));
        leaf(depth + 1, PieceKind::kerf, slice(at, along, reached + waste, kerf));
        reached += waste + kerf;
      }
    }
    leaf(depth + 1, PieceKind::unusable, slice(at, along, reached, end - reached));
  }

 private:
  void piece(int depth, const Rect& at, Along along) {
    const Along other = along == Along::x ? Along::y : Along::x;
    const Length least = other == Along::x ? Length::inches(3) : Length::inches(1);
    // The first division of a stick by rips begins with its reference edge.
    const bool cut = depth < 4 && size(at, other) > least + Length::inches(1) &&
                     (depth == 2 || between(random_, 0, 1) == 0);
    if (!cut) {
      leaf(depth, between(random_, 0, 6) == 0 ? PieceKind::offcut : PieceKind::blank, at);
      return;
    }
    const bool reference = other == Along::y && depth == 2;
    divide(depth, at, other, reference ? shop_.referenceEdge : Length(), least);
  }

  std::mt19937& random_;
  Outline outline_;
  const ShopProfile& shop_;
  Cutting& cutting_;
  std::array<int, 6> copies_{};
};

}  // namespace

Job mapChestJob() {
  Job job;
  job.name = "Map chest";
  const char* names[] = {"top", "case side", "long front", "small front", "front rail"};
  for (int line = 1; line <= 5; ++line) {
    Part part;
    part.line = line;
    part.name = names[line - 1];
    part.copies = 50;
    part.length = Length::inches(20);
    part.width = Length::inches(3);
    part.thickness = Length::sixtyFourths(52);
    part.species = {"cherry"};
    job.parts.push_back(part);
  }
  return job;
}

Cutting mapChestCutting(const Board& board, const ShopProfile& shop) {
  Cutting cutting;
  cutting.board = board.id;
  const auto add = [&](int depth, PieceKind kind, Length x, Length y, Length dx, Length dy,
                       int line = 0, int copy = 0) {
    Piece piece;
    piece.depth = depth;
    piece.kind = kind;
    piece.at = {x, y, dx, dy};
    piece.line = line;
    piece.copy = copy;
    cutting.pieces.push_back(piece);
  };
  using enum PieceKind;
  const Length saw = shop.crosscutKerf, ref = shop.referenceEdge;
  const Length length = board.length(), width = boundsOf(board).dy;
  const Length trim = Length::inches(1), zero;
  const Length far = length - Length::inches(3) - Length::sixtyFourths(32);  // the check goes
  const Length one = Length::sixtyFourths(49 * 64 + 48), two = Length::sixtyFourths(50 * 64 + 24);
  const Length x1 = far - one, x2 = x1 - saw - two;
  add(0, cut, zero, zero, length, width);
  add(1, endTrim, zero, zero, trim, width);
  add(1, cut, trim, zero, length - 2 * trim, width);
  add(2, offcut, trim, zero, x2 - saw - trim, width);
  add(2, PieceKind::kerf, x2 - saw, zero, saw, width);
  add(2, cut, x2, zero, two, width);
  const Length rail = Length::sixtyFourths(2 * 64 + 48), front = Length::inches(4);
  Length y = zero;
  add(3, unusable, x2, y, two, ref);
  add(3, blank, x2, y += ref, two, rail, 5, 1);
  add(3, PieceKind::kerf, x2, y += rail, two, saw);
  add(3, cut, x2, y += saw, two, front);
  const Length small = Length::sixtyFourths(16 * 64 + 16);
  Length x = x2 + two;
  std::vector<Length> starts;
  for (int n = 0; n < 3; ++n) {
    x -= small;
    starts.push_back(x);
    x -= saw;
  }
  add(4, unusable, x2, y, starts[2] - saw - x2, front);
  for (int n = 3; n >= 1; --n) {
    const Length at = starts[static_cast<std::size_t>(n - 1)];
    add(4, PieceKind::kerf, at - saw, y, saw, front);
    add(4, blank, at, y, small, front, 4, n);
  }
  add(3, PieceKind::kerf, x2, y += front, two, saw);
  add(3, unusable, x2, y += saw, two, width - y);
  add(2, PieceKind::kerf, x1 - saw, zero, saw, width);
  add(2, cut, x1, zero, one, width);
  const Length high = Length::sixtyFourths(3 * 64 + 36);
  y = zero;
  add(3, unusable, x1, y, one, ref);
  add(3, blank, x1, y += ref, one, high, 3, 1);
  add(3, PieceKind::kerf, x1, y += high, one, saw);
  add(3, blank, x1, y += saw, one, high, 3, 2);
  add(3, PieceKind::kerf, x1, y += high, one, saw);
  add(3, unusable, x1, y += saw, one, width - y);
  add(2, PieceKind::kerf, far, zero, saw, width);
  add(2, unusable, far + saw, zero, length - trim - far - saw, width);
  add(1, endTrim, length - trim, zero, trim, width);
  return cutting;
}

Cutting randomCutting(std::mt19937& random, const Board& board, const ShopProfile& shop) {
  Cutting cutting;
  cutting.board = board.id;
  const Rect bounds = boundsOf(board);
  const Length left = board.sawnEnd[0] ? Length() : shop.endTrim;
  const Length right = bounds.dx - (board.sawnEnd[1] ? Length() : shop.endTrim);
  TreeWriter tree(random, board, shop, cutting);
  Piece root;
  root.at = bounds;
  cutting.pieces.push_back(root);
  tree.leaf(1, PieceKind::endTrim, slice(bounds, Along::x, Length(), left));
  const Rect body = slice(bounds, Along::x, left, right - left);
  if (between(random, 0, 1) == 0)
    tree.divide(1, body, Along::x, Length(), Length::inches(4));
  else
    tree.divide(1, body, Along::y, shop.referenceEdge, Length::sixtyFourths(96));
  tree.leaf(1, PieceKind::endTrim, slice(bounds, Along::x, right, bounds.dx - right));
  return cutting;
}

}  // namespace flitch::test
