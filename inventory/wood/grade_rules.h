#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "inventory/wood/clear_cuttings.h"
#include "inventory/wood/length.h"

namespace flitch {

/// Hardwood grades of clear-face cuttings, best first. No. 2B and No. 3B rest on sound cuttings,
/// which are cut without regard to looks: they are not estimated, and what reaches no grade here
/// is below.
enum class Grade { fas, fasOneFace, selects, no1Common, no2aCommon, no3aCommon, below };
/// `FAS`, `F1F`, `Selects`, `No. 1 Common`, `No. 2A Common`, `No. 3A Common`, `below No. 3A`.
[[nodiscard]] std::string_view word(Grade grade);
/// As yards write them: `FAS`, `F1F`, `Sel`, `1C`, `No 1 Common`, `#2A`, ... None for others.
[[nodiscard]] std::optional<Grade> parseGrade(std::string_view text);

// What follows carries figures over from the NHLA grading chart (reprinted by a distributor,
// hooddistribution.com), the AHEC technical guide (2004) and NHLA Rules 2007 par. 37 as quoted:
// tests/wood/data/grade_rules.csv and grade_details.csv give the place of each. SM is the surface
// measure. A cutting unit is 12 square inches: 192 cells.

inline constexpr std::int64_t cellsPerUnit = 192;
inline constexpr int cellsPerFoot = 48, cellsPerInch = 4;

/// One way a face may reach a grade: so many cuttings at most that together have so many
/// hundredths of a unit for each foot of surface measure.
struct CuttingRule {
  int count = 0;
  int hundredthsPerFoot = 0;
  [[nodiscard]] std::int64_t neededCells(int surfaceMeasure) const {
    return (static_cast<std::int64_t>(hundredthsPerFoot) * surfaceMeasure * cellsPerUnit + 99) /
           100;
  }
};

/// The ways for a face to have the cuttings of FAS (the better face of F1F and Selects, too),
/// No. 1, No. 2A or No. 3A Common; any one will do. Fractions of a cutting are dropped (trade
/// practice, from memory). Empty: no set of cuttings does (then wholeFaceClear() may).
/// `surfaceMeasure` from 1. `boardFeetLong`: whole feet, for the cuttings a long board has more.
[[nodiscard]] std::vector<CuttingRule> cuttingRules(Grade grade, int surfaceMeasure,
                                                    int boardFeetLong);
/// Where the face must be clear from edge to edge instead: No. 1 Common at SM 1.
[[nodiscard]] bool wholeFaceClear(Grade grade, int surfaceMeasure);
/// Selects at SM 2 and 3: the better face is wholly clear, or has these units in one cutting.
[[nodiscard]] std::optional<CuttingRule> selectsRule(int surfaceMeasure);
/// FAS at SM 6 to 12, 6 in and wider: two cuttings over the full width, of any length, with 97 %.
[[nodiscard]] std::optional<CuttingRule> fullWidthRule(int surfaceMeasure);

/// 4 in x 5 ft or 3 in x 7 ft; 4 in x 2 ft or 3 in x 3 ft; 3 in x 2 ft.
[[nodiscard]] std::span<const LeastCutting> leastCuttings(Grade grade);

struct LeastBoard {
  Length width, length;
};
/// 6 in x 8 ft; 4 in x 6 ft; 3 in x 4 ft. Kiln-dried boards may be scant in width by 1/4 in (NHLA,
/// kiln dried rules article of 2025-02-28 quoting Rules 2023 p. 56).
[[nodiscard]] LeastBoard leastBoard(Grade grade);
inline constexpr Length kilnDriedScantWidth = Length::sixtyFourths(16);

/// Limits on a FAS face beside its cuttings, in inches by surface measure.
struct FasLimits {
  int pith = 0;        ///< SM: all pith together, along
  int knotThirds = 0;  ///< SM/3: average diameter of the largest knot or hole, in thirds
  int splits = 0;      ///< the greater of 2 SM and 12: all end splits together
};
[[nodiscard]] FasLimits fasLimits(int surfaceMeasure);

}  // namespace flitch
