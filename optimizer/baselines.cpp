#include "optimizer/baselines.h"

#include <algorithm>
#include <numeric>

#include "optimizer/draft.h"
#include "optimizer/index.h"
#include "optimizer/places.h"

namespace flitch::optimizer {
namespace {

std::int64_t usableArea(const Stock& stock) {
  std::int64_t area = 0;
  for (std::size_t x = 0; x < stock.profile.low.size(); ++x)
    area += std::max<Tick>(0, stock.profile.high[x] - stock.profile.low[x]);
  return area;
}

/// A board being cut by hand, crosscut first: sections from the tag end, in each one strip after
/// the other from the near edge.
class HandBoard {
 public:
  HandBoard(const Problem& problem, const Stock& stock)
      : saw_(problem.saw), places_(problem, stock, FirstCut::x) {}

  /// Lays the item at the first clear place: in the open sections first, then in a new one.
  bool lay(int item) {
    const Tick l = places_.itemLength[index(item)], w = places_.itemWidth[index(item)];
    if (l == 0) return false;
    for (Section& section : sections_)
      if (section.to - section.from >= l && layIn(section, item)) return true;
    Tick at = -1;  // the first place along the board, whatever the row
    for (Tick v = 0; v + w <= places_.width; ++v) {
      const Tick u = nextPlace(places_.startsAt(item, v), free_);
      if (u >= 0 && (at < 0 || u < at)) at = u;
      if (at == free_) break;
    }
    if (at < 0) return false;
    sections_.push_back({at, at + l, {}});
    free_ = at + l + places_.kerfU;
    return layIn(sections_.back(), item);
  }

  [[nodiscard]] Pattern pattern() const {
    Pattern made{FirstCut::x, {}};
    for (const Section& section : sections_) {
      made.cells.push_back(
          {1, {section.from, 0, section.to - section.from, places_.width}, Cell::divided, 0});
      for (const Piece& piece : section.pieces) {
        const Tick l = places_.itemLength[index(piece.item)],
                   w = places_.itemWidth[index(piece.item)];
        if (saw_.stages == 3)
          made.cells.push_back(
              {2, {section.from, piece.v, section.to - section.from, w}, Cell::divided, 0});
        made.cells.push_back({saw_.stages,
                              {piece.u, piece.v, l, w},
                              piece.item,
                              places_.orientationAt(piece.item, piece.u, piece.v)});
      }
    }
    return made;
  }

 private:
  struct Piece {
    int item;
    Tick u, v;
  };
  struct Section {
    Tick from, to;
    std::vector<Piece> pieces;  ///< one a strip, rising
  };

  bool layIn(Section& section, int item) {
    const Tick l = places_.itemLength[index(item)], w = places_.itemWidth[index(item)];
    const Tick low = section.pieces.empty()
                         ? 0
                         : section.pieces.back().v +
                               places_.itemWidth[index(section.pieces.back().item)] + places_.kerfV;
    const Tick last = saw_.stages == 3 ? section.to - l : section.from;
    if (saw_.stages == 2 && section.to - section.from != l) return false;
    for (Tick v = low; v + w <= places_.width; ++v) {
      const Tick u = nextPlace(places_.startsAt(item, v), section.from);
      if (u < 0 || u > last) continue;
      section.pieces.push_back({item, u, v});
      return true;
    }
    return false;
  }

  const Saw saw_;
  Places places_;
  std::vector<Section> sections_;
  Tick free_ = 0;
};

/// What a hurried hand sets out to cut: a need that no item supplies is met by its first recipe.
std::vector<std::int64_t> handAmounts(const Problem& problem) {
  std::vector<std::int64_t> amounts;
  for (const Need& need : problem.needs) amounts.push_back(need.amount);
  std::vector<bool> planned(amounts.size(), false);
  for (const Item& item : problem.items) planned[index(item.need)] = true;
  for (const Recipe& recipe : problem.recipes) {
    if (planned[index(recipe.makes)]) continue;
    planned[index(recipe.makes)] = true;
    for (const Supply& use : recipe.uses)
      amounts[index(use.need)] = use.amount * amounts[index(recipe.makes)];
  }
  return amounts;
}

}  // namespace

Solution handRule(const Problem& problem) {
  validate(problem);
  Draft draft(problem);
  std::vector<int> order(problem.items.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    return problem.items[index(a)].length > problem.items[index(b)].length;
  });
  struct Copy {
    int stock;
    double rate;
  };
  std::vector<Copy> copies;
  for (std::size_t s = 0; s < problem.stock.size(); ++s) {
    const Stock& stock = problem.stock[s];
    const auto area = static_cast<double>(std::max<std::int64_t>(1, usableArea(stock)));
    for (int c = 0; c < stock.copies; ++c)
      copies.push_back({static_cast<int>(s), static_cast<double>(stock.cost) / area});
  }
  std::stable_sort(copies.begin(), copies.end(),
                   [](const Copy& a, const Copy& b) { return a.rate < b.rate; });

  std::vector<std::int64_t> missing = handAmounts(problem);
  // The hand rule crosscuts first; stock that forbids it is left alone.
  std::erase_if(copies, [&](const Copy& copy) {
    return !allows(problem, problem.stock[index(copy.stock)], FirstCut::x);
  });
  std::vector<std::unique_ptr<HandBoard>> boards(copies.size());
  for (const int item : order) {
    std::size_t b = 0;
    while (missing[index(problem.items[index(item)].need)] > 0 && b < copies.size()) {
      if (!boards[b])
        boards[b] = std::make_unique<HandBoard>(problem, problem.stock[index(copies[b].stock)]);
      if (boards[b]->lay(item))
        missing[index(problem.items[index(item)].need)] -= problem.items[index(item)].supplies;
      else
        ++b;
    }
  }
  for (std::size_t b = 0; b < copies.size(); ++b)
    if (boards[b] && !boards[b]->pattern().cells.empty())
      draft.add({copies[b].stock, boards[b]->pattern()});
  openForced(draft, problem);
  Solution made = draft.solution();
  made.ending = Ending::goodEnough;
  return made;
}

Solution carefulHand(const Problem& problem, std::stop_token stop) {
  validate(problem);
  Draft draft(problem);
  Pricers pricers(problem, Crew());
  std::vector<int> all(problem.stock.size());
  std::iota(all.begin(), all.end(), 0);
  std::vector<Worth> unit;
  for (const Need& need : problem.needs) unit.push_back(need.shortage);
  const Halt halt{stop};
  Filling spent = fill(draft, problem, all, unit, pricers, halt);
  for (std::size_t b = 0; b < draft.boards().size() && !halt.now(); ++b) {
    const Opened& board = draft.boards()[b];
    draft.replace(b, recut(board.pattern, problem, board.stock, pricers, halt, spent));
  }
  openForced(draft, problem);
  Solution made = draft.solution();
  made.ending = stop.stop_requested() ? Ending::stopped : Ending::goodEnough;
  made.statistics.effort = spent.effort;
  made.statistics.priced = spent.priced;
  return made;
}

}  // namespace flitch::optimizer
