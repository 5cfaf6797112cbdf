#include "inventory/wood/grade_rules.h"

#include <catch2/catch.hpp>
#include <regex>

#include "tests/wood/published.h"

using namespace flitch;

namespace {

Grade gradeOf(const std::string& name) {
  if (name.rfind("F1F", 0) == 0) return Grade::fasOneFace;
  if (name == "No. 2B Common" || name == "No. 3B Common") return Grade::below;
  return parseGrade(name).value();
}

/// `4 in x 5 ft or 3 in x 7 ft` as cells.
std::vector<LeastCutting> sizesOf(const std::string& text) {
  std::vector<LeastCutting> sizes;
  const std::regex size("([0-9]+) in x ([0-9]+) ft");
  for (std::sregex_iterator at(text.begin(), text.end(), size), end; at != end; ++at) {
    sizes.push_back({std::stoi((*at)[1]) * cellsPerInch, std::stoi((*at)[2]) * cellsPerFoot});
  }
  return sizes;
}

/// `SM/4`, `(SM+1)/3`: dropped to a whole number.
int formula(const std::string& text, int sm) {
  if (text == "SM/4") return sm / 4;
  if (text == "(SM+1)/3") return (sm + 1) / 3;
  if (text == "SM/2") return sm / 2;
  FAIL(text);
  return 0;
}

const CuttingRule* ruleWith(const std::vector<CuttingRule>& rules, int hundredths) {
  for (const CuttingRule& rule : rules) {
    if (rule.hundredthsPerFoot == hundredths) return &rule;
  }
  return nullptr;
}

void checkChart(const PublishedRow& row, Grade grade) {
  const int units = std::stoi(row.at("cutting_units_per_SM"));
  for (int sm = 1; sm <= 30; ++sm) {
    CAPTURE(sm);
    const std::vector<CuttingRule> rules = cuttingRules(grade, sm, 12);
    const bool own =
        (grade == Grade::no1Common && sm <= 2) || (grade == Grade::no2aCommon && sm == 1);
    if (own) continue;  // the chart's notes, tested below
    const CuttingRule* rule = ruleWith(rules, units * 100);
    if (row.at("cuttings_allowed") == "unlimited") {
      REQUIRE(rule);
      CHECK(rule->count == mostCuttings);
      continue;
    }
    const int allowed =
        std::min(formula(row.at("cuttings_allowed"), sm), std::stoi(row.at("max_cuttings")));
    CHECK((rule ? rule->count : 0) == allowed);
    std::smatch range;
    const std::string text = row.at("SM_range_for_one_extra_cutting");
    REQUIRE(std::regex_match(text, range, std::regex("([0-9]+) to ([0-9]+)")));
    const bool inside = sm >= std::stoi(range[1]) && sm <= std::stoi(range[2]);
    const CuttingRule* extra = ruleWith(rules, std::stoi(row.at("units_per_SM_with_extra")) * 100);
    CHECK((extra != nullptr) == inside);
    if (extra) CHECK(extra->count == allowed + 1);
  }
}

}  // namespace

TEST_CASE("the grading chart: NHLA chart as reprinted, AHEC technical guide (2004), S rows") {
  int rows = 0;
  for (const PublishedRow& row : published("grade_rules.csv")) {
    const Grade grade = gradeOf(row.at("grade"));
    if (grade == Grade::below) continue;  // sound cuttings: not estimated
    DYNAMIC_SECTION(row.at("grade") << ", " << row.at("source")) {
      if (grade != Grade::fasOneFace) {
        std::smatch size;
        const std::string board = row.at("min_board");
        REQUIRE(std::regex_match(board, size, std::regex("([0-9]+) in x ([0-9]+) ft")));
        CHECK(leastBoard(grade).width == Length::inches(std::stoi(size[1])));
        CHECK(leastBoard(grade).length == Length::feet(std::stoi(size[2])));
      }
      const std::vector<LeastCutting> sizes = sizesOf(row.at("min_cutting"));
      if (!sizes.empty()) {
        const auto least = leastCuttings(grade);
        REQUIRE(least.size() == sizes.size());
        for (std::size_t i = 0; i < sizes.size(); ++i) {
          CHECK(least[i].width == sizes[i].width);
          CHECK(least[i].length == sizes[i].length);
        }
      }
      if (grade == Grade::fas || grade >= Grade::no1Common) checkChart(row, grade);
    }
    ++rows;
  }
  CHECK(rows == 6);
}

