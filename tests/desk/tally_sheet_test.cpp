// A tally as it is typed: read like the import, kept as a draft and read back.
#include <catch2/catch.hpp>
#include <random>

#include "inventory/desk/receive.h"
#include "inventory/desk/tally_sheet.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;

namespace {

TypedLine lineOf(const std::string& length, const std::string& width,
                 const std::string& marks = "") {
  TypedLine line;
  const auto set = [&](TallyCell cell, const std::string& text) {
    line.cells[static_cast<std::size_t>(cell)] = text;
  };
  set(TallyCell::species, "cherry");
  set(TallyCell::nominal, "4/4");
  set(TallyCell::length, length);
  set(TallyCell::width, width);
  set(TallyCell::marks, marks);
  set(TallyCell::price, "6");
  return line;
}

}  // namespace

TEST_CASE("a typed line is read as a row of a tally file is, its faults by cell") {
  const sample::Shop shop;
  const exchange::ReadingRules rules = readingRules(shop.book);
  const ReadLine good = readLine(lineOf("10-6", "7 3/8", "12-17, 60-end"), 3, rules);
  REQUIRE(good.line);
  CHECK(good.line->outline[0].length() == Length::inches(126));
  CHECK(good.line->line == 3);
  REQUIRE(good.marks.size() == 2);
  CHECK(good.marks[1].tallyLine == 3);

  const ReadLine empty = readLine(lineOf("", "7"), 1, rules);
  CHECK_FALSE(empty.line);
  CHECK(empty.missing == 1);
  REQUIRE(empty.faults.size() == 1);
  CHECK(empty.faults[0].cell == TallyCell::length);

  for (const auto& [typed, cell] : std::vector<std::pair<TypedLine, TallyCell>>{
           {lineOf("106'", "7"), TallyCell::length},
           {lineOf("10", "wide"), TallyCell::width},
           {lineOf("10", "7", "5"), TallyCell::marks},
           {lineOf("10", "7", "110-130"), TallyCell::marks}}) {
    const ReadLine read = readLine(typed, 1, rules);
    CHECK_FALSE(read.line);
    REQUIRE(read.faults.size() == 1);
    CHECK(read.faults[0].cell == cell);
    CHECK(read.missing == 0);
  }
}

TEST_CASE("figures of a tally being typed are those it is received with") {
  sample::Shop shop;
  TallySheet sheet;
  sheet.supplier = "Yard";
  sheet.receivedOn = "2026-05-31";
  sheet.freight = "12.35";
  sheet.lines = {lineOf("8", "8"), lineOf("10-6", "7 3/8", "12-17"), TypedLine{},
                 lineOf("7-1", "6 1/2")};
  const ReadTally read = readTally(sheet, CountingRule::surfaceMeasure, readingRules(shop.book));
  CHECK(read.ready());
  REQUIRE(read.figures.size() == 3);
  const Received received = receive(shop.book, read.draft, shop.hand);
  mark(shop.book, read.marks, "tally", shop.hand);
  for (std::size_t b = 0; b < 3; ++b) {
    CHECK(received.boards[b].cost == read.figures[b].landed);
    CHECK(received.boards[b].billed == read.figures[b].billed);
  }
  CHECK(shop.now().board(received.boards[1].id)->defects.size() == 1);
  CHECK(shop.faults() == "");
}

TEST_CASE("what keeps a tally from being received is said") {
  const sample::Shop shop;
  const exchange::ReadingRules rules = readingRules(shop.book);
  TallySheet sheet;
  CHECK_FALSE(readTally(sheet, CountingRule::volume, rules).ready());
  sheet.lines = {lineOf("8", "8")};
  CHECK(readTally(sheet, CountingRule::volume, rules).troubles ==
        std::vector<std::string>{"The supplier is not named yet"});
  sheet.supplier = "Yard";
  CHECK(readTally(sheet, CountingRule::volume, rules).ready());
  sheet.freight = "a lot";
  CHECK(readTally(sheet, CountingRule::volume, rules).troubles.size() == 1);
}

