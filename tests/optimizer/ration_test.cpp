// What a board is worth where units past what is wanted do not count: the bound by prices on units,
// against listing by the definition and by hand.
#include "optimizer/ration.h"

#include <catch2/catch.hpp>

#include "optimizer/bound.h"
#include "optimizer/listing.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

namespace {

Rationed rationed(const Problem& problem, const std::vector<Worth>& unit,
                  const std::vector<std::int64_t>& wanted, const std::vector<Worth>& prices = {}) {
  const Stock& stock = problem.stock[0];
  Pricer pricer(problem, stock);
  const Best free = pricer.best(pricesAt(problem, unit), {.caps = Caps::drop});
  return ration(pricer, problem, stock, free,
                {.worths = UnitWorths(unit, wanted), .prices = prices});
}

}  // namespace

// A board of 60 holds six pieces of 10, worth 100 each; two are wanted. Unrationed it is worth 600,
// at any price p on a piece 6 (100 - p) + 2 p: least where p is 100, and then 200, as it should be.
TEST_CASE("two pieces of six are wanted: the board is worth two") {
  Problem problem;
  problem.needs = {{2, 1000}};
  problem.items = {{10, 6, 0}};
  Stock stock;
  stock.cost = 150;
  stock.profile = Profile::rectangle(60, 6);
  stock.itemClass = {0};
  problem.stock = {stock};
  const Rationed found = rationed(problem, {100}, {2});
  CHECK(found.most == 200);
  CHECK(found.prices == std::vector<Worth>{100});
  CHECK(rationed(problem, {100}, {6}).most == 600);
  CHECK(rationed(problem, {100}, {6}).asked == 0);  // nothing is too many
}

// Shown able to fail: with one unit less wanted when prices are given back, boards came out below
// their worth.
TEST_CASE("no board is worth more than rationed, and never more than unrationed") {
  int sharper = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    Draw draw(seed + 7000000);
    Problem problem = randomBoard(draw, {7, 4, 4});
    std::vector<Worth> unit, prices;
    std::vector<std::int64_t> wanted;
    std::vector<Priced> priced;
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
      if (draw.oneIn(3)) problem.items[i].extra = draw(0, 8);
      unit.push_back(draw(0, 60));
      prices.push_back(draw(0, 80));
      wanted.push_back(draw(1, 3));
      problem.needs[static_cast<std::size_t>(problem.items[i].need)].amount = wanted[i];
      const Worth value = unit[i] - problem.items[i].extra;
      if (value > 0 && problem.stock[0].itemClass[i] != noClass)
        priced.push_back({static_cast<int>(i), value, wanted[i]});
    }
    INFO("seed " << seed);
    const Stock& stock = problem.stock[0];
    const Worth best = slow::bestByListing(problem, stock, priced, true);
    Pricer pricer(problem, stock);
    const Worth free = pricer.best(pricesAt(problem, unit), {.caps = Caps::drop}).upperBound;
    for (const auto& start : {std::vector<Worth>{}, prices}) {
      const Rationed found = rationed(problem, unit, wanted, start);
      CHECK(found.most >= best);
      CHECK(found.most <= free);
      for (std::size_t n = 0; n < unit.size(); ++n) {
        CHECK(found.prices[n] >= 0);
        CHECK(found.prices[n] <= unit[n]);
      }
      if (found.most < free) ++sharper;
      // Any prices serve to list by: they change no result.
      const Lister lister(problem, pricer.lays());
      const Listing listing =
          lister.list({.worths = UnitWorths(unit, wanted), .prices = found.prices, .floor = -1});
      const Worth listed = listing.ways.empty() ? 0 : listing.ways.front().value;
      CHECK(std::max<Worth>(0, listed) == best);
    }
  }
  CHECK(sharper > 100);
}
