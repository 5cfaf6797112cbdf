#include "optimizer/board_worth.h"

#include <algorithm>

#include "optimizer/index.h"
#include "optimizer/ration.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t mostStates = 20000;  ///< for counting copies
constexpr std::size_t mostWays = 10;       ///< taken from one listing
constexpr std::size_t mostLabels = 150000;

}  // namespace

BoardWorth boardWorth(Pricers& pricers, const Problem& problem, int s,
                      std::span<const Priced> prices, const BoardAsk& ask) {
  const Stock& stock = problem.stock[index(s)];
  const Best best = pricers.of(s).best(prices, {.caps = ask.caps,
                                                .reach = ask.reach,
                                                .states = mostStates,
                                                .floor = ask.floor,
                                                .ruled = true,
                                                .halt = ask.halt});
  BoardWorth answer;
  answer.spent = {best.work + 100, 1, 0};
  answer.most = best.upperBound;
  Worth reached = 0;  // by what plans can use
  const auto take = [&](const Pattern& pattern) {
    Pattern kept = pricers.kept(s, withinCaps(pattern, prices));
    const Worth value =
        stock.cost - cost(kept, problem, stock) + ask.worths.of(supplies(kept, problem));
    reached = std::max(reached, value);
    if (value > ask.cost || answer.patterns.empty()) answer.patterns.push_back(std::move(kept));
  };
  const auto enough = [&] { return answer.most <= std::max(ask.floor, reached); };
  if (best.value > ask.cost) take(best.pattern);
  if (ask.depth == Depth::free || enough()) return answer;
  const Rationed rationed =
      ration(pricers.of(s), problem, stock, best,
             {.worths = ask.worths, .prices = ask.rations, .floor = ask.floor, .halt = ask.halt});
  answer.spent += {rationed.work + 100 * rationed.asked, rationed.asked, 0};
  answer.most = std::min(answer.most, rationed.most);
  answer.rations = rationed.prices;
  for (const Pattern& pattern : rationed.patterns) take(pattern);
  if (ask.depth == Depth::rationed || enough()) return answer;
  if (!pricers.lister(s).lists(ask.worths.wanted())) {
    const Best kept = pricers.of(s).best(
        prices, {.caps = Caps::keep, .states = mostStates, .floor = ask.floor, .halt = ask.halt});
    answer.spent += {kept.work + 100, 1, 0};
    answer.most = std::min(answer.most, kept.upperBound);
    if (kept.value > ask.cost) take(kept.pattern);
    return answer;
  }
  // The units that count and the offcuts that plans keep, exactly.
  const Listing listing = pricers.lister(s).list({.worths = ask.worths,
                                                  .prices = answer.rations,
                                                  .floor = std::max(ask.floor, reached - 1),
                                                  .all = false,
                                                  .enough = 1,
                                                  .labels = mostLabels,
                                                  .halt = ask.halt});
  answer.spent.effort += listing.work;
  answer.listedInVain = listing.ways.empty() && listing.most() >= answer.most;
  answer.most = std::min(answer.most, listing.most());
  for (std::size_t w = 0; w < std::min(mostWays, listing.ways.size()); ++w)
    if (listing.ways[w].value > ask.cost) answer.patterns.push_back(listing.ways[w].pattern);
  return answer;
}

}  // namespace flitch::optimizer