TEST_CASE("a sheet comes back from its draft as it was, and rubbish gives an empty one") {
  TallySheet sheet{"Yard \"north\"", "Q-1", "2026-05-31", "84", CountingRule::halfInch, {}, {}};
  sheet.invoice = {TypedInvoice{{"freight", "", "", "", "85", "value"}}};
  sheet.lines = {lineOf("10-6", "7 3/8", "12-17"), lineAfter(lineOf("9", "7"), "T0002-V")};
  CHECK(readSheet(written(sheet)) == sheet);
  CHECK(readSheet("") == TallySheet{});
  // Damaged drafts: never a crash, never more cells than there are.
  const std::string whole = written(sheet);
  std::mt19937 random(1);
  for (int n = 0; n < 2000; ++n) {
    std::string damaged = whole;
    damaged[random() % damaged.size()] = static_cast<char>(random() % 96 + 32);
    damaged.resize(damaged.size() - random() % 3);
    const TallySheet read = readSheet(damaged);
    CHECK(read.lines.size() <= 2);
  }
}

TEST_CASE("the line after carries down what stays the same and nothing that does not") {
  const TypedLine next = lineAfter(lineOf("10", "7", "12-17"), "T0002-V");
  CHECK(next.at(TallyCell::species) == "cherry");
  CHECK(next.at(TallyCell::tag) == "T0002-V");
  CHECK(next.at(TallyCell::length).empty());
  CHECK(next.at(TallyCell::marks).empty());
  CHECK(next.blank());
}

namespace {

std::string& cell(TypedLine& line, TallyCell which) {
  return line.cells[static_cast<std::size_t>(which)];
}

TypedInvoice asked(const std::string& what, const std::string& amount,
                   const std::string& spread = "") {
  return {{what, "", "", "", amount, spread}};
}

TallySheet yard() {
  TallySheet sheet;
  sheet.supplier = "Yard";
  sheet.receivedOn = "2026-05-31";
  return sheet;
}

}  // namespace

