#include "inventory/records/label_paper.h"

#include <catch2/catch.hpp>

#include "inventory/records/refusal.h"

using namespace flitch;

namespace {

LabelPaper sheet() {
  LabelPaper paper;
  paper.name = "freezer";
  paper.pageWidth = Length::millimetres(210);
  paper.pageHeight = Length::millimetres(297);
  paper.labelWidth = Length::millimetres(70);
  paper.labelHeight = Length::millimetres(37);
  paper.columns = 3;
  paper.rows = 8;
  paper.across = paper.labelWidth;
  paper.down = paper.labelHeight;
  return paper;
}

std::vector<std::string> wrongIn(const LabelPaper& paper) {
  std::vector<std::string> places;
  try {
    validate(paper);
  } catch (const Refusal& refusal) {
    for (const Complaint& complaint : refusal.complaints()) places.push_back(complaint.place);
  }
  return places;
}

using Places = std::vector<std::string>;

}  // namespace

TEST_CASE("a label stock by its numbers: everything wrong with it is said at once") {
  CHECK(wrongIn(sheet()).empty());
  LabelPaper paper = sheet();
  paper.across = Length::millimetres(69);
  paper.top = Length::millimetres(2);
  CHECK(wrongIn(paper) == Places{"--step", "--rows"});
  paper = sheet();
  paper.name.clear();
  paper.columns = 0;
  paper.labelHeight = Length();
  CHECK(wrongIn(paper) == Places{"--stock", "--columns", "--label"});
  paper = sheet();
  paper.columns = 4;
  CHECK(wrongIn(paper) == Places{"--columns"});
}

TEST_CASE("a printer lies by so much and no more") {
  validate(PrinterAlignment{"office", -20'000'000, 20'000'000, 9'500, 10'500});
  CHECK_THROWS_AS(validate(PrinterAlignment{"office", -20'000'001, 0, 10'000, 10'000}), Refusal);
  CHECK_THROWS_AS(validate(PrinterAlignment{"office", 0, 0, 10'501, 10'000}), Refusal);
  CHECK_THROWS_AS(validate(PrinterAlignment{"", 0, 0, 10'000, 10'000}), Refusal);
}
