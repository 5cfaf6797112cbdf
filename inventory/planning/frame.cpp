#include "inventory/planning/frame.h"

#include <algorithm>
#include <numeric>

#include "inventory/planning/board_frame.h"
#include "inventory/planning/staves.h"
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

/// Turns parts into needs and items.
class Asking {
 public:
  explicit Asking(const PlanRequest& request) : request_(request), shop_(request.shop) {}

  void ask(std::size_t index) {
    const Part& part = request_.job.parts[index];
    const std::vector<RecipeKind> recipes = recipesOf(part, shop_);
    if (recipes.empty()) return;
    const MadeBefore before = madeBefore(part, request_);
    if (recipes.front() == RecipeKind::solid) {
      const int wanted = part.wanted() - static_cast<int>(before.copies.size());
      if (wanted <= 0) return;
      Want& made = want(index, wanted);
      made.makings.push_back({RecipeKind::solid, made.need, 1});
      item(part, blankFor(part, shop_), made.need, 1);
      return;
    }
    std::vector<int> untouched;
    int wanted = part.wanted() - static_cast<int>(before.copies.size());
    for (int copy = 1; wanted > 0; ++copy) {
      if (before.copies.count(copy) > 0) continue;
      --wanted;
      const auto begun = before.begun.find(copy);
      if (begun == before.begun.end()) {
        untouched.push_back(copy);
      } else {
        askPanels(index, {copy}, part.width - begun->second);
      }
    }
    if (!untouched.empty()) askPanels(index, untouched, part.width);
  }

  /// Sizes in ticks, once all are known.
  Framing done() {
    out_.tick = tickFor(out_.blanks, shop_, request_.unit);
    for (std::size_t i = 0; i < out_.blanks.size(); ++i) {
      out_.problem.items[i].length = ticksUp(out_.blanks[i].length, out_.tick);
      out_.problem.items[i].width = ticksUp(out_.blanks[i].width, out_.tick);
    }
    return std::move(out_);
  }
  /// Of each item. Valid as long as the request.
  [[nodiscard]] const std::vector<const Part*>& partOfItem() const { return partOfItem_; }

 private:
  void askPanels(std::size_t index, const std::vector<int>& copies, Length width) {
    const Part& part = request_.job.parts[index];
    const std::vector<Division> divisions = divisionsOf(part, width, request_);
    std::int64_t units = 1;
    for (const Division& d : divisions) units = std::lcm(units, std::int64_t{d.staves});
    Want& made = want(index, static_cast<std::int64_t>(copies.size()));
    made.copies = copies;
    made.width = width;
    const int staves = usedFor(made, units);
    made.makings.push_back({RecipeKind::glued, staves, units});
    for (const Division& d : divisions) {
      item(part, staveFor(part, d.width, shop_), staves, units / d.staves);
    }
  }

  Want& want(std::size_t index, std::int64_t copies) {
    Want made;
    made.part = index;
    made.need = need(copies, shortagePrice(request_.job.parts[index], request_));
    made.price = Money::tenThousandths(out_.problem.needs.back().shortage);
    return out_.wants.emplace_back(std::move(made));
  }
  /// A need of which a recipe takes `units` to make a copy. Buying a unit is never worth it.
  int usedFor(const Want& made, std::int64_t units) {
    const int used = need(0, made.price);
    out_.problem.recipes.push_back({0, {{used, units}}, made.need});
    return used;
  }
  int need(std::int64_t amount, Money price) {
    out_.problem.needs.push_back({amount, price.raw()});
    return static_cast<int>(out_.problem.needs.size()) - 1;
  }
  void item(const Part& part, Blank blank, int need, std::int64_t supplies) {
    optimizer::Item item;
    item.need = need;
    item.supplies = supplies;
    out_.problem.items.push_back(item);
    out_.blanks.push_back(std::move(blank));
    partOfItem_.push_back(&part);
  }

  const PlanRequest& request_;
  const ShopProfile& shop_;
  Framing out_;
  std::vector<const Part*> partOfItem_;
};

}  // namespace

Framing frame(const PlanRequest& request) {
  const ShopProfile& shop = request.shop;
  Asking asking(request);
  for (std::size_t p = 0; p < request.job.parts.size(); ++p) asking.ask(p);
  Framing out = asking.done();
  const std::vector<const Part*>& parts = asking.partOfItem();
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
