#include "optimizer/draft.h"

#include <algorithm>
#include <queue>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

/// What asking a board costs beside its states, so that every loop comes to its effort limit.
constexpr std::size_t recutStates = 20000;
constexpr std::uint64_t recutWork = 300000;
constexpr std::uint64_t pricingEffort = 100;

}  // namespace

Draft::Draft(const Problem& problem)
    : problem_(&problem),
      supplied_(problem.needs.size(), 0),
      making_(makeFrom(problem, supplied_)) {
  for (const Stock& stock : problem.stock) left_.push_back(stock.copies);
}

void Draft::add(Opened board) {
  const Stock& stock = problem_->stock[index(board.stock)];
  const std::vector<std::int64_t> units = supplies(board.pattern, *problem_);
  for (std::size_t n = 0; n < units.size(); ++n) supplied_[n] += units[n];
  making_ = makeFrom(*problem_, supplied_);
  boardsCost_ += flitch::optimizer::cost(board.pattern, *problem_, stock);
  --left_[index(board.stock)];
  boards_.push_back(std::move(board));
}

Opened Draft::remove(std::size_t place) {
  Opened board = std::move(boards_[place]);
  boards_[place] = std::move(boards_.back());
  boards_.pop_back();
  const std::vector<std::int64_t> units = supplies(board.pattern, *problem_);
  for (std::size_t n = 0; n < units.size(); ++n) supplied_[n] -= units[n];
  making_ = makeFrom(*problem_, supplied_);
  boardsCost_ -=
      flitch::optimizer::cost(board.pattern, *problem_, problem_->stock[index(board.stock)]);
  ++left_[index(board.stock)];
  return board;
}

Need Draft::rest(int need) const {
  const Need& whole = problem_->needs[index(need)];
  const std::int64_t left = whole.amount - supplied_[index(need)];
  return {whole.amount > 0 ? std::max<std::int64_t>(0, left) : left, whole.shortage};
}

bool Draft::forced(int stock) const {
  const Stock& of = problem_->stock[index(stock)];
  return of.copies - left_[index(stock)] < of.least;
}

void Draft::tidy() {
  for (std::size_t b = boards_.size(); b-- > 0;) {
    const Worth before = cost();
    Opened board = remove(b);
    std::vector<std::int64_t> room;
    for (std::size_t n = 0; n < supplied_.size(); ++n) room.push_back(useful(static_cast<int>(n)));
    // Cells in order take what is still missing; the rest are dropped.
    std::vector<Priced> caps;
    std::vector<std::int64_t> taken(problem_->items.size(), 0);
    for (const Cell& cell : board.pattern.cells) {
      if (cell.item < 0) continue;
      const Item& item = problem_->items[index(cell.item)];
      if (room[index(item.need)] <= 0) continue;
      room[index(item.need)] -= item.supplies;
      ++taken[index(cell.item)];
    }
    for (std::size_t i = 0; i < taken.size(); ++i)
      caps.push_back({static_cast<int>(i), 0, taken[i]});
    Opened less{board.stock, withinCaps(board.pattern, caps)};
    const bool opened = forced(less.stock) || !less.pattern.cells.empty();
    if (opened) add(std::move(less));
    if (cost() <= before) continue;
    // A piece too many may still pay: a negative extra, or a recipe that it saves.
    if (opened) remove(boards_.size() - 1);
    add(std::move(board));
  }
}

void Draft::replace(std::size_t place, Pattern pattern) {
  Opened& board = boards_[place];
  const Stock& stock = problem_->stock[index(board.stock)];
  boardsCost_ -= flitch::optimizer::cost(board.pattern, *problem_, stock);
  board.pattern = std::move(pattern);
  boardsCost_ += flitch::optimizer::cost(board.pattern, *problem_, stock);
}

Solution Draft::solution() const {
  Solution made;
  std::vector<const Opened*> order;
  for (const Opened& board : boards_) order.push_back(&board);
  std::stable_sort(order.begin(), order.end(),
                   [](const Opened* a, const Opened* b) { return a->stock < b->stock; });
  for (const Opened* board : order) {
    const auto same = std::find_if(made.cuts.begin(), made.cuts.end(), [&](const StockCut& cut) {
      return cut.stock == board->stock && cut.pattern == board->pattern;
    });
    if (same != made.cuts.end())
      ++same->times;
    else
      made.cuts.push_back({board->stock, 1, board->pattern});
  }
  for (std::size_t r = 0; r < making_.times.size(); ++r)
    if (making_.times[r] > 0) made.recipes.push_back({static_cast<int>(r), making_.times[r]});
  for (std::size_t n = 0; n < supplied_.size(); ++n)
    if (const std::int64_t short_ = missing(static_cast<int>(n)); short_ > 0)
      made.shortages.push_back({static_cast<int>(n), short_});
  made.cost = cost();
  return made;
}

Pricer& Pricers::of(int stock) {
  std::unique_ptr<Pricer>& pricer = pricers_[index(stock)];
  if (!pricer) pricer = std::make_unique<Pricer>(problem_, problem_.stock[index(stock)]);
  return *pricer;
}

