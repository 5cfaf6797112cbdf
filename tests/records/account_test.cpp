#include <catch2/catch.hpp>
#include <cmath>
#include <numeric>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::part;
using bench::plank;

namespace {

constexpr double cubicInch = 16387.064;  // mm³, exactly

std::int64_t of(const Breakdown& b, Cause c) { return b.volume[static_cast<std::size_t>(c)].value; }
std::int64_t money(const Breakdown& b, Cause c) {
  return b.cost[static_cast<std::size_t>(c)].raw();
}
std::int64_t feet(const Breakdown& b, Cause c) {
  return b.feet[static_cast<std::size_t>(c)].thousandths;
}

Piece leaf(int depth, PieceKind kind, const Rect& at, int line = 0, int copy = 0) {
  Piece p;
  p.depth = depth;
  p.kind = kind;
  p.at = at;
  p.line = line;
  p.copy = copy;
  return p;
}

/// A plank 50 x 6 x 1 in: two blanks side by side of the first 21 in, an offcut behind them.
struct Worked {
  Board board = plank(1, in(50), in(6), in(6), Money::units(50));
  Job job;
  ShopProfile shop = startingProfile();
  Cutting cutting;

  Worked() {
    board.thickness = in(1);
    board.wood = volumeOf(board);
    board.measuredFeet = Feet{2'083};
    Part p = part(1, 2, in(20), in(2));
    p.thickness = in(0, 48);
    job.parts = {p};
    cutting.board = board.id;
    const auto box = [](Length x0, Length y0, Length x1, Length y1) {
      return Rect{x0, y0, x1 - x0, y1 - y0};
    };
    using K = PieceKind;
    cutting.pieces = {
        leaf(0, K::cut, box(in(0), in(0), in(50), in(6))),
        leaf(1, K::endTrim, box(in(0), in(0), in(1), in(6))),
        leaf(1, K::cut, box(in(1), in(0), in(49), in(6))),
        leaf(2, K::cut, box(in(1), in(0), in(22), in(6))),
        leaf(3, K::kerf, box(in(1), in(0), in(22), in(0, 8))),
        leaf(3, K::blank, box(in(1), in(0, 8), in(22), in(2, 24)), 1, 1),
        leaf(3, K::kerf, box(in(1), in(2, 24), in(22), in(2, 32))),
        leaf(3, K::blank, box(in(1), in(2, 32), in(22), in(4, 48)), 1, 2),
        leaf(3, K::kerf, box(in(1), in(4, 48), in(22), in(4, 56))),
        leaf(3, K::unusable, box(in(1), in(4, 56), in(22), in(6))),
        leaf(2, K::kerf, box(in(22), in(0), in(22, 8), in(6))),
        leaf(2, K::offcut, box(in(22, 8), in(0), in(49), in(6))),
        leaf(1, K::endTrim, box(in(49), in(0), in(50), in(6))),
    };
  }
  [[nodiscard]] Breakdown accounted() const { return account(cutting, board, job, shop, in(0, 8)); }
};

}  // namespace

TEST_CASE("an account worked by hand: volume") {
  Worked w;
  // On the waste 21 x 1 1/8 in beside the blanks: a knot on face A, a split through both that
  // covers half of it.
  w.board.defects = {{"sound knot", DefectFace::a, bench::inRect(2, 5, 4, 1)},
                     {"split", DefectFace::through, bench::inRect(4, 5, 4, 1)},
                     {"good", DefectFace::through, bench::inRect(0, 0, 50, 6)},
                     {"wane", DefectFace::far, bench::inRect(10, 5, 4, 1)}};
  const Breakdown b = w.accounted();
  const auto cubicInches = [&](Cause c, double expected) {
    INFO(word(c));
    CHECK(std::abs(static_cast<double>(of(b, c)) - expected * cubicInch) <= 1.5);
  };
  // 1 in thick, so cubic inches are square inches. Whole: 50 x 6 = 300.
  cubicInches(Cause::parts, 2 * 20 * 2 * 0.75);          // 60
  cubicInches(Cause::machining, 2 * 21 * 2.25 - 60);     // 34.5
  cubicInches(Cause::kerf, 3 * 21 * 0.125 + 6 * 0.125);  // 8.625
  cubicInches(Cause::endTrim, 2 * 6);                    // 12
  cubicInches(Cause::defect, (6 + 4) / 2.0);             // A: 6 in², B: 4 in²; mean 5
  cubicInches(Cause::unusable, 21 * 1.125 - 5);          // 18.625
  cubicInches(Cause::offcuts, 26.875 * 6);               // 161.25
  const std::int64_t sum =
      std::accumulate(b.volume.begin(), b.volume.end(), std::int64_t{0},
                      [](std::int64_t s, CubicMillimetres v) { return s + v.value; });
  CHECK(sum == w.board.wood.value);
  CHECK(sum == 4'916'119);  // 300 x 16 387.064 = 4 916 119.2
}

TEST_CASE("an account worked by hand: money, feet and labour") {
  const Worked w;
  const Breakdown b = w.accounted();
  // Grid rectangle of the offcut: 26 7/8 x 5 7/8 in (the reference edge is off) = 215 x 47 eighths.
  // 40 % of $50 x (215 x 47 / 64) / 300 = $10.52604...
  CHECK(b.offcutWorth == Money::tenThousandths(105'260));
  CHECK(b.woodCost == Money::tenThousandths(394'740));
  CHECK(money(b, Cause::offcuts) == 105'260);
  // The rest falls on 300 - 161.25 = 138.75 in³: $39.4740 x 60 / 138.75 = $17.0698...
  CHECK(std::abs(money(b, Cause::parts) - 170'698) <= 1);
  CHECK(std::abs(money(b, Cause::machining) - 98'152) <= 1);  // x 34.5 / 138.75
  CHECK(std::abs(money(b, Cause::endTrim) - 34'140) <= 1);    // x 12 / 138.75
  CHECK(std::accumulate(b.cost.begin(), b.cost.end(), Money(),
                        [](Money s, Money m) { return s + m; }) == w.board.cost);
  // Feet by plan area, 2.083 over 300 in²: parts 2 x 20 x 2 = 80, machining 94.5 - 80 = 14.5.
  CHECK(std::abs(feet(b, Cause::parts) - 555) <= 1);
  CHECK(std::abs(feet(b, Cause::machining) - 101) <= 1);
  CHECK(std::accumulate(b.feet.begin(), b.feet.end(), Feet(),
                        [](Feet s, Feet f) { return s + f; }) == w.board.measuredFeet);
  // A pull of 5 minutes, two ends trimmed, one edge ripped: $8. Section, offcut, two blanks: $4.
  CHECK(openingCost(w.board, w.shop) == Money::units(8));
  CHECK(cuttingCost(w.cutting, w.shop) == Money::units(4));
  CHECK(b.cutCost == Money::units(12));
}

TEST_CASE("an end our own saw made costs no trim") {
  Worked w;
  w.board.sawnEnd = {true, false};
  CHECK(openingCost(w.board, w.shop) == Money::units(7));
}

TEST_CASE("worth of an offcut: bands, keeping rule, whole grid steps") {
  const Board board = plank(1, in(100), in(8), in(8), Money::units(100));
  ShopProfile shop = startingProfile();
  shop.keepBands = {{in(12), 400}, {in(48), 600}};
  const Length tick = in(0, 8);
  // 40 % of $100 x (24 x 4) / (100 x 8) = $4.80, less at most one for two floors.
  CHECK(offcutWorth(board, shop, tick, in(24), in(4)) == Money::tenThousandths(48'000));
  CHECK(offcutWorth(board, shop, tick, in(48), in(4)) == Money::tenThousandths(144'000));
  CHECK(offcutWorth(board, shop, tick, in(47, 63), in(4)).raw() < 100'000);
  CHECK(offcutWorth(board, shop, tick, in(11, 63), in(4)) == Money());
  CHECK(offcutWorth(board, shop, tick, in(24), in(2, 63)) == Money());
  // Parts of a grid step do not count.
  CHECK(offcutWorth(board, shop, tick, in(24, 7), in(4, 7)) ==
        offcutWorth(board, shop, tick, in(24), in(4)));
  shop.keepBands = {{in(36), 400}};
  CHECK(offcutWorth(board, shop, tick, in(24), in(4)) == Money());
}

TEST_CASE("an offcut counts where it is clear of outline and reference edge") {
  Board board = plank(1, in(96), in(8), in(6));
  const ShopProfile shop = startingProfile();
  const Rect core = offcutCore(board, shop, in(0, 8), bench::inRect(48, 0, 24, 8));
  CHECK(core.x == in(48));
  CHECK(core.dx == in(24));
  CHECK(core.y == in(0, 8));
  // At 72 in of 96 the far edge is at 8 - 2 x 3/4 = 6 1/2 in.
  CHECK(core.top() == in(6, 32));
}

TEST_CASE("a missing copy costs its wood at the dearest foot, three times") {
  PlanRequest request;
  request.shop = startingProfile();
  const Part p = part(1, 1, in(20), in(2));
  // No stock at all: blank 21 x 2 1/4 of 4/4 = 0.328 bf at $10 x 3.
  CHECK(shortagePrice(p, request) == Money::tenThousandths(98'400));
  // 96 x 9 in of 4/4 is 6 bf: $8 a foot and $12; ash is not allowed for the part.
  Board dear = plank(2, in(96), in(9), in(9), Money::units(72));
  Board ash = plank(3, in(96), in(9), in(9), Money::units(600));
  ash.species = "ash";
  request.boards = {plank(1, in(96), in(9), in(9), Money::units(48)), dear, ash};
  // The foot is rounded up by a ten-thousandth: 0.328 x $12.0001 = $3.9360, three times.
  CHECK(shortagePrice(p, request) == Money::tenThousandths(118'080));
  request.boards = {ash};
  CHECK(shortagePrice(p, request) == Money::tenThousandths(984'000));
}

namespace {

/// Cuts a rectangle at random, leaves of every kind: nothing a saw would do, all an account must
/// bear.
void divideAtRandom(std::mt19937& chance, std::vector<Piece>& pieces, const Rect& at, int depth,
                    bool alongX) {
  std::uniform_int_distribution<int> dice(0, 9);
  if (depth == 4 || (depth > 1 && dice(chance) < 3)) {
    const PieceKind kinds[] = {PieceKind::blank, PieceKind::offcut, PieceKind::kerf,
                               PieceKind::endTrim, PieceKind::unusable};
    pieces.push_back(leaf(depth, kinds[dice(chance) % 5], at, 1, dice(chance)));
    return;
  }
  pieces.push_back(leaf(depth, PieceKind::cut, at));
  const std::int64_t whole = (alongX ? at.dx : at.dy).nm();
  std::uniform_int_distribution<std::int64_t> place(1, whole - 1);
  std::vector<std::int64_t> ends{whole};
  for (int i = dice(chance) % 3; i > 0; --i) ends.push_back(place(chance));
  std::sort(ends.begin(), ends.end());
  ends.erase(std::unique(ends.begin(), ends.end()), ends.end());
  std::int64_t from = 0;
  for (const std::int64_t end : ends) {
    const Length a = Length::nanometres(from);
    const Length d = Length::nanometres(end - from);
    divideAtRandom(chance, pieces,
                   alongX ? Rect{at.x + a, at.y, d, at.dy} : Rect{at.x, at.y + a, at.dx, d},
                   depth + 1, !alongX);
    from = end;
  }
}

}  // namespace

TEST_CASE("sums are the board's to the last unit, whatever is cut") {
  std::mt19937 chance(20);
  for (int round = 0; round < 400; ++round) {
    std::uniform_int_distribution<std::int64_t> nm(1, 25'400'000);
    std::uniform_int_distribution<std::int64_t> cost(0, 5'000'000);
    const auto some = [&](std::int64_t inches) {
      return in(inches) + Length::nanometres(nm(chance));
    };
    Board board = plank(1, some(60), some(6), some(5), Money::tenThousandths(cost(chance)));
    board.outline[1] = Outline::tapered(board.length(), some(5), some(7));
    if (round % 3 == 0) board.warp.crook = Length::nanometres(nm(chance));
    board.warp.hollow = round % 2 == 0 ? Edge::near : Edge::far;
    board.wood = CubicMillimetres{volumeOf(board).value + round % 7};
    for (int i = 0; i < round % 6; ++i) {
      const DefectFace faces[] = {DefectFace::a, DefectFace::b, DefectFace::through};
      board.defects.push_back({"check", faces[i % 3],
                               Rect{Length::nanometres(nm(chance) * 2),
                                    Length::nanometres(nm(chance)), some(10), some(2)}});
    }
    Job job;
    job.parts = {part(1, 1, in(9), in(1))};
    Cutting cutting;
    cutting.board = board.id;
    divideAtRandom(chance, cutting.pieces, boundsOf(board), 0, true);
    const Breakdown b = account(cutting, board, job, startingProfile(), in(0, 8));
    CubicMillimetres volume;
    Money money;
    for (const Share& s : b.shares) {
      volume += s.volume;
      money += s.cost;
      REQUIRE(s.volume.value >= 0);
    }
    REQUIRE(volume == board.wood);
    REQUIRE(money == board.cost);
    REQUIRE(std::accumulate(b.volume.begin(), b.volume.end(), CubicMillimetres(),
                            [](auto s, auto v) { return s + v; }) == board.wood);
    REQUIRE(std::accumulate(b.cost.begin(), b.cost.end(), Money(),
                            [](auto s, auto v) { return s + v; }) == board.cost);
    REQUIRE(std::accumulate(b.feet.begin(), b.feet.end(), Feet(),
                            [](auto s, auto v) { return s + v; }) == board.measuredFeet);
    REQUIRE(b.woodCost + b.offcutWorth == board.cost);
  }
}
