// The optimizer against published and recomputed optima. Sources: row by row in the column `source`
// of tests/bench/data/*/expected.csv, the sets themselves in their READMEs there. What takes longer
// is left to cutbench.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "tests/bench/comparison.h"

using namespace flitch;
using bench::Comparison;
using bench::Variant;
using optimizer::FirstCut;

namespace {

using Names = std::set<std::string>;

/// Solves the instances of a set with these names (all, when none are given) and compares. No plan
/// may be at fault or beat what is known, no bound contradict it.
Comparison solved(const std::string& set, const Variant& variant, const Names& names = {},
                  const bench::Budget& budget = {}) {
  const std::string folder = FLITCHBOOK_SOURCE "/tests/bench/data/" + set;
  Comparison comparison(bench::readKnown(folder + "/expected.csv"), variant);
  std::size_t found = 0;
  for (const bench::Instance& instance : bench::readSet(folder)) {
    if (!names.empty() && names.count(instance.name) == 0) continue;
    ++found;
    const bench::Outcome outcome = bench::run(instance, variant, budget);
    INFO(set << " " << instance.name);
    CHECK(outcome.faults == std::vector<std::string>{});
    comparison.add(instance, outcome);
  }
  INFO(set << "\n" << comparison.text());
  CHECK_FALSE(comparison.bugs());
  CHECK((names.empty() || found == names.size()));
  return comparison;
}

/// All of `rows` optimal rows are met, and proven.
void allMet(const std::string& set, const Variant& variant, int rows, const Names& names = {}) {
  const Comparison comparison = solved(set, variant, names);
  INFO(set << "\n" << comparison.text());
  CHECK(comparison.met() == rows);
  CHECK(comparison.missed() == 0);
  CHECK(comparison.proven() >= rows);
}

/// All of these are proven, and equal to what is known of them or of a wider variant.
void allAsKnown(const std::string& set, const Variant& variant, const Names& names) {
  const Comparison comparison = solved(set, variant, names);
  INFO(set << "\n" << comparison.text());
  CHECK(comparison.proven() == static_cast<int>(names.size()));
  CHECK(comparison.worstGap() == 0);
}

constexpr FirstCut bothFirst[] = {FirstCut::x, FirstCut::y};

}  // namespace

TEST_CASE("unconstrained guillotine, two stages: Hifi and Zissimopoulos 1996 and recomputed") {
  for (const FirstCut first : bothFirst)
    for (const bool trim : {false, true})
      for (const bool rotation : {false, true})
        allMet("unconstrained_guillotine", {2, first, trim, rotation, 0}, 73);
}

TEST_CASE("unconstrained guillotine, three stages exact") {
  for (const FirstCut first : bothFirst)
    allMet("unconstrained_guillotine", {3, first, false, false, 0}, 73);
}

TEST_CASE("unconstrained guillotine, three stages exact, turned pieces") {
  for (const FirstCut first : bothFirst)
    allMet("unconstrained_guillotine", {3, first, false, true, 0}, 72);
}

TEST_CASE("unconstrained guillotine, three stages nonexact, crosscut first") {
  allMet("unconstrained_guillotine", {3, FirstCut::x, true, false, 0}, 73);
}

TEST_CASE("unconstrained guillotine, three stages nonexact, rip first") {
  allMet("unconstrained_guillotine", {3, FirstCut::y, true, false, 0}, 73);
}

TEST_CASE("boards with defects, two stages: ESICUP obstacles, recomputed") {
  for (const FirstCut first : {FirstCut::x, FirstCut::y, FirstCut::any})
    for (const bool trim : {false, true})
      for (const bool rotation : {false, true})
        allMet("defects_unconstrained", {2, first, trim, rotation, 0}, 11);
}

TEST_CASE("boards with defects, three stages: between two stages and no limit on stages") {
  for (const FirstCut first : bothFirst)
    for (const bool rotation : {false, true}) {
      const Comparison comparison = solved("defects_unconstrained", {3, first, false, rotation, 0});
      CHECK(comparison.proven() == 11);
    }
}

TEST_CASE("red oak boards of 1998 (USDA GTR NE-245), cutting bill CB1, kerf 0 and 1") {
  for (const FirstCut first : bothFirst)
    for (const optimizer::Tick kerf : {0, 1})
      allMet("red_oak_boards_1998", {2, first, false, false, kerf}, 362);
}

TEST_CASE("limited copies on one board, two stages: recomputed by a MIP") {
  const Names names{"3",   "3s",  "A1", "A1s",    "A3",     "CHL5",  "CU1",
                    "CW1", "OF1", "W",  "cgcut1", "cgcut3", "wang20"};
  for (const FirstCut first : bothFirst)
    for (const bool trim : {false, true})
      allMet("constrained_guillotine", {2, first, trim, false, 0}, 13, names);
}

TEST_CASE("limited copies on one board, three stages: no plan or bound against what is known") {
  // Furini, Malaguti and Thomopulos 2016. So little time leaves most of them open.
  const Names names{"3",     "A1",    "CHL1", "CHL7",   "OF1",  "Hchl2",
                    "gcut1", "gcut5", "STS2", "ngcut4", "ATP31"};
  for (const bool rotation : {false, true})
    (void)solved("constrained_guillotine", {3, FirstCut::any, false, rotation, 0}, names, {0.3});
}

