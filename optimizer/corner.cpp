#include "optimizer/corner.h"

#include <algorithm>

#include "optimizer/closing.h"
#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t columnsOfBoard = 25;  ///< known ones tried
constexpr std::size_t waysOfBoard = 60;     ///< taken from one listing
constexpr int quickTurns = 8;
constexpr std::size_t nodesOfCorner = 200;

}  // namespace

Corner::Corner(const Draft& kept, const Problem& whole, std::vector<int> allowed)
    : stock(std::move(allowed)) {
  problem.saw = whole.saw;
  problem.items = whole.items;
  problem.recipes = whole.recipes;
  for (std::size_t n = 0; n < whole.needs.size(); ++n)
    problem.needs.push_back(kept.rest(static_cast<int>(n)));
  wanted = flitch::optimizer::wanted(problem);
  for (const int s : stock) {
    const Stock& of = whole.stock[index(s)];
    Stock own;
    own.copies = kept.copiesLeft(s);
    own.cost = of.cost;
    own.offcuts = of.offcuts;
    own.least = std::max(0, of.least - (of.copies - own.copies));
    problem.stock.push_back(std::move(own));
  }
}

std::optional<Draft> planCorner(const Corner& corner, const Multipliers& known, Pricers& pricers,
                                Worth below, const Halt& halt, Filling& spent) {
  Master master(corner.problem);
  spent.effort += known.master().columns().size() * 10;
  std::vector<std::size_t> most(known.worth().size(), 0);
  for (const int stock : corner.stock) most[index(stock)] = columnsOfBoard;
  const auto cheapest =
      cheapestColumns(known.master().columns(), known.best(), corner.wanted, most);
  for (std::size_t s = 0; s < corner.stock.size(); ++s)
    for (const Column* column : cheapest[index(corner.stock[s])])
      master.add(static_cast<int>(s), column->pattern);
  // Quick columns first, at multipliers on their way from those of the whole to the corner's own.
  std::vector<Worth> unit = known.best();
  const auto least = [&](std::size_t s) {
    return corner.problem.stock[s].cost - corner.problem.stock[s].cost / 20;
  };
  for (int turn = 0; turn < quickTurns; ++turn) {
    const std::vector<Priced> prices = pricesAt(corner.problem, unit);
    std::vector<Best> found(corner.stock.size());
    pricers.crew().each(found.size(), [&](std::size_t s) {
      found[s] =
          pricers.of(corner.stock[s])
              .best(prices,
                    {.caps = Caps::keep, .reach = Reach::quick, .floor = least(s), .halt = &halt});
    });
    if (halt.now()) return std::nullopt;
    bool fresh = false;
    for (std::size_t s = 0; s < found.size(); ++s) {
      spent += {found[s].work + 100, 1, 0};
      if (found[s].value > least(s) &&
          master.add(static_cast<int>(s), pricers.kept(corner.stock[s], found[s].pattern)))
        fresh = fresh || found[s].value > corner.problem.stock[s].cost;
    }
    const std::vector<Worth> own = master.multipliers();
    if (own.empty()) return std::nullopt;
    if (!fresh && turn > 1) break;
    for (std::size_t n = 0; n < unit.size(); ++n) unit[n] = (unit[n] + own[n]) / 2;
  }
  unit = master.multipliers();
  const Worth open = below - static_cast<Worth>(master.value());
  if (open <= 0) return std::nullopt;
  const auto chosen = [&] {
    std::vector<const Column*> columns;
    for (const Column& column : master.columns()) columns.push_back(&column);
    return close(corner.problem, columns, {below, nodesOfCorner}, halt, spent).better;
  };
  if (std::optional<Draft> better = chosen()) return better;
  // All that can be part of a better plan, as far as it is few.
  std::vector<Listing> listings(corner.stock.size());
  pricers.crew().each(listings.size(), [&](std::size_t s) {
    listings[s] = pricers.lister(corner.stock[s])
                      .list({.worths = UnitWorths(unit, corner.wanted),
                             .floor = corner.problem.stock[s].cost - open,
                             .enough = waysOfBoard,
                             .labels = 5000,
                             .halt = &halt});
  });
  for (std::size_t s = 0; s < listings.size(); ++s) {
    spent += {listings[s].work + 100, 1, 0};
    for (const Listed& way : listings[s].ways) master.add(static_cast<int>(s), way.pattern);
  }
  return chosen();
}

}  // namespace flitch::optimizer
