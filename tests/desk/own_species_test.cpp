#include "inventory/desk/own_species.h"

#include <catch2/catch.hpp>

#include "inventory/desk/saw.h"
#include "inventory/wood/species_figures.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;

namespace {

Species pear() {
  Species species;
  species.name = "  Pear ";
  species.botanical = "Pyrus communis";
  species.gravity = {690, false, "own scales"};
  return species;
}

std::string refused(sample::Shop& shop, const Species& species) {
  try {
    addSpecies(shop.book, species, shop.hand);
  } catch (const Refusal& refusal) {
    return refusal.code();
  }
  return "taken";
}

}  // namespace

TEST_CASE("a maker's own species is in the book until it is undone") {
  sample::Shop shop;
  const EntryId entry = addSpecies(shop.book, pear(), shop.hand);
  CHECK(shop.book.read().lastEntry() == entry);
  const Species found = speciesOf(shop.book.read(), "pear");
  CHECK(found.own);
  CHECK(found.gravity == Figure{690, false, "own scales"});
  CHECK(figureTable(found).rows.size() == 1);
  CHECK(speciesTable(shop.book.read().ownSpecies()).rows.size() == knownSpecies().size() + 1);

  undo(shop.book, shop.hand);
  CHECK_THROWS_AS(speciesOf(shop.book.read(), "pear"), Refusal);
  CHECK(shop.book.check().empty());
}

TEST_CASE("own figures take the place of the table's, the newest first, and go in turn") {
  sample::Shop shop;
  Species cherry;
  cherry.name = "cherry";
  cherry.gravity = {560, false, "own scales"};
  addSpecies(shop.book, cherry, shop.hand);
  cherry.gravity.value = 570;
  addSpecies(shop.book, cherry, shop.hand);
  CHECK(speciesOf(shop.book.read(), "Cherry").gravity.value == 570);
  CHECK(speciesOf(shop.book.read(), "cherry").tangential == findSpecies("cherry")->tangential);
  undo(shop.book, shop.hand);
  CHECK(speciesOf(shop.book.read(), "cherry").gravity.value == 560);
}

TEST_CASE("a species without name, figure or source is refused, the book as it was") {
  sample::Shop shop;
  const EntryId before = shop.book.read().lastEntry();
  Species bad = pear();
  bad.name = " ";
  CHECK(refused(shop, bad) == "no-name");
  bad = pear();
  bad.gravity = {};
  CHECK(refused(shop, bad) == "no-figure");
  bad = pear();
  bad.gravity.source = " ";
  CHECK(refused(shop, bad) == "no-source");
  CHECK(shop.book.read().lastEntry() == before);
}