TEST_CASE("limited copies on several boards: some need no more than three stages") {
  // Becker's data; equal to the optimum without limit on stages.
  const Names names{"macedo_A2_M2", "macedo_A2_M4", "macedo_A2_M8", "macedo_A7_M2"};
  allAsKnown("multi_board_knapsack", {3, FirstCut::any, false, false, 0}, names);
}

TEST_CASE("cutting stock: some orders need no more boards in three stages") {
  // Berkey and Wang 1987, Martello and Vigo 1998; equal to the optimum without limit on stages.
  const Names names{"cl_01_020_01", "cl_01_020_04", "cl_02_020_01", "cl_02_020_07", "cl_02_020_10",
                    "cl_04_020_01", "cl_04_020_04", "cl_09_020_05", "cl_09_020_08"};
  allAsKnown("cutting_stock_2d", {3, FirstCut::any, true, false, 0}, names);
}

TEST_CASE("bars: Falkenauer 1996, Schwerin and Waescher 1997, some of each") {
  const Names names{"u120_00", "u250_00", "u500_00", "t60_17",
                    "t120_12", "t249_11", "t501_02", "schwerin2_BPP16"};
  allAsKnown("one_dimensional", {2, FirstCut::x, false, false, 0}, names);
}

TEST_CASE("bars: Schoenfield's hard ones, some of them") {
  allAsKnown("one_dimensional", {2, FirstCut::x, false, false, 0},
             {"hard28_BPP360", "hard28_BPP742"});
}

TEST_CASE("bars: Scholl, Klein and Juergens 1997, some of sets 1 to 3") {
  const Names names{"N1C1W2_K", "N1C1W4_A", "N1C1W4_F", "N1C1W4_P", "N1C2W2_K",
                    "N1C2W4_F", "N2C1W4_A", "N2C1W4_P", "N2C2W2_K", "N2C2W4_F",
                    "N2C2W4_P", "N4W1B1R0", "N4W2B2R7", "HARD9"};
  allAsKnown("one_dimensional", {2, FirstCut::x, false, false, 0}, names);
}

TEST_CASE("a comparison tells what is met, missed, beaten and contradicted") {
  bench::Instance instance;
  instance.name = "one";
  const Variant twoX{2, FirstCut::x, false, false, 0};
  Variant free = twoX;
  free.stages = Variant::unlimited;
  free.first = FirstCut::any;
  const std::vector<bench::Known> known{{"one", twoX, false, 80, "optimal", ""},
                                        {"one", free, false, 100, "optimal", ""}};
  const auto after = [&](const Variant& variant, optimizer::Worth value, optimizer::Worth bound) {
    Comparison comparison(known, variant);
    comparison.add(instance, {value, bound, false, 0, {}});
    return comparison;
  };
  CHECK(after(twoX, 80, 80).met() == 1);
  CHECK(after(twoX, 79, 90).missed() == 1);
  CHECK_FALSE(after(twoX, 79, 90).bugs());
  CHECK(after(twoX, 81, 90).beaten().size() == 1);
  CHECK(after(twoX, 70, 79).contradicted().size() == 1);
  const Variant threeY{3, FirstCut::y, false, false, 0};  // holds two stages, crosscut first
  CHECK_FALSE(after(threeY, 95, 99).bugs());
  CHECK(after(threeY, 101, 120).beaten().size() == 1);
  CHECK(after(threeY, 70, 79).contradicted().size() == 1);
  const Variant twoY{2, FirstCut::y, false, false, 0};
  CHECK_FALSE(after(twoY, 70, 70).bugs());
  CHECK(after(twoY, 101, 101).beaten().size() == 1);
}

TEST_CASE("which cutting rules hold which") {
  const auto rules = [](int stages, FirstCut first, bool trim) {
    return Variant{stages, first, trim, false, 0};
  };
  const Variant twoX = rules(2, FirstCut::x, false), twoXTrim = rules(2, FirstCut::x, true);
  CHECK(bench::holds(twoX, twoX));
  CHECK(bench::holds(twoXTrim, twoX));
  CHECK_FALSE(bench::holds(twoX, twoXTrim));
  CHECK(bench::holds(rules(3, FirstCut::x, false), twoXTrim));
  CHECK(bench::holds(rules(3, FirstCut::y, false), twoX));
  CHECK_FALSE(bench::holds(rules(3, FirstCut::y, false), twoXTrim));
  CHECK(bench::holds(rules(3, FirstCut::y, true), twoXTrim));
  CHECK(bench::holds(rules(2, FirstCut::any, false), twoX));
  CHECK_FALSE(bench::holds(twoX, rules(2, FirstCut::any, false)));
  CHECK_FALSE(bench::holds(twoX, rules(3, FirstCut::x, false)));
  Variant turned = twoX, thick = twoX;
  turned.rotation = true;
  thick.kerf = 1;
  CHECK(bench::holds(turned, twoX));
  CHECK_FALSE(bench::holds(twoX, turned));
  CHECK_FALSE(bench::holds(thick, twoX));
}
