#include "inventory/exchange/csv.h"

#include <catch2/catch.hpp>
#include <random>

using namespace flitch;
using namespace flitch::exchange;

namespace {

std::vector<std::string> textsOf(const std::vector<CsvCell>& cells) {
  std::vector<std::string> out;
  for (const CsvCell& cell : cells) out.push_back(cell.text);
  return out;
}

using Texts = std::vector<std::string>;

Table tableOf(const std::vector<std::string>& cells) {
  Table table;
  std::vector<CellValue> row;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    table.columns.push_back({"c" + std::to_string(i), "", false});
    row.emplace_back(cells[i]);
  }
  table.rows.push_back(row);
  return table;
}

}  // namespace

TEST_CASE("cells with their lines") {
  const CsvFile file = readCsv("a,b\n\"x\ny\",2\n\n 3 ,\"a \"\"b\"\"\" \n", "f.csv");
  CHECK(textsOf(file.head) == Texts{"a", "b"});
  REQUIRE(file.rows.size() == 2);
  CHECK(textsOf(file.rows[0].cells) == Texts{"x\ny", "2"});
  CHECK(file.rows[0].line == 2);
  CHECK(file.rows[0].cells[1].line == 3);
  CHECK(textsOf(file.rows[1].cells) == Texts{"3", "a \"b\""});
  CHECK(file.rows[1].line == 5);
}

TEST_CASE("the sign between cells is that of the head") {
  CHECK(textsOf(readCsv("a;b\n1,5;2\n", "f").rows[0].cells) == Texts{"1,5", "2"});
  CHECK(textsOf(readCsv("a\tb\n1;5\t2\n", "f").rows[0].cells) == Texts{"1;5", "2"});
  CHECK(textsOf(readCsv("\n\na,b;c\n1,2\n", "f").head) == Texts{"a", "b;c"});
  CHECK(textsOf(readCsv("\"a,b\";c\n1;2\n", "f").head) == Texts{"a,b", "c"});
  CHECK(textsOf(readCsv("only\n1\n", "f").rows[0].cells) == Texts{"1"});
}

TEST_CASE("a table as a file") {
  Table table;
  table.columns = {{"tag", "Tag", false},  {"length", "Length", true}, {"feet", "bf", true},
                   {"cost", "Cost", true}, {"share", "%", true},       {"count", "n", true}};
  table.rows = {{std::string("T0042-F"), Length::sixtyFourths(8 * 64 + 32), Feet{7375},
                 Money::tenThousandths(-12'345), Permille{125}, std::int64_t{-3}},
                {std::monostate{}, Length::micrometres(952'400), Feet{0}, Money(), Permille{},
                 std::int64_t{0}}};
  table.totals = {std::string("not written")};
  CHECK(writeCsv(table) ==
        "tag,length,feet,cost,share,count\r\n"
        "T0042-F,8 1/2 in,7.375,-1.2345,12.5,-3\r\n"
        ",952.4 mm,0,0,0,0\r\n");
}

TEST_CASE("no cell runs as a formula in a spreadsheet") {
  const auto lineOf = [](const std::string& cell) {
    const std::string all = writeCsv(tableOf({cell}));
    return all.substr(4, all.size() - 6);
  };
  CHECK(lineOf("=1+2") == "'=1+2");
  CHECK(lineOf("@SUM(A1)") == "'@SUM(A1)");
  CHECK(lineOf("+cmd|' /C calc'!A0") == "'+cmd|' /C calc'!A0");
  CHECK(lineOf("-2+3") == "'-2+3");
  CHECK(lineOf("-2.5") == "-2.5");
  CHECK(lineOf("=HYPERLINK(\"x\",\"y\")") == "\"'=HYPERLINK(\"\"x\"\",\"\"y\"\")\"");
  CHECK(lineOf("\t=1") == "\"'\t=1\"");
  CHECK(lineOf("'=1") == "''=1");
  CHECK(lineOf("maker's") == "maker's");
}

TEST_CASE("what is written reads back to the same cells") {
  std::mt19937_64 random(31);
  const std::string keys = "ab=+-@'\"',;\t\n 1.";
  for (int round = 0; round < 5000; ++round) {
    Texts cells(1 + random() % 4);
    for (std::string& cell : cells) {
      for (std::size_t n = 1 + random() % 6; n > 0; --n) cell += keys[random() % keys.size()];
      // Outer blanks are cut on reading, and a row of nothing is no row.
      cell = "x" + cell + "y";
      if (random() % 2 == 0) cell = keys.substr(2 + random() % 4, 1) + cell;
    }
    const CsvFile back = readCsv(writeCsv(tableOf(cells)), "f");
    if (back.rows.size() != 1 || textsOf(back.rows[0].cells) != cells) {
      FAIL(writeCsv(tableOf(cells)));
    }
  }
}
