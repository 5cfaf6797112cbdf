#include "inventory/wood/species.h"

#include <catch2/catch.hpp>
#include <map>

#include "tests/wood/published.h"

using namespace flitch;

TEST_CASE("species are found by their trade name") {
  REQUIRE(findSpecies("  White   Oak ") != nullptr);
  CHECK(findSpecies("white oak")->botanical == "Quercus alba");
  CHECK(findSpecies("unobtainium") == nullptr);
  CHECK(findSpecies("") == nullptr);
  CHECK(speciesName("\tHard \n Maple ") == "hard maple");
}

TEST_CASE("gravities are those of the published table") {
  const std::map<std::string, std::string> publishedName{{"alder", "Alder, red"},
                                                         {"ash", "Ash, white"},
                                                         {"basswood", "Basswood, American"},
                                                         {"beech", "Beech, American"},
                                                         {"birch", "Birch, yellow"},
                                                         {"butternut", "Butternut"},
                                                         {"cherry", "Cherry, black"},
                                                         {"chestnut", "Chestnut, American"},
                                                         {"elm", "Elm, American"},
                                                         {"hard maple", "Maple, sugar"},
                                                         {"hickory", "Hickory, shagbark"},
                                                         {"paper birch", "Birch, paper"},
                                                         {"pecan", "Hickory, pecan"},
                                                         {"poplar", "Yellow-poplar"},
                                                         {"red oak", "Oak, northern red"},
                                                         {"silver maple", "Maple, silver"},
                                                         {"soft maple", "Maple, red"},
                                                         {"walnut", "Walnut, black"},
                                                         {"white oak", "Oak, white"}};
  std::map<std::string, std::string> gravity;
  for (const PublishedRow& row : published("specific_gravity_12pct.csv")) {
    if (row.at("mark") == "verified") gravity[row.at("species")] = row.at("value");
  }
  std::size_t checked = 0;
  for (const Species& species : knownSpecies()) {
    CAPTURE(species.name);
    CHECK(speciesName(species.name) == species.name);
    CHECK_FALSE(species.source.empty());
    CHECK_FALSE(species.botanical.empty());
    const auto name = publishedName.find(std::string(species.name));
    if (name == publishedName.end()) {
      // Not at hand rather than recalled.
      CHECK(species.gravity == 0);
      continue;
    }
    REQUIRE(gravity.contains(name->second));
    CHECK(species.gravity == Approx(std::stod(gravity[name->second])).epsilon(0));
    ++checked;
  }
  CHECK(checked == publishedName.size());
}
