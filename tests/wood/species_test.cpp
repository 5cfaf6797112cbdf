#include "inventory/wood/species.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "inventory/wood/rows.h"

using namespace flitch;

namespace {

/// The trade names that a row of a published table stands under.
std::vector<std::string> namesOf(const std::string& table, const std::string& published) {
  std::vector<std::string> names;
  for (const PublishedRow& row : publishedRows(tradeNameTable)) {
    if (row.at(table) == published) names.push_back(row.at("name"));
  }
  return names;
}

void checkFigure(const Figure& figure, const PublishedRow& row, const std::string& column,
                 double unit) {
  INFO(row.at("species") << ", " << column << ", " << row.at("source") << ", "
                         << row.at("evidence"));
  const std::string& printed = row.at(column);
  if (printed.empty()) {
    CHECK_FALSE(figure);
    return;
  }
  CHECK(figure.value == std::lround(std::stod(printed) * unit));
  CHECK(figure.fromMemory == (row.at("mark") != "verified"));
  CHECK(figure.source == row.at("source"));
}

/// Checks every row of a table against the species that stands under it; returns how many rows.
template <class Check>
int checkRows(std::string_view text, const std::string& table, const Check& check) {
  int rows = 0;
  for (const PublishedRow& row : publishedRows(text)) {
    const std::vector<std::string> names = namesOf(table, row.at("species"));
    // Its own note says not to offer it (see the README beside the tables).
    if (row.at("species") == "Oak, black") {
      CHECK(names.empty());
      continue;
    }
    INFO(row.at("species"));
    REQUIRE_FALSE(names.empty());
    for (const std::string& name : names) check(*findSpecies(name), row);
    ++rows;
  }
  return rows;
}

}  // namespace

TEST_CASE("species are found by their trade name") {
  REQUIRE(findSpecies("  White   Oak ") != nullptr);
  CHECK(findSpecies("white oak")->botanical == "Quercus alba");
  CHECK(findSpecies("unobtainium") == nullptr);
  CHECK(findSpecies("") == nullptr);
  CHECK(findSpecies("black oak") == nullptr);
  CHECK(speciesName("\tHard \n Maple ") == "hard maple");
}

TEST_CASE("every species has a name of its own and some figure") {
  std::string before;
  for (const Species& species : knownSpecies()) {
    CAPTURE(species.name);
    CHECK(species.name > before);
    CHECK(speciesName(species.name) == species.name);
    CHECK(findSpecies(species.name) == &species);
    CHECK_FALSE(species.botanical.empty());
    const bool known = species.tangential || species.tangentialShrinkage || species.gravity;
    CHECK(known);
    CHECK_FALSE(species.own);
    before = species.name;
  }
  CHECK(knownSpecies().size() == 128);
}

TEST_CASE("coefficients are those of Wood Handbook Table 13-5 (FPL-GTR-190), every row") {
  CHECK(checkRows(dimensionalChangeTable, "coefficients",
                  [](const Species& species, const PublishedRow& row) {
                    checkFigure(species.radial, row, "C_R", 1e5);
                    checkFigure(species.tangential, row, "C_T", 1e5);
                  }) == 118);
}

TEST_CASE("shrinkage is that of Wood Handbook Tables 4-3 and 4-4, every row") {
  CHECK(checkRows(shrinkageTable, "shrinkage", [](const Species& species, const PublishedRow& row) {
          checkFigure(species.radialShrinkage, row, "radial", 100);
          checkFigure(species.tangentialShrinkage, row, "tangential", 100);
          checkFigure(species.volumetricShrinkage, row, "volumetric", 100);
        }) == 92);
}

TEST_CASE("gravities are those of the published table, every row") {
  CHECK(checkRows(gravityTable, "gravity", [](const Species& species, const PublishedRow& row) {
          checkFigure(species.gravity, row, "value", 1000);
        }) == 56);
}

TEST_CASE("a maker's own figures hold, what they leave out the table says") {
  Species mine;
  mine.name = "cherry";
  mine.own = true;
  mine.gravity = {560, false, "own scales"};
  Species pear;
  pear.name = "pear";
  pear.own = true;
  const std::vector<Species> own{mine, pear};
  const Species cherry = speciesNamed("Cherry", own).value();
  CHECK(cherry.own);
  CHECK(cherry.gravity.value == 560);
  CHECK(cherry.gravity.source == "own scales");
  CHECK(cherry.tangential == findSpecies("cherry")->tangential);
  CHECK(cherry.botanical == "Prunus serotina");
  CHECK(speciesNamed("pear", own) == pear);
  CHECK(speciesNamed("ash", own) == *findSpecies("ash"));
  CHECK_FALSE(speciesNamed("unobtainium", own));
}
