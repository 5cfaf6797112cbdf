// All ways of cutting one board, against listing by the definition.
#include "optimizer/listing.h"

#include <catch2/catch.hpp>

#include "optimizer/bound.h"
#include "optimizer/offcut_rule.h"
#include "optimizer/pricer.h"
#include "optimizer/ration.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

namespace {

/// A random board, what a unit of each need is worth, and how many are wanted.
struct Case {
  Problem problem;
  std::vector<Worth> unit;
  std::vector<std::int64_t> wanted;
  std::vector<Priced> priced;

  Case(std::uint64_t seed, const BoardSize& size) {
    Draw draw(seed);
    problem = randomBoard(draw, size);
    for (std::size_t i = 0; i < problem.items.size(); ++i) {
      if (draw.oneIn(3)) problem.items[i].extra = draw(0, 8);
      unit.push_back(draw(0, 60));
      wanted.push_back(draw(1, 3));
      const Worth value = unit[i] - problem.items[i].extra;
      if (value > 0 && problem.stock[0].itemClass[i] != noClass)
        priced.push_back({static_cast<int>(i), value, wanted[i]});
    }
  }
};

}  // namespace

// Shown able to fail: with the units two labels hold charged to the wrong one, 26 random boards
// gave too little.
TEST_CASE("the best way listed is the best there is within the units wanted") {
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Case board(seed + 2000000, {7, 4, 4});
    const Stock& stock = board.problem.stock[0];
    const Worth best = slow::bestByListing(board.problem, stock, board.priced, true);
    Pricer pricer(board.problem, stock);
    const Lister lister(board.problem, pricer.lays());
    INFO("seed " << seed);
    CHECK(pricer.best(board.priced, {.caps = Caps::drop, .ruled = true}).upperBound >= best);
    for (const bool all : {true, false})
      for (const std::size_t enough : {std::size_t{1}, std::size_t{1000}}) {
        const Listing listing = lister.list({.worths = UnitWorths(board.unit, board.wanted),
                                             .floor = -1,
                                             .all = all,
                                             .enough = enough});
        const Worth found = listing.ways.empty() ? 0 : listing.ways.front().value;
        CHECK(std::max<Worth>(0, found) == best);
        CHECK(listing.most() >= best);
      }
  }
}

TEST_CASE("every way listed keeps the rules, supplies what it says and is worth what it says") {
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    const Case board(seed + 2100000, {24, 10, 5});
    const Stock& stock = board.problem.stock[0];
    Pricer pricer(board.problem, stock);
    const Listing listing = Lister(board.problem, pricer.lays())
                                .list({.worths = UnitWorths(board.unit, board.wanted), .floor = 0});
    INFO("seed " << seed);
    REQUIRE(listing.above == 0);
    for (const Listed& way : listing.ways) {
      CHECK(faults(way.pattern, board.problem, stock) == std::vector<std::string>{});
      for (const Lay& lay : pricer.lays())
        if (lay.first == way.pattern.first) CHECK(keptToRule(way.pattern, lay) == way.pattern);
      std::vector<std::int64_t> units = supplies(way.pattern, board.problem);
      Worth value = stock.cost - cost(way.pattern, board.problem, stock);
      for (std::size_t n = 0; n < units.size(); ++n) {
        units[n] = std::min(units[n], board.wanted[n]);
        value += board.unit[n] * units[n];
      }
      CHECK(units == way.units);
      CHECK(value == way.value);
    }
  }
}

TEST_CASE("a pattern kept to the rule is worth no more than the best way listed") {
  int cut = 0, sharper = 0, exact = 0, exactAnywhere = 0;
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    // Of the larger some have marks beyond their edges.
    Case board(seed + 2200000, seed % 3 == 0 ? BoardSize{36, 14, 6} : BoardSize{20, 8, 4});
    for (std::int64_t& wanted : board.wanted) wanted = 1000;
    const Stock& stock = board.problem.stock[0];
    Pricer pricer(board.problem, stock);
    for (Priced& p : board.priced) p.cap = 1000;
    const Listing listing = Lister(board.problem, pricer.lays())
                                .list({.worths = UnitWorths(board.unit, board.wanted),
                                       .floor = 0,
                                       .all = false,
                                       .enough = 1});
    INFO("seed " << seed);
    const Best anywhere = pricer.best(board.priced, {.caps = Caps::drop});
    const Best ruled = pricer.best(board.priced, {.caps = Caps::drop, .ruled = true});
    CHECK(listing.most() <= ruled.upperBound);
    CHECK(ruled.upperBound <= anywhere.upperBound);
    std::vector<Worth> values(board.problem.items.size(), 0);
    for (const Priced& p : board.priced) values[static_cast<std::size_t>(p.item)] = p.value;
    CHECK(worthOf(ruled.pattern, values, board.problem, stock) == ruled.value);
    if (ruled.upperBound < anywhere.upperBound) ++sharper;
    if (ruled.upperBound == listing.most()) ++exact;
    if (anywhere.upperBound == listing.most()) ++exactAnywhere;
    for (const Reach reach : {Reach::all, Reach::quick}) {
      const Best best = pricer.best(board.priced, {.caps = Caps::drop, .reach = reach});
      CHECK(listing.most() <= pricer.best(board.priced, {.caps = Caps::drop}).upperBound);
      for (const Lay& lay : pricer.lays()) {
        if (lay.first != best.pattern.first) continue;
        const Pattern kept = keptToRule(best.pattern, lay);
        if (!(kept == best.pattern)) ++cut;
        Worth value = stock.cost - cost(kept, board.problem, stock);
        const std::vector<std::int64_t> units = supplies(kept, board.problem);
        for (std::size_t n = 0; n < units.size(); ++n) value += board.unit[n] * units[n];
        CHECK(faults(kept, board.problem, stock) == std::vector<std::string>{});
        CHECK(value <= listing.most());
      }
    }
  }
  CHECK(cut > 0);
  CHECK(sharper > 0);
  CHECK(exact > exactAnywhere);
}

