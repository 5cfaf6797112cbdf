#include "inventory/planning/frame.h"

#include <algorithm>
#include <optional>

#include "inventory/planning/asking.h"
#include "inventory/planning/board_frame.h"
#include "inventory/planning/settled.h"
#include "inventory/planning/shortage_reasons.h"
#include "inventory/planning/tree_writer.h"
#include "inventory/records/account.h"
#include "inventory/records/choices.h"
#include "inventory/records/plan_check.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

const Board& boardOf(const PlanRequest& request, BoardId id) {
  return *std::find_if(request.boards.begin(), request.boards.end(),
                       [&](const Board& board) { return board.id == id; });
}

/// The first locked cutting that cannot be sawn on a step.
const Lock* brokenLockOn(Length step, const PlanRequest& request) {
  for (const Lock& lock : request.choices.locks) {
    const Board& board = boardOf(request, lock.cutting.board);
    if (!faultsOf({lock.cutting, board, request, step}).empty()) return &lock;
  }
  return nullptr;
}

/// Coarsest step on which both kerfs and all blanks are whole and what is locked can be sawn, else
/// one for kerfs and blanks alone, else the finest.
Length tickFor(const std::vector<Blank>& blanks, const PlanRequest& request) {
  const ShopProfile& shop = request.shop;
  const std::array<Length, 4> inches{Length::sixtyFourths(8), Length::sixtyFourths(4),
                                     Length::sixtyFourths(2), Length::sixtyFourths(1)};
  const std::array<Length, 3> metric{Length::micrometres(1000), Length::micrometres(500),
                                     Length::micrometres(250)};
  const std::span<const Length> steps = request.unit == Unit::inches
                                            ? std::span<const Length>(inches)
                                            : std::span<const Length>(metric);
  std::optional<Length> forBlanks;
  for (const Length step : steps) {
    const auto whole = [&](Length l) { return l.nm() % step.nm() == 0; };
    const bool exact =
        whole(shop.crosscutKerf) && whole(shop.ripKerf) &&
        std::all_of(blanks.begin(), blanks.end(),
                    [&](const Blank& b) { return whole(b.length) && whole(b.width); }) &&
        std::all_of(request.choices.laid.begin(), request.choices.laid.end(),
                    [&](const LaidByHand& l) { return whole(l.at.x) && whole(l.at.y); });
    if (!exact) continue;
    if (brokenLockOn(step, request) == nullptr) return step;
    if (!forBlanks) forBlanks = step;
  }
  return forBlanks.value_or(steps.back());
}

void refuseBrokenLocks(Length tick, const PlanRequest& request) {
  const Lock* lock = brokenLockOn(tick, request);
  if (lock == nullptr) return;
  const Board& board = boardOf(request, lock->cutting.board);
  throw brokenLock(board, faultsOf({lock->cutting, board, request, tick}).front().sentence,
                   request);
}

