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
  for (const bench::Instance& instance : bench::readSet(folder)) {
    if (!names.empty() && names.count(instance.name) == 0) continue;
    const bench::Outcome outcome = bench::run(instance, variant, budget);
    INFO(set << " " << instance.name);
    CHECK(outcome.faults == std::vector<std::string>{});
    comparison.add(instance, outcome);
  }
  INFO(set << "\n" << comparison.text());
  CHECK_FALSE(comparison.bugs());
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
