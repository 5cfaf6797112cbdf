#include "optimizer/component_search.h"

#include <algorithm>
#include <numeric>

#include "optimizer/baselines.h"
#include "optimizer/closing.h"
#include "optimizer/dive.h"
#include "optimizer/improve.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr std::size_t nodesOfTree = 5000;
constexpr std::size_t nodesOfChoice = 6000, nodesOfFirst = 1500;
constexpr std::uint64_t boundAhead = 2500000;  ///< a board: work for the bound before any for plans
constexpr std::uint64_t plansAhead = 2;        ///< least work for plans beside that for the tree
constexpr std::size_t boardsAhead = 8;         ///< one part more for so many boards
constexpr Worth trifle = 25;                   ///< part of the gap that a bound's rounds let be
constexpr std::uint64_t polishShare = 24;      ///< of all work, at most one in so many parts
constexpr std::size_t fewBoards = 100;
constexpr int widely = 6;               ///< 64ths by which multipliers are moved for other columns
constexpr std::uint64_t divePause = 3;  ///< between two dives, in work of one
constexpr std::size_t mostLabels = 2000000;  ///< of one board

}  // namespace

ComponentSearch::ComponentSearch(const Problem& problem, std::uint64_t seed)
    : problem_(problem),
      pricers_(problem, Crew()),
      bounds_(problem),
      draft_(problem),
      random_(seed),
      step_(costStep(problem)) {
  openForced(draft_, problem_);
  bound_ = lagrangian(problem_, std::vector<Worth>(problem_.needs.size(), 0), worthForNothing());
}

void ComponentSearch::offer(Draft fresh) {
  openForced(fresh, problem_);
  if (fresh.cost() < draft_.cost()) draft_ = std::move(fresh);
}

void ComponentSearch::handPlan() {
  Draft fresh(problem_);
  for (StockCut& cut : handRule(problem_).cuts)
    for (int copy = 0; copy < cut.times; ++copy) fresh.add({cut.stock, cut.pattern});
  offer(std::move(fresh));
}

void ComponentSearch::carefulPlan(const Halt& halt) {
  Draft fresh(problem_);
  std::vector<int> all(problem_.stock.size());
  std::iota(all.begin(), all.end(), 0);
  std::vector<Worth> unit;
  for (const Need& need : problem_.needs) unit.push_back(need.shortage);
  spent_ += fill(fresh, problem_, all, unit, pricers_, halt);
  fresh.tidy();
  offer(std::move(fresh));
}

void ComponentSearch::firstBound(const Halt& halt) {
  raise(bounds_.start(pricers_, halt, spent_), BoundKind::relaxed);
  polish(halt);
}

void ComponentSearch::take(std::vector<Opened> boards) {
  Draft fresh(problem_);
  for (Opened& board : boards) {
    board.pattern = pricers_.kept(board.stock, board.pattern);
    fresh.add(std::move(board));
  }
  fresh.tidy();
  offer(std::move(fresh));
}

void ComponentSearch::improve(std::uint64_t work, const Halt& halt) {
  const std::uint64_t until = spent_.effort + work;
  while (!closed() && spent_.effort < until && !halt.now()) {
    step(halt);
    polish(halt);
  }
}

void ComponentSearch::polish(const Halt& halt) {
  if (draft_.cost() == polished_) return;
  for (std::size_t b = 0; b < draft_.boards().size(); ++b) {
    if (halt.now() || polishEffort_ > spent_.effort / polishShare) return;  // goes on later
    const Opened& board = draft_.boards()[b];
    const Stock& stock = problem_.stock[static_cast<std::size_t>(board.stock)];
    const auto [known, fresh] =
        recuts_.try_emplace({board.stock, supplies(board.pattern, problem_)}, board.pattern);
    if (fresh) {
      const std::uint64_t before = spent_.effort;
      known->second = recut(board.pattern, problem_, board.stock, pricers_, halt, spent_);
      polishEffort_ += spent_.effort - before;
    }
    using flitch::optimizer::cost;
    if (cost(known->second, problem_, stock) < cost(board.pattern, problem_, stock)) {
      draft_.replace(b, known->second);
    }
  }
  polished_ = draft_.cost();
}

