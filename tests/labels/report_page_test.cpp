#include "labels/report_page.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "labels/passport_page.h"
#include "tests/labels/sample_boards.h"
#include "tests/labels/words_on.h"

using namespace flitch;
using namespace flitch::pages;
using test::checkTexts;
using test::texts;

namespace {

std::size_t shown(const std::vector<Page>& pages, const QString& words) {
  std::size_t count = 0;
  for (const Page& page : pages)
    for (const Text& text : texts(page)) count += shownText(text) == words;
  return count;
}

Table tableOf(std::size_t rows, std::size_t figures) {
  Table table;
  table.title = "Yield by supplier";
  table.columns = {{"name", "supplier", false}, {"empty", "nothing", false}};
  for (std::size_t n = 0; n < figures; ++n) table.columns.push_back({"cost", "end trim", true});
  for (std::size_t r = 0; r < rows; ++r) {
    table.rows.push_back({"row " + std::to_string(r), {}});
    for (std::size_t n = 0; n < figures; ++n)
      table.rows.back().emplace_back(Money::tenThousandths(12'345'600));
  }
  table.totals = {std::string("all"), {}};
  for (std::size_t n = 0; n < figures; ++n) table.totals.emplace_back(Money::units(99'999));
  table.note = "A part counts at the quarters it was cut from.";
  return table;
}

Table claim(int rows, const std::string& why) {
  Table table;
  table.title = "Claim on Norling";
  table.columns = {{"tag", "tag", false},
                   {"what", "what", false},
                   {"size", "size", false},
                   {"claim", "claim", true},
                   {"why", "why", false}};
  for (int i = 0; i < rows; ++i) {
    table.rows.push_back(
        {std::string("T0042-F"), std::string("short footage"), {}, Money::units(i + 1), why});
  }
  table.totals = {std::string("all"), {}, {}, Money::units(12'345), {}};
  table.note = "Grades are estimates: a licensed inspector decides.";
  return table;
}

const ReportFacts facts{"Wendlehaven bench", "2026-05-31", Unit::inches, "$"};

}  // namespace

TEST_CASE("a report's plot stands over its table, a column a row, its sentence above it") {
  Table stock;
  stock.title = "Stock on the rack";
  stock.columns = {
      {"species", "species", false}, {"nominal", "quarters", false}, {"value", "value", true}};
  for (const char* species : {"ash", "cherry", "white oak"})
    stock.rows.push_back({std::string(species), std::string("4/4"), Money::units(120)});
  stock.totals = {std::string("all"), {}, Money::units(360)};
  const ReportPlot plot = stockPlot(stock, Unit::inches, "$");
  REQUIRE(plot.plot.columns.size() == 3);
  const auto pages = reportPages({stock}, facts, plot);
  REQUIRE(pages.size() == 1);
  checkTexts(pages[0]);
  double said = 0, title = 0;
  int figures = 0;
  for (const Text& text : texts(pages[0])) {
    if (text.text == plot.said) said = text.at.y();
    if (text.text == "Stock on the rack" && title == 0) title = text.at.y();
    figures += shownText(text) == "$120.00";
  }
  CHECK(said > 0);
  CHECK(title > said + 60);
  CHECK(figures == 6);
  // Without rows there is nothing to draw, and the table stands alone.
  CHECK(stockPlot({"", stock.columns, {}, {}, "", {}}, Unit::inches, "$").plot.columns.empty());
  CHECK(agesPlot({}, "$").plot.columns.empty());
}

TEST_CASE("value by age: a board of three months stands in the second band") {
  Table old;
  old.columns = {{"months", "months", true}, {"value", "value", true}};
  for (const std::int64_t months : {0, 2, 3, 11, 30})
    old.rows.push_back({months, Money::units(10)});
  const auto columns = agesPlot(old, "$").plot.columns;
  REQUIRE(columns.size() == 5);
  CHECK(columns[0].figure == "$20.00");
  CHECK(columns[1].under == "1 board");
  CHECK(columns[2].figure == "$10.00");
  CHECK(columns[3].figure == "$0.00");
  CHECK(columns[4].under == "1 board");
}

TEST_CASE("a report keeps every row and repeats its head on each sheet") {
  const auto pages = reportPages({tableOf(100, 3)}, facts);
  CHECK(pages.size() == 3);
  for (const Page& page : pages) {
    CHECK(page.mm.width() < page.mm.height());
    checkTexts(page);
  }
  for (int row = 0; row < 100; ++row) CHECK(shown(pages, "row " + QString::number(row)) == 1);
  CHECK(shown(pages, "supplier") == pages.size());
  CHECK(shown(pages, "nothing") == 0);
  CHECK(shown(pages, "$1,234.56") == 300);
  CHECK(shown(pages, "$99,999.00") == 3);
  CHECK(shown(pages, "3 of 3") == 1);
}

TEST_CASE("a wide report lies, long names give way to figures, figures stay whole") {
  Table wide = tableOf(5, 9);
  wide.rows[2][0] = "The sawmill at the upper end of the long valley behind Wendlehaven, and sons";
  const auto pages = reportPages({wide, tableOf(2, 1)}, facts);
  REQUIRE(pages.size() == 1);
  CHECK(pages[0].mm.width() > pages[0].mm.height());
  checkTexts(pages[0]);
  CHECK(shown(pages, "$1,234.56") == 5 * 9 + 2);
  CHECK(shown(pages, QString::fromStdString(std::get<std::string>(wide.rows[2][0]))) == 0);
}

TEST_CASE(
    "a claim shows every row once, whatever its reasons, keeps to the sheet and overlaps nothing") {
  for (const int rows : {0, 1, 22, 25, 60}) {
    for (const std::string& why : {std::string("1.0 bf did not come"), std::string(300, 'w')}) {
      INFO(rows << " rows, " << why);
      const auto pages = reportPages({claim(rows, why)}, facts);
      CHECK(test::shown(pages, "T0042-F") == rows);
      CHECK(test::shown(pages, "$12,345.00") == 1);
      CHECK(test::shown(pages, "a licensed inspector decides") == 1);
      CHECK(test::shown(pages, "size") == 0);  // a column without any entry
      for (const Page& page : pages) checkTexts(page);
    }
  }
}

TEST_CASE("a report without rows is a sheet with its title and note") {
  Table none = tableOf(0, 1);
  none.totals.clear();
  const auto pages = reportPages({none}, facts);
  REQUIRE(pages.size() == 1);
  CHECK(shown(pages, QString::fromStdString(none.note)) == 1);
}

TEST_CASE("a passport is one sheet with its words, the board and the part in it") {
  const Board board = test::mapChestBoard();
  Piece piece;
  piece.kind = PieceKind::blank;
  piece.at = {Length::inches(20), Length::inches(1), Length::inches(40), Length::inches(4)};
  Table words;
  words.rows = {{std::string("board"), std::string("T0042-F, an offcut of T0007-L")},
                {std::string("delivery"),
                 std::string("2025-03-10 The sawmill at the upper end of the long valley behind "
                             "Wendlehaven, and sons, their paper Q-118")}};
  for (const Face up : {Face::a, Face::b}) {
    piece.faceUp = up;
    const Page page = passportPage(
        words, board, piece,
        {"C1", "long front", "Map chest", "Harbour archive", "Wendlehaven bench", "2026-05-31"});
    checkTexts(page);
    CHECK(shown({page}, "C1") == 1);
    CHECK(shown({page}, "T0042-F, an offcut of T0007-L") == 1);
    CHECK(shown({page}, "C1  long front") == 1);
    for (const Text& text : texts(page)) CHECK_FALSE(text.text.contains('$'));
  }
}
