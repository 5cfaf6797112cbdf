#include "inventory/records/recipe.h"

#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;
using bench::part;

TEST_CASE("where no recipe is typed a wide part is glued, all others are solid") {
  const ShopProfile shop = startingProfile();
  Part p = part(1, 1, in(30), in(8));
  CHECK(recipesOf(p, shop) == std::vector{RecipeKind::solid});
  p.width = in(8, 1);
  CHECK(recipesOf(p, shop) == std::vector{RecipeKind::glued});
  CHECK(recipeText(p, shop) == "glued");
  p.recipe = "solid";
  CHECK(recipesOf(p, shop) == std::vector{RecipeKind::solid});
  p.recipe = "edge-glued";
  CHECK(recipesOf(p, shop) == std::vector{RecipeKind::glued});
  p.recipe = "turned|laminated|turned";
  CHECK(recipesOf(p, shop) == std::vector{RecipeKind::turned, RecipeKind::laminated});
  CHECK(recipeText(p, shop) == "turned or laminated");
  p.recipe = "solid|steam bent";
  CHECK(waits(p, shop));
  CHECK(recipeText(p, shop) == "solid|steam bent");
}

TEST_CASE("staves keep to the part's own widths, else to the shop's, and to the planer") {
  const ShopProfile shop = startingProfile();
  Part p = part(1, 1, in(30), in(20));
  CHECK(staveRange(p, shop).least == in(2));
  CHECK(staveRange(p, shop).most == in(6));
  p.stavesFrom = in(4);
  p.stavesTo = in(20);
  CHECK(staveRange(p, shop).least == in(4));
  CHECK(staveRange(p, shop).most == in(12, 32));
}

TEST_CASE("what was made before: whole copies, and panels that lack staves") {
  PlanRequest request;
  Part p = part(1, 3, in(30), in(10));
  request.made[1] = {1, 2, 3, 4};
  Layup stave;
  stave.copy = 2;
  stave.gives = in(5);
  for (stave.piece = 1; stave.piece <= 2; ++stave.piece) request.laid.push_back({1, stave});
  stave.copy = 3;
  request.laid.push_back({1, stave});
  const MadeBefore before = madeBefore(p, request);
  CHECK(before.copies == std::set<int>{2, 4});  // 4: a blank that is a whole copy
  REQUIRE(before.begun.size() == 1);
  CHECK(before.begun.at(3).sum == in(5));
}
