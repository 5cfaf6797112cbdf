#include "inventory/records/delivery.h"

#include <algorithm>
#include <map>

#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// What is billed as one: a board, or the boards it was cut into.
struct BilledUnit {
  const TallyLine* line = nullptr;  ///< the first
  std::vector<std::size_t> boards;
  Length length;
  Area bothFaces;
  CubicMillimetres wood;

  /// Width of a rectangle of the same length and mean face area.
  [[nodiscard]] Length meanWidth() const {
    return Length::nanometres(
        narrow(nearest(bothFaces.doubled, 4 * static_cast<Wide>(length.nm()))));
  }
};

/// Counts what is billed as one; exact halves of a delivery go up first, then in turn.
class Counter {
 public:
  explicit Counter(CountingRule rule) : rule_(rule) {}

  TallyFigures count(const BilledUnit& unit) {
    TallyFigures figures;
    if (unit.line->billed) {
      figures.billed = *unit.line->billed;
    } else if (unit.line->kind == BoardKind::offcut || rule_ == CountingRule::volume) {
      figures.billed = volumeTally(unit.line->nominal, unit.meanWidth(), unit.length);
    } else if (rule_ == CountingRule::volumeTenths) {
      figures.billed = toTenths(volumeTally(unit.line->nominal, unit.meanWidth(), unit.length));
    } else if (rule_ == CountingRule::halfInch) {
      const HalfInchTally tally =
          halfInchTally(unit.line->nominal, unit.meanWidth(), unit.length, nextHalf_);
      figures.billed = tally.feet;
      turn(figures, tally.half);
    } else {
      const SurfaceMeasure measure = surfaceMeasure(unit.meanWidth(), unit.length, nextHalf_);
      figures.billed = surfaceTally(measure, unit.line->nominal);
      turn(figures, measure.half);
      if (rule_ == CountingRule::grossGreen) figures.billed = grossOfNet(figures.billed);
    }
    return figures;
  }

 private:
  void turn(TallyFigures& figures, Half half) {
    figures.half = half;
    if (half != Half::none) nextHalf_ = nextHalf_ == Half::up ? Half::down : Half::up;
  }

  CountingRule rule_;
  Half nextHalf_ = Half::up;
};

Money priceOf(const BilledUnit& unit, Feet billed) {
  const Rate rate{unit.line->price};
  switch (unit.line->basis) {
    case PriceBasis::perFoot: return cost(rate, billed);
    case PriceBasis::each: return rate.perOne;
    case PriceBasis::perCubicMetre: return costPerCubicMetre(rate, unit.wood);
    case PriceBasis::perRunningFoot: return costPerRunningFoot(rate, unit.length);
    case PriceBasis::lot: break;
  }
  return {};  // shared over the lot when all of it is counted
}

/// The boards of a draft in what they are billed as.
class Load {
 public:
  explicit Load(const DeliveryDraft& draft) : draft_(draft) {
    for (std::size_t i = 0; i < draft.lines.size(); ++i) {
      for (int copy = 0; copy < draft.lines[i].count; ++copy) add(i);
    }
  }

  std::vector<TallyFigures> figures() && {
    Counter counter(draft_.rule);
    for (const BilledUnit& unit : units_) share(unit, counter.count(unit));
    shareLots();
    std::vector<Billed> billed;
    for (const TallyFigures& board : all_) billed.push_back({board.billed, board.price});
    const std::vector<Money> costs = landed(billed, draft_.extras);
    for (std::size_t i = 0; i < all_.size(); ++i) all_[i].landed = costs[i];
    return std::move(all_);
  }

 private:
  void add(std::size_t index) {
    const TallyLine& line = draft_.lines[index];
    // Counted at nominal thickness: what is thinner on the day is the board's own affair.
    const CubicMillimetres wood =
        volume(line.outline[0].area(), line.outline[1].area(), line.nominal.length());
    TallyFigures board;
    board.line = index;
    board.measured = feetOf(wood);
    const auto cut = line.cutFrom.empty() ? cutInto_.end() : cutInto_.find(line.cutFrom);
    if (cut == cutInto_.end()) {
      if (!line.cutFrom.empty()) cutInto_[line.cutFrom] = units_.size();
      units_.push_back({&line, {}, {}, {}, {}});
    }
    BilledUnit& unit = cut == cutInto_.end() ? units_.back() : units_[cut->second];
    unit.boards.push_back(all_.size());
    unit.length += line.outline[0].length();
    unit.bothFaces = unit.bothFaces + line.outline[0].area() + line.outline[1].area();
    unit.wood += wood;
    woods_.push_back(wood);
    all_.push_back(board);
  }

  void share(const BilledUnit& unit, const TallyFigures& counted) {
    const std::vector<Wide> shares = [&] {
      std::vector<Wide> wood;
      for (const std::size_t board : unit.boards) wood.push_back(woods_[board].value);
      return wood;
    }();
    const auto feet = split(counted.billed.thousandths, shares);
    const auto money = split(priceOf(unit, counted.billed).raw(), shares);
    for (std::size_t i = 0; i < unit.boards.size(); ++i) {
      TallyFigures& board = all_[unit.boards[i]];
      board.billed = {feet[i]};
      board.price = Money::tenThousandths(money[i]);
      board.half = counted.half;
      if (i > 0) board.billedWith = unit.boards.front();
    }
  }

  void shareLots() {
    // A line without a lot's name is a lot of its own.
    std::map<std::pair<std::string, std::size_t>, std::vector<std::size_t>> lots;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      const TallyLine& line = draft_.lines[all_[i].line];
      if (line.basis != PriceBasis::lot) continue;
      lots[{line.lot, line.lot.empty() ? all_[i].line : 0}].push_back(i);
    }
    for (const auto& [name, boards] : lots) {
      std::vector<Wide> shares;
      for (const std::size_t board : boards) shares.push_back(all_[board].billed.thousandths);
      if (std::all_of(shares.begin(), shares.end(), [](Wide share) { return share == 0; })) {
        for (std::size_t i = 0; i < boards.size(); ++i) shares[i] = woods_[boards[i]].value;
      }
      const auto money = split(draft_.lines[all_[boards.front()].line].price.raw(), shares);
      for (std::size_t i = 0; i < boards.size(); ++i) {
        all_[boards[i]].price = Money::tenThousandths(money[i]);
        if (i > 0) all_[boards[i]].billedWith = boards.front();
      }
    }
  }

  const DeliveryDraft& draft_;
  std::vector<TallyFigures> all_;
  std::vector<CubicMillimetres> woods_;
  std::vector<BilledUnit> units_;
  std::map<std::string, std::size_t> cutInto_;
};

}  // namespace

std::vector<TallyFigures> figures(const DeliveryDraft& draft) { return Load(draft).figures(); }

}  // namespace flitch
