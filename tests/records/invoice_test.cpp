#include "inventory/records/invoice.h"

#include <catch2/catch.hpp>
#include <random>

#include "inventory/records/delivery.h"
#include "inventory/records/refusal.h"

using namespace flitch;

namespace {

TallyLine lineOf(const std::string& species, Nominal nominal, Length length, Length width,
                 Money price, PriceBasis basis = PriceBasis::perFoot) {
  TallyLine line;
  line.species = species;
  line.nominal = nominal;
  line.outline.fill(Outline::tapered(length, width, width));
  line.price = price;
  line.basis = basis;
  return line;
}

Money sumOf(const std::vector<TallyFigures>& figures, Money TallyFigures::*field) {
  Money sum;
  for (const TallyFigures& board : figures) sum += board.*field;
  return sum;
}

std::string cell(const Table& table, std::size_t row, std::size_t column) {
  const auto& cells = row < table.rows.size() ? table.rows[row] : table.totals;
  return text(cells.at(column), Unit::inches, "$");
}

}  // namespace

TEST_CASE("lines of an invoice are spread by footage or by value") {
  // 10 and 30 board feet, $100 and $100: freight of $20 goes 5 and 15, tax of $10 goes 5 and 5.
  const std::vector<Billed> boards{{{10'000}, Money::units(100)}, {{30'000}, Money::units(100)}};
  const InvoiceLine freight{0, InvoiceKind::freight, Money::units(20), Spread::feet, ""};
  const InvoiceLine tax{0, InvoiceKind::tax, Money::units(10), Spread::value, ""};
  CHECK(landed(boards, {freight}) == std::vector{Money::units(105), Money::units(115)});
  CHECK(landed(boards, {freight, tax}) == std::vector{Money::units(110), Money::units(120)});
  const InvoiceLine discount{0, InvoiceKind::discount, -Money::units(50), Spread::value, ""};
  CHECK(landed(boards, {discount}) == std::vector{Money::units(75), Money::units(75)});
}

