#include "inventory/records/delivery.h"

#include <catch2/catch.hpp>

using namespace flitch;

namespace {

TallyLine lineOf(Nominal nominal, Length length, Length width) {
  TallyLine line;
  line.species = "cherry";
  line.nominal = nominal;
  line.outline.fill(Outline::tapered(length, width, width));
  line.price = Money::tenThousandths(82'000);
  return line;
}

constexpr Length eightAndHalf = Length::sixtyFourths(8 * 64 + 32);

}  // namespace

TEST_CASE("exact halves go up and down in turn over the whole delivery") {
  DeliveryDraft draft;
  // 8 1/2 in by 12 ft is 8 1/2 square feet (reference row BM18); 8 in by 12 ft is 8 and turns
  // nothing.
  TallyLine pair = lineOf(Nominal::quarters(4), Length::feet(12), eightAndHalf);
  pair.count = 2;
  draft.lines = {pair, lineOf(Nominal::quarters(4), Length::feet(12), Length::inches(8)), pair};
  const auto all = figures(draft);
  REQUIRE(all.size() == 5);
  CHECK(all[0].billed == Feet{9000});
  CHECK(all[0].half == Half::up);
  CHECK(all[1].billed == Feet{8000});
  CHECK(all[1].half == Half::down);
  CHECK(all[2].billed == Feet{8000});
  CHECK(all[2].half == Half::none);
  CHECK(all[3].half == Half::up);
  CHECK(all[4].half == Half::down);
  // Whatever was billed, the wood there is 8 1/2 board feet.
  for (const std::size_t board : {0u, 1u, 3u, 4u}) CHECK(all[board].measured == Feet{8500});
}

TEST_CASE("random widths are tallied by surface measure unless said otherwise") {
  // official_tally, official_tally_2023 (S): NHLA Rules 2015 p. 7 par. 18, quoted by the chief
  // inspector; the same paragraph in the edition of 2023.
  DeliveryDraft draft;
  CHECK(draft.rule == CountingRule::surfaceMeasure);
  // 7 1/4 in by 10 ft: 6.04 square feet, tallied as 6.
  draft.lines = {lineOf(Nominal::quarters(4), Length::feet(10), Length::sixtyFourths(7 * 64 + 16))};
  CHECK(figures(draft)[0].billed == Feet{6000});
}

TEST_CASE("what the invoice says is billed, and turns no half") {
  DeliveryDraft draft;
  TallyLine said = lineOf(Nominal::quarters(4), Length::feet(12), eightAndHalf);
  said.billed = Feet{8250};
  draft.lines = {said, lineOf(Nominal::quarters(4), Length::feet(12), eightAndHalf)};
  const auto all = figures(draft);
  CHECK(all[0].billed == Feet{8250});
  CHECK(all[0].half == Half::none);
  CHECK(all[0].price == Money::tenThousandths(676'500));  // 8.25 x 8.20
  CHECK(all[1].half == Half::up);
}

TEST_CASE("one board by either rule of counting") {
  // Reference row BM02: 8/4, 6 1/4 in by 8 ft is 8 by surface measure, 8.33 by volume.
  DeliveryDraft draft;
  draft.lines = {lineOf(Nominal::quarters(8), Length::feet(8), Length::sixtyFourths(6 * 64 + 16))};
  CHECK(figures(draft)[0].billed == Feet{8000});
  CHECK(figures(draft)[0].price == Money::tenThousandths(656'000));
  draft.rule = CountingRule::volume;
  CHECK(figures(draft)[0].billed == Feet{8333});
  CHECK(figures(draft)[0].measured == Feet{8333});
}

TEST_CASE("a tapered slab is counted at its mean width over both faces") {
  // Face A 10 to 14 in, face B 8 to 12 in: 11 in over 12 ft is 11 square feet.
  TallyLine slab = lineOf(Nominal::quarters(8), Length::feet(12), Length::inches(1));
  slab.outline = {Outline::tapered(Length::feet(12), Length::inches(10), Length::inches(14)),
                  Outline::tapered(Length::feet(12), Length::inches(8), Length::inches(12))};
  DeliveryDraft draft;
  draft.lines = {slab};
  CHECK(figures(draft)[0].billed == Feet{22'000});
  CHECK(figures(draft)[0].measured == Feet{22'000});
}

TEST_CASE("a line is priced by the foot, each, or by the cubic metre") {
  TallyLine line =
      lineOf(Nominal::millimetres(27), Length::millimetres(2400), Length::millimetres(180));
  line.price = Money::units(2450);
  line.basis = PriceBasis::perCubicMetre;
  DeliveryDraft draft;
  draft.lines = {line};
  CHECK(figures(draft)[0].price == Money::tenThousandths(285'768));  // 0.011664 m³
  draft.lines[0].basis = PriceBasis::each;
  draft.lines[0].count = 3;
  const auto all = figures(draft);
  REQUIRE(all.size() == 3);
  CHECK(all[2].price == Money::units(2450));
}

TEST_CASE("an offcut too small for surface measure is counted and paid by volume") {
  // 10 x 6 in, 4/4: 0.417 square feet, which surface measure calls none.
  TallyLine line = lineOf(Nominal::quarters(4), Length::inches(10), Length::inches(6));
  DeliveryDraft draft;
  draft.lines = {line};
  CHECK(figures(draft)[0].price == Money());
  draft.lines[0].kind = BoardKind::offcut;
  CHECK(figures(draft)[0].billed == Feet{417});
  CHECK(figures(draft)[0].price == Money::tenThousandths(34'194));  // 0.417 x 8.20
  CHECK(figures(draft)[0].half == Half::none);
}