TEST_CASE(
    "F1F and Selects ask the units of FAS of the better face: NHLA chart, AHEC (2004), S rows") {
  // F1F (FAS one face); Selects. What the poorer face owes them, grade_test.cpp shows on boards.
  int rows = 0;
  for (const PublishedRow& row : published("grade_rules.csv")) {
    const Grade grade = gradeOf(row.at("grade"));
    if (grade != Grade::fasOneFace && grade != Grade::selects) continue;
    CAPTURE(row.at("grade"));
    CHECK(row.at("fraction_clear") == "10/12 better face");
    CHECK(row.at("min_cutting") == "better face FAS; poor face No. 1 Common");
    CHECK(row.at("cuttings_allowed") == "as FAS / as No. 1 Common");
    const int units = std::stoi(row.at("cutting_units_per_SM"));
    const int extra = std::stoi(row.at("units_per_SM_with_extra"));
    for (int sm = 4; sm <= 30; ++sm) {
      CAPTURE(sm);
      const std::vector<CuttingRule> rules = cuttingRules(grade, sm, 12);
      const CuttingRule* plain = ruleWith(rules, units * 100);
      REQUIRE(plain);
      CHECK(plain->count == std::min(sm / 4, 4));
      CHECK((ruleWith(rules, extra * 100) != nullptr) == (sm >= 6 && sm <= 15));
    }
    ++rows;
  }
  CHECK(rows == 2);
  CHECK(leastBoard(Grade::fasOneFace).width == leastBoard(Grade::fas).width);
  CHECK(leastBoard(Grade::fasOneFace).length == leastBoard(Grade::fas).length);
}

TEST_CASE("notes of the chart: small surface measures (S rows of grade_rules.csv)") {
  CHECK(wholeFaceClear(Grade::no1Common, 1));
  CHECK(cuttingRules(Grade::no1Common, 1, 4).empty());
  CHECK_FALSE(wholeFaceClear(Grade::no1Common, 2));
  REQUIRE(cuttingRules(Grade::no1Common, 2, 4).size() == 1);
  CHECK(cuttingRules(Grade::no1Common, 2, 4)[0].hundredthsPerFoot == 900);
  CHECK(cuttingRules(Grade::no2aCommon, 1, 4)[0].hundredthsPerFoot == 800);
  CHECK(selectsRule(2)->hundredthsPerFoot == 1100);
  CHECK(selectsRule(3)->count == 1);
  CHECK_FALSE(selectsRule(4));
  CHECK_FALSE(selectsRule(1));
  CHECK_FALSE(fullWidthRule(5));
  CHECK(fullWidthRule(6)->hundredthsPerFoot == 1164);
  CHECK(fullWidthRule(12)->count == 2);
  CHECK_FALSE(fullWidthRule(13));
}

TEST_CASE(
    "units needed: NHLA Rules 2007 par. 37 as quoted, NHLA chart, S rows of grade_details.csv") {
  CHECK(cellsPerUnit == 12 * 16);  // cutting_unit: 12 square inches of 16 cells
  int rows = 0;
  for (const PublishedRow& row : published("grade_details.csv")) {
    std::smatch factor;
    const std::string value = row.at("value");
    if (row.at("unit") != "cutting unit" ||
        !std::regex_match(value, factor, std::regex("SM \\* ([0-9.]+)")))
      continue;
    DYNAMIC_SECTION(row.at("item") << ", " << row.at("source")) {
      const int hundredths = static_cast<int>(std::stod(factor[1]) * 100 + 0.5);
      for (int sm = 1; sm <= 20; ++sm) {
        const std::int64_t cells = CuttingRule{1, hundredths}.neededCells(sm);
        CHECK(cells * 100 >= std::int64_t{hundredths} * sm * cellsPerUnit);
        CHECK((cells - 1) * 100 < std::int64_t{hundredths} * sm * cellsPerUnit);
      }
    }
    ++rows;
  }
  CHECK(rows == 7);
}

