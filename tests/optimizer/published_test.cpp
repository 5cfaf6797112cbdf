// The programme for one board against published and recomputed optima. Sources: row by row in the
// column `source` of tests/bench/data/*/expected.csv, the sets themselves in their READMEs there.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/bench/instances.h"

using namespace flitch;
using optimizer::FirstCut;

namespace {

const std::string data = FLITCHBOOK_SOURCE "/tests/bench/data/";

/// Prices every instance that has an optimal row of this variant; returns how many had.
int compare(const std::string& set, const bench::Variant& variant) {
  const std::vector<bench::Instance> instances = bench::readSet(data + set);
  int rows = 0;
  for (const bench::Known& known : bench::readKnown(data + set + "/expected.csv")) {
    if (!(known.variant == variant) || known.kind != "optimal") continue;
    const auto instance =
        std::find_if(instances.begin(), instances.end(),
                     [&](const bench::Instance& i) { return i.name == known.instance; });
    REQUIRE(instance != instances.end());
    REQUIRE(bench::unsupported(*instance).empty());
    const bench::Case made = bench::makeCase(*instance, variant);
    const optimizer::Best best =
        optimizer::bestPattern(made.problem, made.problem.stock[0], made.priced);
    INFO(set << " " << known.instance << ", source " << known.source);
    CHECK(best.value == known.value);
    CHECK(best.upperBound == known.value);
    CHECK(optimizer::faults(best.pattern, made.problem, made.problem.stock[0]).empty());
    ++rows;
  }
  return rows;
}

}  // namespace

TEST_CASE("unconstrained guillotine, two stages: Hifi and Zissimopoulos 1996 and recomputed") {
  for (const FirstCut first : {FirstCut::x, FirstCut::y})
    for (const bool trim : {false, true})
      CHECK(compare("unconstrained_guillotine", {2, first, trim, false, 0}) == 73);
}

TEST_CASE("unconstrained guillotine, three stages exact") {
  for (const FirstCut first : {FirstCut::x, FirstCut::y})
    CHECK(compare("unconstrained_guillotine", {3, first, false, false, 0}) == 73);
}

TEST_CASE("unconstrained guillotine, three stages nonexact, crosscut first") {
  CHECK(compare("unconstrained_guillotine", {3, FirstCut::x, true, false, 0}) == 73);
}

TEST_CASE("unconstrained guillotine, three stages nonexact, rip first") {
  CHECK(compare("unconstrained_guillotine", {3, FirstCut::y, true, false, 0}) == 73);
}

TEST_CASE("boards with defects, two stages: ESICUP obstacles, recomputed") {
  for (const FirstCut first : {FirstCut::x, FirstCut::y})
    for (const bool trim : {false, true})
      CHECK(compare("defects_unconstrained", {2, first, trim, false, 0}) == 11);
}

TEST_CASE("red oak boards of 1998 (USDA GTR NE-245), cutting bill CB1, kerf 0 and 1") {
  for (const FirstCut first : {FirstCut::x, FirstCut::y})
    for (const optimizer::Tick kerf : {0, 1})
      CHECK(compare("red_oak_boards_1998", {2, first, false, false, kerf}) == 362);
}