TEST_CASE("an invoice typed beside the tally is spread and held against it line by line") {
  const sample::Shop shop;
  const exchange::ReadingRules rules = readingRules(shop.book);
  TallySheet sheet = yard();
  sheet.lines = {lineOf("8", "9"), lineOf("8", "12")};  // 6 and 8 bf at $6: $36 and $48
  sheet.invoice = {asked("freight", "7", "feet"), asked("discount", "4.20"),
                   TypedInvoice{{"boards", "cherry", "4/4", "15.5", "93", ""}},
                   asked("tax", "a lot"), TypedInvoice{}};
  ReadTally read = readTally(sheet, CountingRule::surfaceMeasure, rules);
  // The line that cannot be read is named and the rest counts all the same.
  CHECK_FALSE(read.ready());
  REQUIRE(read.invoice.faults.size() == 5);
  REQUIRE(read.invoice.faults[3].size() == 1);
  CHECK(read.invoice.faults[3][0].first == InvoiceCell::amount);
  CHECK(read.troubles.at(0).rfind("Invoice: ", 0) == 0);
  REQUIRE(read.figures.size() == 2);
  // Freight by feet: 3 and 4; discount by value: 1.80 and 2.40.
  CHECK(read.figures[0].landed == parseMoney("37.20"));
  CHECK(read.figures[1].landed == parseMoney("49.60"));
  CHECK(std::get<Feet>(read.against.totals.at(5)) == Feet{1'500});
  CHECK(std::get<Money>(read.against.totals.at(8)) == parseMoney("9"));
  sheet.invoice[3] = asked("tax", "5");
  read = readTally(sheet, CountingRule::surfaceMeasure, rules);
  CHECK(read.ready());
  sample::Shop other;
  CHECK(receive(other.book, read.draft, other.hand).paid == parseMoney("91.80"));
  CHECK(other.faults() == "");
}

TEST_CASE("boards cut for the van are billed once and share their cost") {
  sample::Shop shop;
  TallySheet sheet = yard();
  sheet.lines = {lineOf("6", "9")};
  cell(sheet.lines[0], TallyCell::tag) = "T0001-X";
  cutForTheVan(sheet, 0, "T0002-V");
  REQUIRE(sheet.lines.size() == 2);
  CHECK(sheet.lines[0].at(TallyCell::cutFrom) == "T0001-X");
  CHECK(sheet.lines[1].at(TallyCell::cutFrom) == "T0001-X");
  CHECK(sheet.lines[1].at(TallyCell::length).empty());
  cell(sheet.lines[1], TallyCell::length) = "4";
  reserveTags(shop.book, 5, shop.hand);
  const ReadTally read = readTally(sheet, CountingRule::surfaceMeasure, readingRules(shop.book));
  REQUIRE(read.ready());
  const Received received = receive(shop.book, read.draft, shop.hand);
  REQUIRE(received.boards.size() == 2);
  // Ten feet nine inches wide: 7.5 square feet, an exact half up: 8, at $6.
  CHECK(received.billed == Feet{8'000});
  CHECK(received.paid == parseMoney("48"));
  CHECK(received.boards[1].billedWith == received.boards[0].id);
  CHECK(received.boards[0].cost + received.boards[1].cost == parseMoney("48"));
  CHECK(shop.faults() == "");
  // A piece alone is told in its cell.
  sheet.lines.pop_back();
  const ReadTally alone = readTally(sheet, CountingRule::surfaceMeasure, readingRules(shop.book));
  CHECK_FALSE(alone.ready());
  REQUIRE(alone.lines[0].faults.size() == 1);
  CHECK(alone.lines[0].faults[0].cell == TallyCell::cutFrom);
}

TEST_CASE("a multiplier makes equal lines with tags of their own") {
  const sample::Shop shop;
  TallySheet sheet = yard();
  sheet.lines = {lineOf("3x 10-6", "7"), lineOf("9", "6")};
  CHECK(readTally(sheet, CountingRule::volume, readingRules(shop.book)).figures.size() == 2);
  int next = 0;
  const auto tag = [&] { return "tag " + std::to_string(++next); };
  CHECK(spreadEqual(sheet, 0, tag) == 3);
  CHECK(spreadEqual(sheet, 3, tag) == 1);
  REQUIRE(sheet.lines.size() == 4);
  for (std::size_t l = 0; l < 3; ++l) {
    CHECK(sheet.lines[l].at(TallyCell::length) == "10-6");
    CHECK(sheet.lines[l].at(TallyCell::width) == "7");
  }
  CHECK(sheet.lines[2].at(TallyCell::tag) == "tag 2");
  CHECK(sheet.lines[3].at(TallyCell::length) == "9");
  for (const char* odd : {"0x 8", "x 8", "3x", "3 x", "10 1/2"}) {
    TallySheet one = yard();
    one.lines = {lineOf(odd, "7")};
    spreadEqual(one, 0, tag);
    CHECK(one.lines.size() == 1);
  }
}

TEST_CASE("a price is of what is said after it") {
  const sample::Shop shop;
  const exchange::ReadingRules rules = readingRules(shop.book);
  TypedLine line = lineOf("10", "6");
  for (const auto& [said, basis] :
       std::vector<std::pair<std::string, PriceBasis>>{{"6", PriceBasis::perFoot},
                                                       {"6 bf", PriceBasis::perFoot},
                                                       {"45 each", PriceBasis::each},
                                                       {"3.20 ft", PriceBasis::perRunningFoot},
                                                       {"900 m3", PriceBasis::perCubicMetre},
                                                       {"120 lot", PriceBasis::lot}}) {
    cell(line, TallyCell::price) = said;
    const ReadLine read = readLine(line, 1, rules);
    REQUIRE(read.line);
    CHECK(read.line->basis == basis);
  }
  cell(line, TallyCell::price) = "6 apples";
  const ReadLine wrong = readLine(line, 1, rules);
  REQUIRE(wrong.faults.size() == 1);
  CHECK(wrong.faults[0].cell == TallyCell::price);
  // Two lines of one lot share its price.
  TallySheet sheet = yard();
  sheet.lines = {lineOf("10", "6"), lineOf("10", "6")};
  for (TypedLine& each : sheet.lines) cell(each, TallyCell::price) = "120 lot A";
  const ReadTally read = readTally(sheet, CountingRule::volume, rules);
  REQUIRE(read.figures.size() == 2);
  CHECK(read.figures[0].price == parseMoney("60"));
}

TEST_CASE("outline points of both faces, thickness and moisture are typed in the line") {
  const sample::Shop shop;
  TypedLine slab = lineOf("8", "");
  cell(slab, TallyCell::outlineA) = "0:0-14; 48:1/2-15; end:0-16";
  cell(slab, TallyCell::outlineB) = "0:0-15; end:0-17";
  cell(slab, TallyCell::thickness) = "1 1/16";
  cell(slab, TallyCell::moisture) = "14";
  const ReadLine read = readLine(slab, 1, readingRules(shop.book));
  REQUIRE(read.line);
  CHECK(read.line->outline[0].points().size() == 3);
  CHECK(read.line->outline[1].points().back().far == Length::inches(17));
  CHECK(read.line->thickness == Length::sixtyFourths(68));
  CHECK(read.line->moistureTenths == 140);
  cell(slab, TallyCell::outlineA) = "0:0-14; 47:1/2-15";
  const ReadLine wrong = readLine(slab, 1, readingRules(shop.book));
  REQUIRE(wrong.faults.size() == 1);
  CHECK(wrong.faults[0].cell == TallyCell::outlineA);
}
