#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::inRect;
using bench::listed;
using bench::part;
using bench::plank;

namespace {

/// Puts pieces into a strip or a section with the waste and the kerfs that lie between.
class Filler {
 public:
  Filler(std::vector<Piece>& out, const Rect& whole, int depth, bool alongX, Length kerf)
      : out_(out), whole_(whole), depth_(depth), alongX_(alongX), kerf_(kerf), at_(start(whole)) {}

  /// Fills up to the next piece, which begins at `from`; the caller then adds it.
  void before(Length from) {
    const Length gap = from - at_;
    const Length after = pieces_ > 0 ? std::min(kerf_, gap) : Length();
    const Length ahead = std::min(kerf_, gap - after);
    leaf(PieceKind::kerf, after);
    leaf(PieceKind::unusable, gap - after - ahead);
    leaf(PieceKind::kerf, ahead);
    ++pieces_;
  }
  void past(Length to) { at_ = to; }
  void close() {
    const Length gap = start(whole_) + (alongX_ ? whole_.dx : whole_.dy) - at_;
    const Length after = pieces_ > 0 ? std::min(kerf_, gap) : Length();
    leaf(PieceKind::kerf, after);
    leaf(PieceKind::unusable, gap - after);
  }

 private:
  [[nodiscard]] Length start(const Rect& r) const { return alongX_ ? r.x : r.y; }
  void leaf(PieceKind kind, Length size) {
    if (size <= Length()) return;
    Piece p;
    p.depth = depth_;
    p.kind = kind;
    p.at = alongX_ ? Rect{at_, whole_.y, size, whole_.dy} : Rect{whole_.x, at_, whole_.dx, size};
    out_.push_back(p);
    at_ += size;
  }

  std::vector<Piece>& out_;
  Rect whole_;
  int depth_;
  bool alongX_;
  Length kerf_;
  Length at_;
  int pieces_ = 0;
};

Piece cutNode(int depth, const Rect& at) {
  Piece p;
  p.depth = depth;
  p.at = at;
  return p;
}

Length gridUp(Length x, Length tick) { return (x.nm() + tick.nm() - 1) / tick.nm() * tick; }

/// Crosscuts a board at random and fills each section with strips of blanks of one part each,
/// wherever they fit and lie clear of every mark.
Cutting cutAtRandom(std::mt19937& chance, const Board& board, const PlanRequest& request,
                    std::vector<int>& copies, Length tick) {
  std::uniform_int_distribution<int> dice(0, 99);
  const ShopProfile& shop = request.shop;
  const std::array<Outline, 2> faces{lying(board, Face::a), lying(board, Face::b)};
  Cutting cutting;
  cutting.board = board.id;
  std::vector<Piece>& out = cutting.pieces;
  const Rect all = boundsOf(board);
  out.push_back(cutNode(0, all));
  const Length left = gridUp(shop.endTrim, tick);
  const Length right = (board.length() - shop.endTrim).nm() / tick.nm() * tick;
  Piece trim = cutNode(1, {all.x, all.y, left - all.x, all.dy});
  trim.kind = PieceKind::endTrim;
  out.push_back(trim);
  const Rect whole{left, all.y, right - left, all.dy};
  out.push_back(cutNode(1, whole));
  Filler sections(out, whole, 2, true, shop.crosscutKerf);
  Length x = left;
  const auto clear = [&](const Rect& r) {
    return std::none_of(board.defects.begin(), board.defects.end(), [&](const Defect& d) {
      const Length m = shop.markMargin + Length::nanometres(1);
      return overlaps({d.where.x - m, d.where.y - m, d.where.dx + 2 * m, d.where.dy + 2 * m}, r);
    });
  };
  while (true) {
    x += dice(chance) * tick;
    const std::size_t p = static_cast<std::size_t>(dice(chance)) % copies.size();
    const Blank blank = blankFor(request.job.parts[p], shop);
    const Length over = blank.length + dice(chance) / 10 * tick;
    if (x + over > right) break;
    const Rect at{x, whole.y, over, whole.dy};
    Length low, high = in(100);
    for (const Outline& f : faces) {
      low = std::max(low, f.clearSpan(at.x, at.right()).near + shop.referenceEdge);
      high = std::min(high, f.clearSpan(at.x, at.right()).far);
    }
    std::vector<Rect> places;
    for (Length y = gridUp(low, tick); y + blank.width <= high; y += tick) {
      const Rect place{x, y, blank.length, blank.width};
      if (!clear(place)) continue;
      places.push_back(place);
      y += blank.width + shop.ripKerf;
    }
    if (places.empty()) continue;
    sections.before(x);
    sections.past(at.right());
    out.push_back(cutNode(2, at));
    Filler strips(out, at, 3, false, shop.ripKerf);
    for (const Rect& place : places) {
      strips.before(place.y);
      strips.past(place.top());
      out.push_back(cutNode(3, {at.x, place.y, at.dx, place.dy}));
      Filler row(out, out.back().at, 4, true, shop.crosscutKerf);
      row.before(place.x);
      row.past(place.right());
      Piece piece = cutNode(4, place);
      piece.kind = PieceKind::blank;
      piece.line = request.job.parts[p].line;
      piece.copy = ++copies[p];
      piece.faceUp = dice(chance) < 50 ? Face::a : Face::b;
      piece.frontEdge = dice(chance) < 50 ? Edge::near : Edge::far;
      out.push_back(piece);
      row.close();
    }
    strips.close();
    x = at.right() + shop.crosscutKerf;
  }
  sections.close();
  trim.at = {right, all.y, all.right() - right, all.dy};
  out.push_back(trim);
  return cutting;
}

}  // namespace

TEST_CASE("good random plans are accepted") {
  std::mt19937 chance(3);
  std::uniform_int_distribution<std::int64_t> fine(0, 63);
  int blanks = 0;
  for (int round = 0; round < 150; ++round) {
    PlanRequest request;
    request.shop = startingProfile();
    request.job.parts = {part(1, 1, in(11), in(1)), part(2, 1, in(15, 8), in(2, 16)),
                         part(3, 1, in(24), in(2, 40))};
    CutPlan plan;
    plan.tick = in(0, 8);
    std::vector<int> copies(3);
    for (int i = 0; i < 3; ++i) {
      Board board =
          plank(i + 1, in(70 + round % 30, fine(chance)), in(6, fine(chance)), in(5, fine(chance)));
      board.outline[1] = Outline::tapered(board.length(), in(6, fine(chance)), in(5, 32));
      if (i == 1) board.warp.crook = in(0, fine(chance));
      if (round % 2 == 0) board.warp.hollow = Edge::far;
      if (i == 2) board.defects = {{"check", DefectFace::b, inRect(20 + round % 20, 1, 3, 2)}};
      request.boards.push_back(board);
      const Cutting cutting = cutAtRandom(chance, board, request, copies, plan.tick);
      if (cutting.pieces.size() > 5) plan.cuttings.push_back(cutting);
    }
    for (std::size_t p = 0; p < 3; ++p) {
      request.job.parts[p].copies = std::max(1, copies[p]);
      if (copies[p] == 0) plan.shorts.push_back({request.job.parts[p].line, 1, false, "chance"});
      blanks += copies[p];
    }
    bench::promise(plan, request);
    const std::vector<Fault> faults = check(plan, request);
    INFO(listed(faults));
    REQUIRE(faults.empty());
  }
  CHECK(blanks > 500);
}
