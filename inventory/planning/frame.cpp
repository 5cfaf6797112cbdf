#include "inventory/planning/frame.h"

#include <algorithm>

#include "inventory/planning/asking.h"
#include "inventory/planning/board_frame.h"
#include "inventory/records/account.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

/// Coarsest step on which both kerfs and all blanks are whole, else the finest.
Length tickFor(const std::vector<Blank>& blanks, const ShopProfile& shop, Unit unit) {
  const std::array<Length, 4> inches{Length::sixtyFourths(8), Length::sixtyFourths(4),
                                     Length::sixtyFourths(2), Length::sixtyFourths(1)};
  const std::array<Length, 3> metric{Length::micrometres(1000), Length::micrometres(500),
                                     Length::micrometres(250)};
  const std::span<const Length> steps =
      unit == Unit::inches ? std::span<const Length>(inches) : std::span<const Length>(metric);
  for (const Length step : steps) {
    const auto whole = [&](Length l) { return l.nm() % step.nm() == 0; };
    const bool exact = whole(shop.crosscutKerf) && whole(shop.ripKerf) &&
                       std::all_of(blanks.begin(), blanks.end(), [&](const Blank& b) {
                         return whole(b.length) && whole(b.width);
                       });
    if (exact) return step;
  }
  return steps.back();
}

optimizer::KeepRule keepRule(const Board& board, const ShopProfile& shop, int cls, Length tick) {
  optimizer::KeepRule rule;
  rule.leastLength = ticksUp(shop.keepLength, tick);
  rule.leastWidth = ticksUp(shop.keepWidth, tick);
  rule.cls = cls;
  for (const KeepBand& band : shop.keepBands) {
    const optimizer::KeepRule::Band next{ticksUp(band.from, tick), offcutRate(board, band, tick)};
    if (!rule.bands.empty() && rule.bands.back().from == next.from) rule.bands.pop_back();
    if (!rule.bands.empty() && rule.bands.back().rate > next.rate) {
      throw Refusal("offcut-worth",
                    Complaint{"offcut-worth", "a longer offcut may not be worth a smaller share",
                              "", "shares that do not fall with length"});
    }
    rule.bands.push_back(next);
  }
  return rule;
}

}  // namespace

Framing frame(const PlanRequest& request) {
  const ShopProfile& shop = request.shop;
  Asked asked = ask(request);
  Framing out = std::move(asked.framing);
  const std::vector<const Part*>& parts = asked.partOfItem;
  out.tick = tickFor(out.blanks, shop, request.unit);
  for (std::size_t i = 0; i < out.blanks.size(); ++i) {
    out.problem.items[i].length = ticksUp(out.blanks[i].length, out.tick);
    out.problem.items[i].width = ticksUp(out.blanks[i].width, out.tick);
  }
  const Money cut = labour(shop, shop.cutMinutes);
  out.problem.saw.kerfX = ticksUp(shop.crosscutKerf, out.tick);
  out.problem.saw.kerfY = ticksUp(shop.ripKerf, out.tick);
  out.problem.saw.crosscut = cut.raw();
  out.problem.saw.rip = cut.raw();

  const std::vector<BoardId>& keptOut = request.choices.keptOut;
  for (std::size_t b = 0; b < request.boards.size(); ++b) {
    const Board& board = request.boards[b];
    if (std::find(keptOut.begin(), keptOut.end(), board.id) != keptOut.end()) continue;
    UsableWood wood = usableWood(board, shop, out.tick);
    Barring barred =
        barring(board, wood, parts, out.blanks, shop, request.choices.trustUnseen, out.tick);
    bool any = false;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const optimizer::Item& item = out.problem.items[i];
      const bool fits = item.length <= wood.origin.dx && item.width <= wood.origin.dy;
      if (!fits) barred.partClass[i] = optimizer::noClass;
      any = any || barred.partClass[i] != optimizer::noClass;
    }
    if (!any) continue;
    optimizer::Stock stock;
    stock.cost = (board.cost + openingCost(board, shop)).raw();
    stock.profile = std::move(wood.profile);
    stock.zones = std::move(barred.zones);
    stock.itemClass = std::move(barred.partClass);
    stock.offcuts = keepRule(board, shop, barred.offcutClass, out.tick);
    out.problem.stock.push_back(std::move(stock));
    out.board.push_back(b);
    out.origin.push_back(wood.origin);
  }
  return out;
}

}  // namespace flitch::planning