TEST_CASE(
    "limits of FAS and long boards: NHLA chart, NHLA Rules 2015 p. 22, S rows of "
    "grade_details.csv") {
  // fas_pith_limit: SM; fas_knot_limit: SM/3; fas_split_limit: 2 SM or 12 in.
  for (int sm = 4; sm <= 20; ++sm) {
    CHECK(fasLimits(sm).pith == sm);
    CHECK(fasLimits(sm).knotThirds == sm);
    CHECK(fasLimits(sm).splits == std::max(2 * sm, 12));
  }
  // long_boards: one more each 4 ft of SM over 16, 7 at most.
  const auto count = [](Grade grade, int sm, int feet) {
    return cuttingRules(grade, sm, feet)[0].count;
  };
  CHECK(count(Grade::fas, 20, 17) == 4);
  CHECK(count(Grade::fas, 19, 18) == 4);
  CHECK(count(Grade::fas, 20, 18) == 5);
  CHECK(count(Grade::fas, 40, 18) == 7);
  CHECK(count(Grade::no1Common, 24, 18) == 7);
  CHECK(count(Grade::no2aCommon, 24, 18) == 7);
}

TEST_CASE("cuttings and units by surface measure, computed rows of grade_cuttings_by_SM.csv") {
  struct Columns {
    Grade grade;
    const char *cuttings, *units, *extra;
    int hundredths, extraHundredths;
  };
  const Columns all[] = {
      {Grade::fas, "FAS_cuttings", "FAS_units", "FAS_units_with_1_extra", 1000, 1100},
      {Grade::no1Common, "1C_cuttings", "1C_units", "1C_units_with_1_extra", 800, 900},
      {Grade::no2aCommon, "2A_cuttings", "2A_units", "2A_units_with_1_extra", 600, 800}};
  for (const PublishedRow& row : published("grade_cuttings_by_SM.csv")) {
    const int sm = std::stoi(row.at("SM"));
    for (const Columns& column : all) {
      CAPTURE(sm, column.cuttings);
      const std::vector<CuttingRule> rules = cuttingRules(column.grade, sm, 12);
      // SM 1 of No. 1 Common asks for a clear face, which the table gives as units.
      if (column.grade == Grade::no1Common && sm == 1) continue;
      if (row.at(column.cuttings).empty()) {
        CHECK(rules.empty());
        continue;
      }
      const bool own = (column.grade == Grade::no1Common && sm == 2) ||
                       (column.grade == Grade::no2aCommon && sm == 1);
      REQUIRE_FALSE(rules.empty());
      CHECK(rules[0].count == std::stoi(row.at(column.cuttings)));
      CHECK(rules[0].neededCells(sm) == std::stoi(row.at(column.units)) * cellsPerUnit);
      if (!own) CHECK(rules[0].hundredthsPerFoot == column.hundredths);
      CHECK((rules.size() > 1) == !row.at(column.extra).empty());
      if (rules.size() > 1) {
        CHECK(rules[1].neededCells(sm) == std::stoi(row.at(column.extra)) * cellsPerUnit);
        CHECK(rules[1].hundredthsPerFoot == column.extraHundredths);
      }
    }
  }
}

TEST_CASE("grades as yards write them") {
  for (const char* written : {"FAS", "fas", " F.A.S. "}) CHECK(parseGrade(written) == Grade::fas);
  for (const char* written : {"No. 1 Common", "No 1 C", "#1 Common", "1C", "1 common"})
    CHECK(parseGrade(written) == Grade::no1Common);
  for (const char* written : {"No. 2A Common", "2AC", "No. 2 Common"})
    CHECK(parseGrade(written) == Grade::no2aCommon);
  CHECK(parseGrade("F1F") == Grade::fasOneFace);
  CHECK(parseGrade("Select") == Grade::selects);
  CHECK(parseGrade("No. 3A Common") == Grade::no3aCommon);
  for (const char* written : {"", "offcut", "cabinet", "Select and Better", "No. 2B Common"})
    CHECK_FALSE(parseGrade(written));
  for (const Grade grade : {Grade::fas, Grade::fasOneFace, Grade::selects, Grade::no1Common,
                            Grade::no2aCommon, Grade::no3aCommon})
    CHECK(parseGrade(word(grade)) == grade);
}