void ComponentSearch::step(const Halt& halt) {
  if (!bounds_.converged() && boundEffort_ <= planEffort_ + boundAhead * boards())
    boundStep(halt);
  else if (!chosen_ || !closeGap(halt)) {
    if (treeDue())
      treeStep(halt);
    else
      planStep(halt);
  }
}

bool ComponentSearch::treeDue() const {
  if (!chosen_ || (tree_ && tree_->ended())) return false;
  // A node of many boards takes long and shows little.
  const std::uint64_t ahead = std::max<std::uint64_t>(plansAhead, boards() / boardsAhead);
  return treeEffort_ * ahead < planEffort_;
}

void ComponentSearch::treeStep(const Halt& halt) {
  const std::uint64_t before = spent_.effort;
  if (!tree_) tree_.emplace(problem_, bounds_);
  tree_->step(bounds_, pricers_, cost(), halt, spent_);
  raise(tree_->bound(), BoundKind::exact);
  treeEffort_ += spent_.effort - before;
}

void ComponentSearch::boundStep(const Halt& halt) {
  const std::uint64_t before = spent_.effort;
  for (const Opened& board : draft_.boards()) bounds_.learn(board.stock, board.pattern);
  const BoundKind kind = bounds_.kind();
  const Worth bound = bounds_.round(pricers_, halt, spent_, (cost() - bound_) / trifle);
  raise(bound, halt.now() ? BoundKind::relaxed : kind);
  boundEffort_ += spent_.effort - before;
}

void ComponentSearch::planStep(const Halt& halt) {
  const std::uint64_t before = spent_.effort;
  const std::size_t columns = bounds_.master().columns().size();
  if (bounds_.converged() && !chosen_) {
    chooseAmongMore(0, halt);
    chosen_ = true;
  } else if (columns > chosenFrom_ + chosenFrom_ / 5) {
    choose(halt);
  } else if (bounds_.converged() && planEffort_ >= nextDive_) {
    // Of few boards, other ways of cutting to choose from bring more than most dives.
    if (boards() <= fewBoards && ++dives_ % 2 == 1)
      chooseAmongMore(widely, halt);
    else if (std::optional<Draft> found = dive(problem_, bounds_, pricers_, random_, halt, spent_))
      offer(std::move(*found));
    nextDive_ = planEffort_ + (divePause + 1) * (spent_.effort - before);
  } else if (bounds_.converged() && ++turn_ % 8 == 0) {
    enrich(problem_, bounds_, pricers_, widely, random_, halt, spent_);
  } else {
    replan(draft_, problem_, bounds_, pricers_, random_, halt, spent_);
  }
  planEffort_ += spent_.effort - before;
}

void ComponentSearch::choose(const Halt& halt) {
  chosenFrom_ = bounds_.master().columns().size();
  rechoose(draft_, problem_, bounds_, bounds_.converged() ? nodesOfChoice : nodesOfFirst, halt,
           spent_);
}

void ComponentSearch::chooseAmongMore(int spread, const Halt& halt) {
  enrich(problem_, bounds_, pricers_, spread, random_, halt, spent_);
  choose(halt);
}

Solution ComponentSearch::solution() const {
  Solution made = draft_.solution();
  made.bound = bound_;
  made.boundKind = kind_;
  made.statistics.effort = spent_.effort;
  made.statistics.priced = spent_.priced;
  made.statistics.nodes = spent_.nodes;
  return made;
}

