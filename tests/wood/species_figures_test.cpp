#include "inventory/wood/species_figures.h"

#include <catch2/catch.hpp>

#include "inventory/wood/unreadable.h"

using namespace flitch;

namespace {

const FigureKind& kind(std::string_view key) {
  for (const FigureKind& one : figureKinds()) {
    if (one.key == key) return one;
  }
  throw std::invalid_argument(std::string(key));
}

}  // namespace

TEST_CASE("every published figure lies in the span taken for its kind and reads back") {
  int figures = 0;
  for (const Species& species : knownSpecies()) {
    for (const FigureKind& one : figureKinds()) {
      const Figure& figure = species.*one.member;
      if (!figure) continue;
      CAPTURE(species.name, one.key);
      CHECK(parseFigure(one, figureText(one, figure)) == figure.value);
      ++figures;
    }
  }
  CHECK(figures > 500);
}

TEST_CASE("figures as written") {
  CHECK(parseFigure(kind("gravity"), "0.5") == 500);
  CHECK(parseFigure(kind("gravity"), " .755 ") == 755);
  CHECK(parseFigure(kind("radial"), "0.00126") == 126);
  CHECK(parseFigure(kind("tangential"), "0.002480") == 248);
  CHECK(parseFigure(kind("radial_shrinkage"), "3.7 %") == 370);
  CHECK(parseFigure(kind("volumetric_shrinkage"), "12") == 1200);
  CHECK(figureText(kind("radial_shrinkage"), {370, false, ""}) == "3.7 %");
  CHECK(figureText(kind("gravity"), {}).empty());
}

TEST_CASE("figures no wood has are refused with the span") {
  const std::string bad = GENERATE("", "heavy", "0,5", "-0.5", "0.09", "1.5", "0.5555", "1e0",
                                   "0.5 %", "0.5.5", ".", "99999999999");
  CAPTURE(bad);
  try {
    (void)parseFigure(kind("gravity"), bad);
    FAIL("taken");
  } catch (const Unreadable& error) {
    CHECK(error.accepted == "0.1 to 1.4");
  }
}
