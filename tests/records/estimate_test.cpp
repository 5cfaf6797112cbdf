#include "inventory/records/estimate.h"

#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::inRect;

namespace {

Money ten(std::int64_t n) { return Money::tenThousandths(n); }

/// A board of 60 x 6 in that gives part 1, 28 in long, and part 2, 14 in long, both 5 in wide and
/// 13/16 in thick: their finished volumes are as 2 to 1.
UsedBoard halved(std::int64_t id, const std::string& species) {
  UsedBoard used;
  used.board = bench::plank(id, in(60), in(6), in(6));
  used.board.species = species;
  used.board.grade = "FAS";
  used.board.billed = {2500};
  used.tick = in(0, 8);
  used.shop = startingProfile();
  const auto piece = [](int depth, PieceKind kind, const Rect& at, int line = 0) {
    Piece p;
    p.depth = depth;
    p.kind = kind;
    p.at = at;
    p.line = line;
    p.copy = line == 0 ? 0 : 1;
    return p;
  };
  used.cutting.board = used.board.id;
  used.cutting.pieces = {piece(0, PieceKind::cut, inRect(0, 0, 60, 6)),
                         piece(1, PieceKind::endTrim, inRect(0, 0, 1, 6)),
                         piece(1, PieceKind::cut, inRect(1, 0, 58, 6)),
                         piece(2, PieceKind::blank, inRect(1, 0, 30, 6), 1),
                         piece(2, PieceKind::blank, inRect(31, 0, 16, 6), 2),
                         piece(2, PieceKind::unusable, inRect(47, 0, 12, 6)),
                         piece(1, PieceKind::endTrim, inRect(59, 0, 1, 6))};
  return used;
}

Job twoParts() {
  Job job;
  job.parts = {bench::part(1, 2, in(28), in(5)), bench::part(2, 2, in(14), in(5))};
  return job;
}

}  // namespace

TEST_CASE("waste is shared among the parts of a species by volume, to the last unit") {
  const Job job = twoParts();
  const std::vector<UsedBoard> used{halved(1, "cherry"), halved(2, "ash")};
  const std::vector<ReplacementPrice> prices{
      {"cherry", Nominal::quarters(4), "", {Money::units(40)}, "2026-01-01", ""}};
  const Estimate estimate = estimateOf(job, 100, used, prices, "2026-05-31", {}, {});
  // Cherry: $60 as it cost, 2.5 bf at $40 = $100 today; parts take 2/3 and 1/3 of both. Ash has no
  // price: $60 both. Part 1: 40 + 40 and 66.6667 + 40; part 2: 20 + 20 and 33.3333 + 20.
  REQUIRE(estimate.parts.size() == 2);
  CHECK(estimate.parts[0].cost == TwoCosts{Money::units(80), ten(1'066'667)});
  CHECK(estimate.parts[1].cost == TwoCosts{Money::units(40), ten(533'333)});
  CHECK(estimate.notes ==
        std::vector<std::string>{"No price in the table, taken at landed cost: ash 4/4 FAS."});
  // Each board: pulled 5 minutes, two ends and an edge squared, two blanks: 10 minutes at $1.
  CHECK(estimate.cutting == Money::units(20));
  CHECK(estimate.lumber == TwoCosts{Money::units(140), Money::units(180)});
  CHECK(estimate.parts[0].cost.today + estimate.parts[1].cost.today + estimate.cutting ==
        estimate.lumber.today);
  CHECK(estimate.markup == TwoCosts{Money::units(14), Money::units(18)});
  CHECK(estimate.sum == TwoCosts{Money::units(154), Money::units(198)});
  CHECK(askedPrice(estimate) == Money::units(198));
}

TEST_CASE("the newest price of the grade holds, else the newest of any grade") {
  const Nominal four = Nominal::quarters(4);
  const std::vector<ReplacementPrice> prices{
      {"cherry", four, "", {Money::units(5)}, "2026-01-01", ""},
      {"cherry", four, "FAS", {Money::units(8)}, "2026-02-01", ""},
      {"cherry", four, "FAS", {Money::units(9)}, "2026-04-01", ""},
      {"cherry", four, "", {Money::units(6)}, "2026-05-01", ""},
      {"cherry", four, "FAS", {Money::units(7)}, "2026-02-01", "corrected"}};
  const auto on = [&](const std::string& grade, const std::string& day) {
    const ReplacementPrice* price = priceOn(prices, "cherry", four, grade, day);
    return price == nullptr ? -1 : price->perFoot.perOne.raw() / 10'000;
  };
  CHECK(on("FAS", "2025-12-31") == -1);
  CHECK(on("FAS", "2026-01-31") == 5);
  CHECK(on("FAS", "2026-03-01") == 7);
  CHECK(on("FAS", "2026-05-31") == 9);
  CHECK(on("No. 1 Common", "2026-05-31") == 6);
  CHECK(priceOn(prices, "cherry", Nominal::quarters(8), "FAS", "2026-05-31") == nullptr);
}

TEST_CASE("amounts are to the nearest ten-thousandth, halves up") {
  CHECK(amountOf(Money::units(60), 2500) == Money::units(150));
  CHECK(amountOf(ten(1), 1500) == ten(2));
  CHECK(amountOf(ten(1), 1499) == ten(1));
}