bool ComponentSearch::closeGap(const Halt& halt) {
  const Worth open = cost() - bound_;
  if (open > triedOpen_ / 10 * 8 && spent_.effort < nextTry_) return false;
  if (open > triedOpen_ / 10 * 8) labels_ = std::min(mostLabels, labels_ * 3);
  triedOpen_ = open;
  const std::uint64_t before = spent_.effort;
  const Worth from = cost();
  const std::optional<std::vector<Column>> ways = listWays(halt);
  nextTry_ = spent_.effort + 4 * (spent_.effort - before);
  if (ways) {
    std::vector<const Column*> columns;
    for (const Column& way : *ways) columns.push_back(&way);
    Closed closed = close(problem_, columns, {from, nodesOfTree}, halt, spent_);
    if (closed.better) draft_ = std::move(*closed.better);
    raise(closed.bound, BoundKind::exact);
  }
  planEffort_ += spent_.effort - before;
  return true;
}

std::optional<std::vector<Column>> ComponentSearch::listWays(const Halt& halt) {
  const Worth open = cost() - bounds_.bound();
  const std::vector<std::int64_t> wanted = flitch::optimizer::wanted(problem_);
  const UnitWorths worths(bounds_.best(), wanted);
  const auto floor = [&](std::size_t s) {
    const Worth worth = bounds_.worth()[s];
    return (problem_.stock[s].least > 0 ? worth : std::max(problem_.stock[s].cost, worth)) - open;
  };
  std::vector<Listing> listings(problem_.stock.size());
  // Some at a time, so that one with too many ways ends it soon.
  constexpr std::size_t share = 8;
  for (std::size_t from = 0; from < listings.size(); from += share) {
    const std::size_t count = std::min(share, listings.size() - from);
    pricers_.crew().each(count, [&](std::size_t at) {
      const std::size_t s = from + at;
      listings[s].above = floor(s);
      if (bounds_.worth()[s] <= floor(s)) return;
      listings[s] =
          pricers_.lister(static_cast<int>(s))
              .list({.worths = worths, .floor = floor(s), .labels = labels_, .halt = &halt});
    });
    bool complete = true;
    for (std::size_t s = from; s < from + count; ++s) {
      spent_ += {listings[s].work + 100, 1, 0};
      complete = complete && listings[s].above <= floor(s);
    }
    if (!complete) return std::nullopt;
  }
  std::vector<Column> ways;
  for (std::size_t s = 0; s < listings.size(); ++s) {
    const Stock& stock = problem_.stock[s];
    const auto add = [&](Pattern pattern) {
      Column way{static_cast<int>(s), flitch::optimizer::cost(pattern, problem_, stock),
                 supplies(pattern, problem_), std::move(pattern)};
      for (std::size_t n = 0; n < way.units.size(); ++n)
        way.units[n] = std::min(way.units[n], wanted[n]);
      ways.push_back(std::move(way));
    };
    if (stock.least > 0) add(uncut(problem_));
    for (Listed& way : listings[s].ways) add(std::move(way.pattern));
  }
  return ways;
}

std::vector<Worth> ComponentSearch::worthForNothing() const {
  const Tick kerfX = problem_.saw.kerfX, kerfY = problem_.saw.kerfY;
  std::vector<Worth> z;
  for (const Stock& stock : problem_.stock) {
    const Tick length = stock.profile.length(), width = stock.profile.width();
    const Wide area = Wide{length + kerfX} * (width + kerfY);
    Wide most = 0;
    for (const Item& item : problem_.items)
      if (item.extra < 0) {
        const Wide cells = Wide{item.length + kerfX} * (item.width + kerfY);
        most = std::max(most, (-item.extra * area + cells - 1) / cells);
      }
    z.push_back(stock.offcuts.worth(length, width) + static_cast<Worth>(most));
  }
  return z;
}

void ComponentSearch::raise(Worth bound, BoundKind kind) {
  bound += (step_ - bound % step_) % step_;
  if (bound > bound_ || kind_ == BoundKind::none) kind_ = kind;
  bound_ = std::max(bound_, bound);
}

}  // namespace flitch::optimizer