// Pieces keep clear of 10 to 12, offcuts need 12: one piece at the far end leaves 17, where it
// would leave two shorter ones if it lay just behind the mark.
TEST_CASE("an offcut may lie before a piece that lies as late as it can") {
  for (const bool rows : {false, true}) {
    INFO("rows " << rows);
    Problem problem;
    problem.saw = {.kerfX = 1, .kerfY = 1, .first = FirstCut::x};
    problem.needs = {{1, 5000}};
    problem.items = {{rows ? 8 : 12, rows ? 12 : 8, 0}};
    Stock stock;
    stock.profile = Profile::rectangle(rows ? 8 : 30, rows ? 30 : 8);
    stock.itemClass = {0};
    for (auto& zones : stock.zones)
      zones.push_back({rows ? Rect{0, 10, 8, 2} : Rect{10, 0, 2, 8}, 1});
    (rows ? stock.offcuts.leastWidth : stock.offcuts.leastLength) = 12;
    stock.offcuts.bands = {{0, std::int64_t{1} << 32}};
    problem.stock = {stock};
    validate(problem);
    const Worth expected = 1000 + stock.offcuts.worth(rows ? 8 : 17, rows ? 17 : 8);
    REQUIRE(expected > 1000);
    const std::vector<Priced> priced{{0, 1000}};
    Pricer pricer(problem, stock);
    const Best ruled = pricer.best(priced, {.caps = Caps::keep, .ruled = true});
    CHECK(ruled.value == expected);
    CHECK(ruled.upperBound == expected);
    // Alone too, without the quick patterns before it.
    for (const Lay& lay : pricer.lays()) {
      std::uint64_t work = 0;
      const Filled alone = Programme(lay, problem.saw)
                               .run(std::vector<Worth>{1000}, Reach::all, 0, work, nullptr,
                                    std::numeric_limits<std::uint64_t>::max(), true);
      CHECK(alone.upperBound == expected);
    }
    const std::vector<Worth> unit{1000};
    const std::vector<std::int64_t> wanted{1};
    const Listing listing =
        Lister(problem, pricer.lays()).list({.worths = UnitWorths(unit, wanted), .floor = 0});
    CHECK(listing.most() == expected);
    for (const Lay& lay : pricer.lays()) CHECK(keptToRule(ruled.pattern, lay) == ruled.pattern);
  }
}

// Whatever units are worth together, the best way is among those that no other beats.
TEST_CASE("units worth more together or less: listed exactly, bounded by prices on units") {
  int tables = 0, sharper = 0;
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const Case board(seed + 2300000, {24, 10, 4});
    const Stock& stock = board.problem.stock[0];
    Draw draw(seed);
    UnitWorths worths(board.unit, board.wanted);
    for (std::size_t n = 0; n < board.unit.size(); ++n) {
      if (draw.oneIn(2)) continue;
      std::vector<Worth> table{0};
      for (int u = draw(1, 4); u > 0; --u) table.push_back(table.back() + draw(0, 60));
      worths.setTable(n, std::move(table));
      ++tables;
    }
    Pricer pricer(board.problem, stock);
    const Lister lister(board.problem, pricer.lays());
    INFO("seed " << seed);
    Worth best = 0;
    const UnitWorths each(std::vector<Worth>(board.unit.size(), 100), worths.wanted());
    for (const Listed& way : lister.list({.worths = each, .floor = -100000}).ways)
      best = std::max(best, way.value - each.of(way.units) + worths.of(way.units));
    const Best free = pricer.best(pricesAt(board.problem, worths.steepest()), {.caps = Caps::drop});
    const Rationed rationed =
        ration(pricer, board.problem, stock, free, {.worths = worths, .prices = {}});
    CHECK(rationed.most >= best);
    if (rationed.most < free.upperBound) ++sharper;
    for (const std::span<const Worth> prices :
         {std::span<const Worth>(), std::span<const Worth>(rationed.prices)}) {
      const Listing listing =
          lister.list({.worths = worths, .prices = prices, .floor = -1, .all = false, .enough = 1});
      CHECK(std::max<Worth>(0, listing.most()) == best);
      if (!listing.ways.empty())
        CHECK(cost(listing.ways[0].pattern, board.problem, stock) ==
              stock.cost - listing.ways[0].value + worths.of(listing.ways[0].units));
    }
  }
  CHECK(tables > 200);
  CHECK(sharper > 30);
}
