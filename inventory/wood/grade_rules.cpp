#include "inventory/wood/grade_rules.h"

#include <algorithm>
#include <array>
#include <string>

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

constexpr std::array<std::string_view, 7> words{
    "FAS", "F1F", "Selects", "No. 1 Common", "No. 2A Common", "No. 3A Common", "below No. 3A"};

/// Other spellings of yards, without blanks and points.
struct Spelling {
  std::string_view written;
  Grade grade;
};
constexpr Spelling spellings[] = {
    {"fas", Grade::fas},
    {"fas1f", Grade::fasOneFace},
    {"f1f", Grade::fasOneFace},
    {"fasoneface", Grade::fasOneFace},
    {"selects", Grade::selects},
    {"select", Grade::selects},
    {"sel", Grade::selects},
    {"no1common", Grade::no1Common},
    {"1common", Grade::no1Common},
    {"no1c", Grade::no1Common},
    {"1c", Grade::no1Common},
    {"no2acommon", Grade::no2aCommon},
    {"2acommon", Grade::no2aCommon},
    {"no2ac", Grade::no2aCommon},
    {"no2a", Grade::no2aCommon},
    {"2ac", Grade::no2aCommon},
    {"2a", Grade::no2aCommon},
    {"no2common", Grade::no2aCommon},
    {"2common", Grade::no2aCommon},
    {"2c", Grade::no2aCommon},
    {"no3acommon", Grade::no3aCommon},
    {"3acommon", Grade::no3aCommon},
    {"no3ac", Grade::no3aCommon},
    {"no3a", Grade::no3aCommon},
    {"3ac", Grade::no3aCommon},
    {"3a", Grade::no3aCommon},
};

/// A column of the chart: cuttings allowed by surface measure, units for each foot of it, and the
/// range where one cutting more is allowed for more units.
struct ChartColumn {
  int plus, over, most;  ///< (SM + plus) / over cuttings, `most` at most
  int units;
  int extraFrom, extraTo, extraUnits;
};
constexpr ChartColumn fasColumn{0, 4, 4, 10, 6, 15, 11};
constexpr ChartColumn no1Column{1, 3, 5, 8, 3, 10, 9};
constexpr ChartColumn no2aColumn{0, 2, 7, 6, 2, 7, 8};

constexpr LeastCutting cells(int inches, int feet) {
  return {inches * cellsPerInch, feet * cellsPerFoot};
}
constexpr LeastCutting fasLeast[] = {cells(4, 5), cells(3, 7)};
constexpr LeastCutting no1Least[] = {cells(4, 2), cells(3, 3)};
constexpr LeastCutting no2aLeast[] = {cells(3, 2)};

}  // namespace

std::string_view word(Grade grade) { return words.at(static_cast<std::size_t>(grade)); }

std::optional<Grade> parseGrade(std::string_view text) {
  std::string name;
  for (const char c : plain(text)) {
    if (c != ' ' && c != '.' && c != '#' && c != '-') name.push_back(c);
  }
  for (const Spelling& spelling : spellings) {
    if (spelling.written == name) return spelling.grade;
  }
  return std::nullopt;
}

std::vector<CuttingRule> cuttingRules(Grade grade, int surfaceMeasure, int boardFeetLong) {
  const int sm = surfaceMeasure;
  if (grade == Grade::no3aCommon) return {{mostCuttings, 400}};
  if (grade == Grade::no1Common && sm == 1) return {};
  if (grade == Grade::no1Common && sm == 2) return {{1, 900}};
  if (grade == Grade::no2aCommon && sm == 1) return {{1, 800}};
  const ChartColumn& column = grade == Grade::no1Common    ? no1Column
                              : grade == Grade::no2aCommon ? no2aColumn
                                                           : fasColumn;
  int count = std::min((sm + column.plus) / column.over, column.most);
  // NHLA Rules 2015 p. 22: over 17 ft with more than 16 ft SM, for all but No. 2A.
  if (grade != Grade::no2aCommon && boardFeetLong > 17 && sm > 16)
    count = std::min(count + (sm - 16) / 4, 7);
  std::vector<CuttingRule> rules;
  if (count > 0) rules.push_back({count, column.units * 100});
  if (sm >= column.extraFrom && sm <= column.extraTo)
    rules.push_back({count + 1, column.extraUnits * 100});
  return rules;
}

bool wholeFaceClear(Grade grade, int surfaceMeasure) {
  return grade == Grade::no1Common && surfaceMeasure == 1;
}

std::optional<CuttingRule> selectsRule(int surfaceMeasure) {
  if (surfaceMeasure != 2 && surfaceMeasure != 3) return std::nullopt;
  return CuttingRule{1, 1100};
}

std::optional<CuttingRule> fullWidthRule(int surfaceMeasure) {
  if (surfaceMeasure < 6 || surfaceMeasure > 12) return std::nullopt;
  return CuttingRule{2, 1164};
}

std::span<const LeastCutting> leastCuttings(Grade grade) {
  if (grade == Grade::no1Common) return no1Least;
  if (grade == Grade::no2aCommon || grade == Grade::no3aCommon) return no2aLeast;
  return fasLeast;
}

LeastBoard leastBoard(Grade grade) {
  if (grade == Grade::fas || grade == Grade::fasOneFace)
    return {Length::inches(6), Length::feet(8)};
  if (grade == Grade::selects) return {Length::inches(4), Length::feet(6)};
  return {Length::inches(3), Length::feet(4)};
}

FasLimits fasLimits(int surfaceMeasure) {
  return {surfaceMeasure, surfaceMeasure, std::max(2 * surfaceMeasure, 12)};
}

}  // namespace flitch