Pattern Pricers::kept(int stock, const Pattern& pattern) {
  if (problem_.saw.stages != 3 || problem_.saw.trim) return pattern;
  for (const Lay& lay : of(stock).lays())
    if (lay.first == pattern.first) return keptToRule(pattern, lay);
  return pattern;
}

Pattern recut(const Pattern& pattern, const Problem& problem, int stock, Pricers& pricers,
              const Halt& halt, Filling& spent) {
  const Stock& of = problem.stock[index(stock)];
  std::vector<std::int64_t> pieces(problem.items.size(), 0);
  std::int64_t all = 0;
  for (const Cell& cell : pattern.cells)
    if (cell.item >= 0) {
      ++pieces[index(cell.item)];
      ++all;
    }
  if (all == 0 || of.offcuts.bands.empty()) return pattern;
  // One piece is worth more than all that offcuts and cuts can make of the board.
  const Worth each = 2 * (of.offcuts.worth(of.profile.length(), of.profile.width()) +
                          4 * (all + 1) * (problem.saw.crosscut + problem.saw.rip) + 1);
  constexpr Worth most = Worth{1} << 48;  // the programme keeps bits behind the point
  if (each > most / (all + 1)) return pattern;
  std::vector<Priced> prices;
  for (std::size_t i = 0; i < pieces.size(); ++i)
    if (pieces[i] > 0) prices.push_back({static_cast<int>(i), each, pieces[i]});
  const Best best = pricers.of(stock).best(prices, {.caps = Caps::keep,
                                                    .reach = Reach::all,
                                                    .states = recutStates,
                                                    .floor = (all - 1) * each,
                                                    .halt = &halt,
                                                    .most = recutWork});
  spent += {best.work + pricingEffort, 1, 0};
  Pattern again = pricers.kept(stock, withinCaps(best.pattern, prices));
  const bool same = supplies(again, problem) == supplies(pattern, problem);
  return same && cost(again, problem, of) < cost(pattern, problem, of) ? again : pattern;
}

std::vector<Priced> pricesFor(const Problem& problem, const Draft& draft,
                              std::span<const Worth> unit) {
  std::vector<Priced> prices;
  for (std::size_t i = 0; i < problem.items.size(); ++i) {
    const Item& item = problem.items[i];
    const std::int64_t useful = draft.useful(item.need);
    const Worth value = unit[index(item.need)] * item.supplies - item.extra;
    if (useful > 0 && value > 0)
      prices.push_back({static_cast<int>(i), value, (useful + item.supplies - 1) / item.supplies});
  }
  return prices;
}

Pattern uncut(const Problem& problem) {
  return {problem.saw.first == FirstCut::y ? FirstCut::y : FirstCut::x, {}};
}

void openForced(Draft& draft, const Problem& problem) {
  for (std::size_t s = 0; s < problem.stock.size(); ++s)
    while (draft.forced(static_cast<int>(s))) draft.add({static_cast<int>(s), uncut(problem)});
}

Filling fill(Draft& draft, const Problem& problem, std::span<const int> allowed,
             std::span<const Worth> unit, Pricers& pricers, const Halt& halt) {
  struct Candidate {
    double rate;  ///< worth for cost; falls while needs are met
    int stock;
    std::size_t round;
    bool operator<(const Candidate& o) const {
      return rate != o.rate ? rate < o.rate : stock > o.stock;
    }
  };
  Filling spent;
  std::priority_queue<Candidate> queue;
  std::vector<Best> found(problem.stock.size());
  constexpr std::size_t never = static_cast<std::size_t>(-1);
  for (const int s : allowed)
    if (draft.copiesLeft(s) > 0) queue.push({1e300, s, never});
  std::size_t round = 0;
  while (!queue.empty() && !halt.now()) {
    const Candidate top = queue.top();
    queue.pop();
    const Stock& stock = problem.stock[index(top.stock)];
    const Worth own = draft.forced(top.stock) ? 0 : stock.cost;
    if (top.round != round) {
      const std::vector<Priced> prices = pricesFor(problem, draft, unit);
      Best best = pricers.of(top.stock).best(
          prices, {.caps = Caps::keep, .reach = Reach::quick, .floor = own, .halt = &halt});
      spent.effort += best.work + pricingEffort;
      ++spent.priced;
      if (best.value <= own) continue;  // and never again: it only falls
      const double rate =
          static_cast<double>(best.value) / static_cast<double>(std::max<Worth>(own, 1));
      best.pattern = pricers.kept(top.stock, best.pattern);
      found[index(top.stock)] = std::move(best);
      queue.push({rate, top.stock, round});
      continue;
    }
    draft.add({top.stock, found[index(top.stock)].pattern});
    ++round;
    if (draft.copiesLeft(top.stock) > 0) queue.push({top.rate, top.stock, never});
  }
  return spent;
}

}  // namespace flitch::optimizer