optimizer::KeepRule keepRule(const Board& board, const ShopProfile& shop, int cls, Length tick) {
  optimizer::KeepRule rule;
  rule.leastLength = ticksUp(shop.keepLength, tick);
  rule.leastWidth = ticksUp(shop.keepWidth, tick);
  rule.cls = cls;
  // At zero no cut is made for an offcut; what is kept is known once the plan is (remainders.h).
  if (shop.offcutsAtZero) return rule;
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

/// What the locked boards cost, with what the wishes count for them.
Money besideCost(const PlanRequest& request, Length tick) {
  Money sum;
  for (const Lock& lock : request.choices.locks) {
    const Board& board = boardOf(request, lock.cutting.board);
    const Breakdown cost = account(lock.cutting, board, request.job, request.shop, tick);
    sum += cost.woodCost + cost.cutCost + wishCost(request.choices, board.id);
  }
  return sum;
}

/// Turns boards into stock.
class Stocking {
 public:
  Stocking(const PlanRequest& request, Framing& out, const Asked& asked)
      : request_(request), shop_(request.shop), out_(out), asked_(asked) {}

  void stock(std::size_t place) {
    place_ = place;
    const Board& board = request_.boards[place];
    const Choices& choices = request_.choices;
    if (isKeptOut(choices, board.id) || lockOn(choices, board.id) != nullptr) return;
    wood_ = usableWood(board, shop_, out_.tick);
    barred_ = barring(board, wood_, asked_.partOfItem, out_.blanks, shop_, choices.trustUnseen,
                      out_.tick, asked_.offShow);
    const Money open = board.cost + openingCost(board, shop_) + wishCost(choices, board.id);
    if (const std::vector<optimizer::Laid> laid = laidOn(board); !laid.empty()) {
      around(board, laid, open);
      return;
    }
    const bool pinned = isPinned(choices, board.id);
    optimizer::Stock whole = stockOf({0, 0, wood_.origin.dx, wood_.origin.dy});
    whole.cost = open.raw();
    whole.least = pinned ? 1 : 0;
    const bool any = std::any_of(whole.itemClass.begin(), whole.itemClass.end(),
                                 [](int cls) { return cls != optimizer::noClass; });
    if (!any && pinned) throw uselessPin(board, request_);
    if (any) add(std::move(whole), wood_.origin);
  }

 private:
  /// The blanks laid on a board, in cells of its usable wood.
  [[nodiscard]] std::vector<optimizer::Laid> laidOn(const Board& board) const {
    std::vector<optimizer::Laid> laid;
    for (const LaidByHand& l : request_.choices.laid) {
      if (l.board != board.id) continue;
      std::size_t item = 0;
      const std::vector<const Part*>& parts = asked_.partOfItem;
      while (item < parts.size() && parts[item]->line != l.line) ++item;
      if (item == parts.size()) {
        throw Refusal("laid-badly", Complaint{"",
                                              "A blank of " + partLetter(l.line) +
                                                  " is laid by "
                                                  "hand, a part that the job does not have",
                                              partLetter(l.line), "parts of the job"});
      }
      const optimizer::Item& size = out_.problem.items[item];
      const int orientation =
          2 * (l.faceUp == Face::b ? 1 : 0) + (l.frontEdge == Edge::far ? 1 : 0);
      laid.push_back({{ticksDown(l.at.x, out_.tick) - wood_.origin.x,
                       ticksDown(l.at.y, out_.tick) - wood_.origin.y, size.length, size.width},
                      static_cast<int>(item),
                      orientation});
    }
    return laid;
  }

  /// The board parted around what is laid on it: what lies free is stock that costs nothing more.
  void around(const Board& board, const std::vector<optimizer::Laid>& laid, Money open) {
    const std::string name = boardName(board, request_.unit);
    std::optional<Parting> parting = partedAround(laid, wood_.origin, out_.problem.saw);
    if (!parting) {
      throw Refusal("laid-badly",
                    Complaint{"",
                              "What is laid by hand on " + name +
                                  " cannot be parted by three stages of straight cuts",
                              name, "blanks a saw's cut apart, each in a row across or along"});
    }
    const Written alone =
        writeTree(out_, request_, board, wood_.origin, parting->first, parting->cells);
    const std::vector<Fault> faults = faultsOf({alone.cutting, board, request_, out_.tick});
    if (!faults.empty()) {
      throw Refusal("laid-badly", Complaint{"",
                                            "What is laid by hand on " + name +
                                                " cannot lie there: " + faults.front().sentence,
                                            name, "sound, seen wood that is thick enough"});
    }
    out_.beside +=
        open + labour(shop_, shop_.cutMinutes) * static_cast<std::int64_t>(parting->cells.size());
    for (const optimizer::Rect& free : parting->free) {
      optimizer::Stock stock = stockOf(free);
      stock.least = 1;
      stock.first = parting->first;
      add(std::move(stock), {wood_.origin.x + free.x, wood_.origin.y + free.y, free.dx, free.dy});
    }
    out_.laid.push_back({place_, wood_.origin, *std::move(parting)});
  }

  /// A rectangle of the usable wood as stock, at no cost yet.
  [[nodiscard]] optimizer::Stock stockOf(const optimizer::Rect& at) const {
    optimizer::Stock stock;
    stock.profile = within(wood_.profile, at);
    for (std::size_t o = 0; o < stock.zones.size(); ++o) {
      stock.zones[o] = within(barred_.zones[o], at);
    }
    stock.itemClass = barred_.partClass;
    for (std::size_t i = 0; i < stock.itemClass.size(); ++i) {
      const optimizer::Item& item = out_.problem.items[i];
      const bool fits = item.length <= at.dx && item.width <= at.dy &&
                        asked_.mayComeFrom(request_.boards[place_].id, i);
      if (!fits) stock.itemClass[i] = optimizer::noClass;
    }
    stock.offcuts = keepRule(request_.boards[place_], shop_, barred_.offcutClass, out_.tick);
    return stock;
  }

  void add(optimizer::Stock stock, const optimizer::Rect& origin) {
    out_.problem.stock.push_back(std::move(stock));
    out_.board.push_back(place_);
    out_.origin.push_back(origin);
  }

  const PlanRequest& request_;
  const ShopProfile& shop_;
  Framing& out_;
  const Asked& asked_;
  std::size_t place_ = 0;
  UsableWood wood_;
  Barring barred_;
};

}  // namespace

Framing frame(const PlanRequest& whole) {
  const PlanRequest request = besideLocks(whole);
  const ShopProfile& shop = request.shop;
  Asked asked = ask(request);
  Framing out = std::move(asked.framing);
  out.tick = tickFor(out.blanks, request);
  for (std::size_t i = 0; i < out.blanks.size(); ++i) {
    out.problem.items[i].length = ticksUp(out.blanks[i].length, out.tick);
    out.problem.items[i].width = ticksUp(out.blanks[i].width, out.tick);
  }
  refuseBrokenLocks(out.tick, request);
  const Money cut = labour(shop, shop.cutMinutes);
  out.problem.saw.kerfX = ticksUp(shop.crosscutKerf, out.tick);
  out.problem.saw.kerfY = ticksUp(shop.ripKerf, out.tick);
  out.problem.saw.crosscut = cut.raw();
  out.problem.saw.rip = cut.raw();
  out.beside = besideCost(request, out.tick);
  Stocking stocking(request, out, asked);
  for (std::size_t b = 0; b < request.boards.size(); ++b) stocking.stock(b);
  return out;
}

Refusal uselessPin(const Board& board, const PlanRequest& request) {
  const std::string name = boardName(board, request.unit);
  return Refusal(
      "useless-pin",
      Complaint{"",
                name + " is pinned, but can give no part that " + request.job.name + " still lacks",
                name, "a board of a species, size and faces that the job can use"});
}

}  // namespace flitch::planning