TEST_CASE("an odd unit goes to one board, none is lost") {
  const std::vector<Billed> boards(3, {{1000}, Money::units(1)});
  const InvoiceLine freight{0, InvoiceKind::freight, Money::tenThousandths(10), Spread::feet, ""};
  CHECK(landed(boards, {freight}) == std::vector{Money::tenThousandths(10'004),
                                                 Money::tenThousandths(10'003),
                                                 Money::tenThousandths(10'003)});
  // Nothing to share by: all alike.
  CHECK(landed(std::vector<Billed>(2), {freight}) ==
        std::vector{Money::tenThousandths(5), Money::tenThousandths(5)});
}

TEST_CASE("a discount that leaves a board at less than nothing is refused") {
  const std::vector<Billed> boards{{{10'000}, Money::units(1)}, {{10'000}, Money::units(100)}};
  const InvoiceLine byFeet{0, InvoiceKind::discount, -Money::units(10), Spread::feet, ""};
  CHECK_THROWS_AS(landed(boards, {byFeet}), Refusal);
  const InvoiceLine byValue{0, InvoiceKind::discount, -Money::units(10), Spread::value, ""};
  CHECK(landed(boards, {byValue}).size() == 2);
}

TEST_CASE("a lot, a running foot, and two halves of one board") {
  DeliveryDraft draft;
  // Demo: two halves of a board 12 ft by 7 3/4 in, billed as one: 7.75 square feet, 8.
  TallyLine half = lineOf("cherry", Nominal::quarters(4), Length::feet(6),
                          Length::sixtyFourths(7 * 64 + 48), Money::tenThousandths(82'001));
  half.cutFrom = "van";
  TallyLine two = lineOf("ash", Nominal::quarters(4), Length::feet(8), Length::inches(6),
                         Money::tenThousandths(1'000'001), PriceBasis::lot);
  two.count = 2;
  // 8 ft 6 in at $1.10 a running foot.
  const TallyLine strip =
      lineOf("cherry", Nominal::quarters(4), Length::inches(102), Length::inches(2),
             Money::tenThousandths(11'000), PriceBasis::perRunningFoot);
  draft.lines = {half, two, half, strip};
  const auto all = figures(draft);
  REQUIRE(all.size() == 5);
  CHECK(all[0].billed + all[3].billed == Feet{8000});
  CHECK(all[0].billed == Feet{4000});
  CHECK(all[0].price + all[3].price == Money::tenThousandths(656'008));  // 8 x 8.2001
  CHECK(all[3].billedWith == std::optional<std::size_t>(0));
  CHECK_FALSE(all[0].billedWith);
  // Counted apart they would be 3.875 square feet each: 4 and 4 too, but of 5 1/2 in wide boards
  // 2.75 each: 3 and 3 against 5.5, an exact half, together.
  CHECK(all[1].price == Money::tenThousandths(500'001));
  CHECK(all[2].price == Money::tenThousandths(500'000));
  CHECK(all[2].billedWith == std::optional<std::size_t>(1));
  CHECK(all[4].price == Money::tenThousandths(93'500));

  for (TallyLine& line : draft.lines) {
    line.outline.fill(Outline::tapered(Length::feet(6), Length::sixtyFourths(5 * 64 + 32),
                                       Length::sixtyFourths(5 * 64 + 32)));
  }
  const auto narrow = figures(draft);
  CHECK(narrow[0].billed + narrow[3].billed == Feet{6000});
  CHECK(narrow[0].half == Half::up);
  CHECK(narrow[3].half == Half::up);
}

TEST_CASE("lines of one lot share its price by billed feet") {
  DeliveryDraft draft;
  for (const int feet : {10, 20, 30}) {
    TallyLine line = lineOf("ash", Nominal::quarters(4), Length::feet(feet), Length::inches(12),
                            Money::units(120), PriceBasis::lot);
    line.lot = "L1";
    draft.lines.push_back(line);
  }
  const auto all = figures(draft);
  CHECK(all[0].price == Money::units(20));
  CHECK(all[1].price == Money::units(40));
  CHECK(all[2].price == Money::units(60));
}

TEST_CASE("each rule counts its own way") {
  // 8/4, 6 1/4 in by 8 ft: raw 4 1/6 square feet (reference row BM02), 8.333 by volume, the width
  // an exact quarter: 6 1/2 the first time, 6 the next.
  TallyLine line = lineOf("ash", Nominal::quarters(8), Length::feet(8),
                          Length::sixtyFourths(6 * 64 + 16), Money::units(1));
  line.count = 2;
  DeliveryDraft draft;
  draft.lines = {line};
  const auto counted = [&](CountingRule rule) {
    draft.rule = rule;
    const auto all = figures(draft);
    return std::pair{all[0].billed.thousandths, all[1].billed.thousandths};
  };
  CHECK(counted(CountingRule::surfaceMeasure) == std::pair<std::int64_t, std::int64_t>{8000, 8000});
  CHECK(counted(CountingRule::volume) == std::pair<std::int64_t, std::int64_t>{8333, 8333});
  CHECK(counted(CountingRule::volumeTenths) == std::pair<std::int64_t, std::int64_t>{8300, 8300});
  CHECK(counted(CountingRule::halfInch) == std::pair<std::int64_t, std::int64_t>{8667, 8000});
  CHECK(figures(draft)[0].half == Half::up);
  CHECK(figures(draft)[1].half == Half::down);
  // 6.5 % over 8.
  CHECK(counted(CountingRule::grossGreen) == std::pair<std::int64_t, std::int64_t>{8520, 8520});
}

TEST_CASE("the tally stands against what the invoice claims") {
  DeliveryDraft draft;
  draft.lines = {
      lineOf("cherry", Nominal::quarters(4), Length::feet(12), Length::inches(8), Money::units(10)),
      lineOf("ash", Nominal::quarters(4), Length::feet(10), Length::inches(6), Money::units(5))};
  draft.claims = {{2, "cherry", Nominal::quarters(4), Feet{9000}, Money::units(90)},
                  {3, "walnut", Nominal::quarters(8), Feet{4000}, std::nullopt}};
  draft.extras = {{4, InvoiceKind::freight, Money::units(13), Spread::feet, ""}};
  Table table = againstInvoice(draft, figures(draft));
  REQUIRE(table.rows.size() == 4);
  CHECK(cell(table, 0, 0) == "cherry");
  CHECK(cell(table, 0, 5) == "1.0");     // 9 claimed, 8 counted
  CHECK(cell(table, 0, 8) == "$10.00");  // 90 claimed, 80 counted
  CHECK(cell(table, 1, 5).empty());      // nothing is claimed of ash
  CHECK(cell(table, 2, 5) == "4.0");     // walnut that did not come
  CHECK(cell(table, 3, 6) == "$13.00");
  CHECK(cell(table, 4, 3) == "13.0");
  CHECK(cell(table, 4, 5) == "5.0");
  CHECK(cell(table, 4, 6) == "$118.00");  // 80 + 25 + 13
  CHECK(cell(table, 4, 8) == "$10.00");
  draft.claims.push_back({5, "", {}, std::nullopt, Money::units(117)});
  table = againstInvoice(draft, figures(draft));
  CHECK(cell(table, 4, 8) == "\xE2\x88\x92$1.00");
}

// Property: whatever the prices, lots, halves and extras, prices add up to what was asked for the
// boards and landed costs to the invoice, to the last ten-thousandth. Seen to fail once with a
// landed() that rounded each board's share by itself.
TEST_CASE("board costs add up to the invoice to the last unit, whatever it asks") {
  std::mt19937_64 random(20260531);
  const auto below = [&](std::int64_t n) {
    return static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(n));
  };
  for (int round = 0; round < 400; ++round) {
    DeliveryDraft draft;
    draft.rule = static_cast<CountingRule>(below(5));
    Money asked;
    const std::int64_t lines = 1 + below(12);
    for (std::int64_t i = 0; i < lines; ++i) {
      TallyLine line = lineOf(
          "cherry", Nominal::quarters(static_cast<int>(3 + below(10))),
          Length::sixtyFourths(64 + below(64 * 12 * 16)), Length::sixtyFourths(64 + below(64 * 20)),
          Money::tenThousandths(below(2'000'000)), static_cast<PriceBasis>(below(5)));
      line.count = static_cast<int>(1 + below(4));
      if (line.basis == PriceBasis::lot) asked += line.price;
      if (line.basis == PriceBasis::each) asked += line.price * line.count;
      draft.lines.push_back(line);
    }
    TallyLine half = lineOf("oak", Nominal::quarters(4), Length::feet(5), Length::inches(7),
                            Money::tenThousandths(below(2'000'000)), PriceBasis::each);
    half.cutFrom = "van";
    asked += half.price;
    for (const int inches : {70, 31, 7}) {
      half.outline.fill(
          Outline::tapered(Length::inches(inches), Length::inches(7), Length::inches(8)));
      draft.lines.push_back(half);
    }
    const auto plain = figures(draft);
    Money certain;
    for (const TallyFigures& board : plain) {
      const PriceBasis basis = draft.lines[board.line].basis;
      if (basis == PriceBasis::lot || basis == PriceBasis::each) certain += board.price;
    }
    REQUIRE(certain == asked);

    Money extras;
    for (std::int64_t i = below(5); i > 0; --i) {
      const auto kind = static_cast<InvoiceKind>(below(3));
      draft.extras.push_back(
          {0, kind, Money::tenThousandths(below(9'000'000)), static_cast<Spread>(below(2)), ""});
      extras += draft.extras.back().amount;
    }
    // A discount of at most all the boards cost.
    const Money prices = sumOf(plain, &TallyFigures::price);
    const Money off = Money::tenThousandths(below(prices.raw() + 1));
    draft.extras.push_back({0, InvoiceKind::discount, -off, Spread::value, ""});
    const auto all = figures(draft);
    REQUIRE(sumOf(all, &TallyFigures::price) == prices);
    REQUIRE(sumOf(all, &TallyFigures::landed) == prices + extras - off);
    REQUIRE(invoiceTotal(all) == prices + extras - off);
  }
}
