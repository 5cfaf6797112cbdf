#include <catch2/catch.hpp>

#include "tests/exchange/rules.h"

using namespace flitch;
using namespace flitch::exchange;
using Catch::Contains;

namespace {

Invoice invoiceOf(const std::string& bytes) {
  return readInvoice(readCsv(bytes, "i.csv"), newBookRules()).rows.at(0);
}

std::vector<TallyLine> tallyOf(const std::string& rows) {
  return readTally(readCsv("species,quarters,length,width,price_per_bf,price_lot,price_per_ft,lot,"
                           "cut_from,count,billed_bf\n" +
                               rows,
                           "t.csv"),
                   newBookRules())
      .rows;
}

template <class Read>
std::string refused(const Read& read) {
  try {
    read();
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "";
}

}  // namespace

TEST_CASE("an invoice: its claims, its other lines and how they are spread") {
  const Invoice invoice = invoiceOf(
      "what,species,quarters,bf,amount,spread,note\n"
      "boards,cherry,4/4,40.5,\"$332.10\",,\n"
      "freight,,,,45,,by truck\ntax,,,,12.34,,\ndiscount,,,,10,feet,\ntotal,,,52,379.44,,\n");
  REQUIRE(invoice.claims.size() == 2);
  CHECK(invoice.claims[0].species == "cherry");
  CHECK(invoice.claims[0].nominal == Nominal::quarters(4));
  CHECK(invoice.claims[0].feet == Feet{40'500});
  CHECK(invoice.claims[0].amount == Money::tenThousandths(3'321'000));
  CHECK(invoice.claims[1].species.empty());
  CHECK(invoice.claims[1].amount == Money::tenThousandths(3'794'400));
  REQUIRE(invoice.extras.size() == 3);
  CHECK(invoice.extras[0].kind == InvoiceKind::freight);
  CHECK(invoice.extras[0].spread == Spread::feet);
  CHECK(invoice.extras[0].note == "by truck");
  CHECK(invoice.extras[1].spread == Spread::value);
  CHECK(invoice.extras[2].amount == -Money::units(10));
  CHECK(invoice.extras[2].spread == Spread::feet);
  CHECK(invoiceOf("what,nominal_mm,species,bf\nboards,27,ash,3\n").claims[0].nominal ==
        Nominal::millimetres(27));
}

TEST_CASE("what no invoice says is refused with its place") {
  const auto refusal = [](const std::string& row) {
    return refused(
        [&] { (void)invoiceOf("what,species,quarters,bf,amount,spread\n" + row + "\n"); });
  };
  CHECK_THAT(refusal("boards,,4/4,3,,"), Contains("i.csv:2:species: a row of boards needs"));
  CHECK_THAT(refusal("boards,cherry,,3,,"), Contains("i.csv:2:quarters"));
  CHECK_THAT(refusal("boards,cherry,4/4,,,"), Contains("neither feet nor money"));
  CHECK_THAT(refusal("boards,cherry,4/4,3,,feet"), Contains("what boards cost is not spread"));
  CHECK_THAT(refusal("freight,,,,,"), Contains("i.csv:2:amount: freight is an amount"));
  CHECK_THAT(refusal("freight,,,3,4,"), Contains("freight is an amount"));
  CHECK_THAT(refusal("freight,cherry,,,4,"), Contains("only rows of boards"));
  CHECK_THAT(refusal("tax,,,,-4,"), Contains("below zero"));
  CHECK_THAT(refusal("tax,,,,4,weight"), Contains("i.csv:2:spread"));
  CHECK_THAT(refusal("total,,,,4,\ntotal,,,,4,"), Contains("has a total on line 2"));
  CHECK_THAT(refusal("ferry,,,,4,"), Contains("boards, freight, tax"));
}

TEST_CASE("lines of a lot share one price") {
  const auto lines = tallyOf("ash,4,8,6,,,,L1,,,\nash,4,10,6,,100,,L1,,2,\nash,4,8,6,,30,,,,3,\n");
  CHECK(lines[0].basis == PriceBasis::lot);
  CHECK(lines[0].price == Money::units(100));
  CHECK(lines[1].price == Money::units(100));
  CHECK(lines[2].lot.empty());
  CHECK(lines[2].price == Money::units(30));
  const auto refusal = [](const std::string& rows) {
    return refused([&] { (void)tallyOf(rows); });
  };
  CHECK_THAT(refusal("ash,4,8,6,5,,,L1,,,\nash,4,8,6,,100,,L1,,,\n"),
             Contains("t.csv:2:lot: the line is in lot L1 and has a price of its own"));
  CHECK_THAT(refusal("ash,4,8,6,,90,,L1,,,\nash,4,8,6,,100,,L1,,,\n"),
             Contains("another price on line 2"));
  CHECK_THAT(refusal("ash,4,8,6,5,90,,,,,\n"), Contains("more than one price"));
}

TEST_CASE("pieces of one board are billed on its first line") {
  const auto lines = tallyOf("ash,4,8,6,5,,,,van,,8\nash,4,10,6,,,,,van,,\nash,4,8,6,,,2,,,,\n");
  CHECK(lines[1].price == Money::units(5));
  CHECK(lines[1].billed == Feet{8000});
  CHECK(lines[2].basis == PriceBasis::perRunningFoot);
  const auto refusal = [](const std::string& rows) {
    return refused([&] { (void)tallyOf(rows); });
  };
  CHECK_THAT(refusal("ash,4,8,6,5,,,,van,,\n"), Contains("no other line was cut from van"));
  CHECK_THAT(refusal("ash,4,8,6,5,,,,van,,\ncherry,4,8,6,,,,,van,,\n"),
             Contains("two kinds of wood"));
  CHECK_THAT(refusal("ash,4,8,6,5,,,,van,,\nash,4,8,6,6,,,,van,,\n"),
             Contains("t.csv:3:cut_from: van is billed once, on line 2"));
  CHECK_THAT(refusal("ash,4,8,6,5,,,,van,2,\nash,4,8,6,,,,,van,,\n"),
             Contains("counts several boards"));
}
