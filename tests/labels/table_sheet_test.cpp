#include "labels/table_sheet.h"

#include <algorithm>
#include <catch2/catch.hpp>

using namespace flitch;
using namespace flitch::pages;

namespace {

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

std::vector<QRectF> textsOf(const Page& page) {
  std::vector<QRectF> boxes;
  for (const Ink& ink : page.ink) {
    if (const auto* text = std::get_if<Text>(&ink)) boxes.push_back(textBox(*text));
  }
  return boxes;
}

int shown(const std::vector<Page>& pages, const QString& words) {
  int count = 0;
  for (const Page& page : pages) {
    for (const Ink& ink : page.ink) {
      const auto* text = std::get_if<Text>(&ink);
      if (text && shownText(*text).contains(words)) ++count;
    }
  }
  return count;
}

}  // namespace

TEST_CASE("a report on paper shows every row once, keeps to the sheet and overlaps nothing") {
  for (const int rows : {0, 1, 22, 25, 60}) {
    for (const std::string& why : {std::string("1.0 bf did not come"), std::string(300, 'w')}) {
      INFO(rows << " rows, " << why);
      const auto pages = tableSheets(claim(rows, why), Unit::inches, "$", "claim");
      CHECK(shown(pages, "T0042-F") == rows);
      CHECK(shown(pages, "$12,345.00") == 1);
      CHECK(shown(pages, "a licensed inspector decides") == 1);
      CHECK(shown(pages, "size") == 0);  // a column without any entry
      for (const Page& page : pages) {
        const auto boxes = textsOf(page);
        const QRectF inside = QRectF(QPointF(0, 0), page.mm).adjusted(8, 8, -8, -8);
        for (std::size_t a = 0; a < boxes.size(); ++a) {
          CHECK(inside.contains(boxes[a]));
          for (std::size_t b = a + 1; b < boxes.size(); ++b) {
            CHECK_FALSE(boxes[a].adjusted(0.05, 0.05, -0.05, -0.05).intersects(boxes[b]));
          }
        }
      }
    }
  }
}
