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
  TallySheet sheet{"Yard \"north\"", "Q-1", "2026-05-31", "84", CountingRule::halfInch, {}};
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
