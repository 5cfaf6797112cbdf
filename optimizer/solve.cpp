#include "optimizer/solve.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <string>

#include "optimizer/baselines.h"
#include "optimizer/bound.h"
#include "optimizer/closing.h"
#include "optimizer/components.h"
#include "optimizer/dive.h"
#include "optimizer/draft.h"
#include "optimizer/improve.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

using Clock = Halt::Clock;

constexpr std::size_t fewBoards = 100;
constexpr std::size_t nodesOfTree = 5000;
constexpr std::uint64_t boundAhead = 30000000;  ///< work for the bound before any for plans
constexpr std::uint64_t divePause = 3;          ///< between two dives, in work of one
constexpr std::size_t fewLabels = 15000, mostLabels = 2000000;  ///< of one board

double secondsSince(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

/// A component on its way: a plan and a bound that hold at every moment.
class Part {
 public:
  Part(const Problem& problem, std::uint64_t seed, const Crew& crew)
      : problem_(problem),
        pricers_(problem, crew),
        bounds_(problem),
        draft_(problem),
        random_(seed),
        step_(costStep(problem)) {
    openForced(draft_, problem_);
    for (const Need& need : problem_.needs) shortage_.push_back(need.shortage);
    bound_ = lagrangian(problem_, std::vector<Worth>(problem_.needs.size(), 0), worthForNothing());
  }

  /// The hand rule: poor, but there in a moment.
  void handPlan() {
    Draft fresh(problem_);
    for (StockCut& cut : handRule(problem_).cuts)
      for (int copy = 0; copy < cut.times; ++copy) fresh.add({cut.stock, cut.pattern});
    if (fresh.cost() < draft_.cost()) draft_ = std::move(fresh);
  }

  void carefulPlan(const Halt& halt) {
    Draft fresh(problem_);
    std::vector<int> all(problem_.stock.size());
    std::iota(all.begin(), all.end(), 0);
    spent_ += fill(fresh, problem_, all, shortage_, pricers_, halt);
    fresh.tidy();
    openForced(fresh, problem_);
    if (fresh.cost() < draft_.cost()) draft_ = std::move(fresh);
  }

  void firstBound(const Halt& halt) {
    raise(bounds_.start(pricers_, halt, spent_), BoundKind::relaxed);
  }

  /// Boards of a plan made elsewhere.
  void take(std::vector<Opened> boards) {
    Draft fresh(problem_);
    for (Opened& board : boards) {
      board.pattern = pricers_.kept(board.stock, board.pattern);
      fresh.add(std::move(board));
    }
    fresh.tidy();
    openForced(fresh, problem_);
    if (fresh.cost() < draft_.cost()) draft_ = std::move(fresh);
  }

  /// Rounds on the bound until it is as good as it gets; once it is some way ahead, with as much
  /// work for better plans; then plans only.
  void improve(const Halt& halt) {
    const std::uint64_t before = spent_.effort;
    if (!bounds_.converged() && boundEffort_ <= planEffort_ + boundAhead) {
      for (const Opened& board : draft_.boards()) bounds_.learn(board.stock, board.pattern);
      const BoundKind kind = bounds_.kind();
      const Worth bound = bounds_.round(pricers_, halt, spent_);
      raise(bound, halt.now() ? BoundKind::relaxed : kind);
      boundEffort_ += spent_.effort - before;
      return;
    }
    if (bounds_.converged() && closeGap(halt)) return;
    if (planEffort_ >= nextDive_) {
      std::optional<Draft> found = dive(problem_, bounds_, pricers_, random_, halt, spent_);
      if (found && found->cost() < draft_.cost()) draft_ = std::move(*found);
      planEffort_ += spent_.effort - before;
      nextDive_ = planEffort_ + divePause * (spent_.effort - before);
      return;
    }
    if (bounds_.converged() && turn_++ % 8 == 0)
      enrich(problem_, bounds_, pricers_, turn_ == 1 ? 0 : 6, random_, halt, spent_);
    const std::size_t columns = bounds_.master().columns().size();
    const bool fresh = columns > chosenFrom_ + chosenFrom_ / 5;
    if (fresh) {
      chosenFrom_ = columns;
      rechoose(draft_, problem_, bounds_, bounds_.converged() ? 2000 : 200, halt, spent_);
    } else {
      replan(draft_, problem_, bounds_, pricers_, random_, halt, spent_);
    }
    planEffort_ += spent_.effort - before;
  }

  [[nodiscard]] std::size_t boards() const { return problem_.stock.size(); }
  [[nodiscard]] bool closed() const { return cost() == bound_; }
  [[nodiscard]] Worth cost() const { return draft_.cost(); }
  [[nodiscard]] Worth bound() const { return bound_; }
  [[nodiscard]] std::int64_t missing(int need) const { return draft_.missing(need); }
  [[nodiscard]] BoundKind kind() const { return kind_; }
  [[nodiscard]] std::uint64_t effort() const { return spent_.effort; }
  [[nodiscard]] Solution solution() const {
    Solution made = draft_.solution();
    made.bound = bound_;
    made.boundKind = kind_;
    made.statistics.effort = spent_.effort;
    made.statistics.priced = spent_.priced;
    made.statistics.nodes = spent_.nodes;
    return made;
  }

 private:
  /// Lists all ways of cutting that can be part of a cheaper plan and chooses among them, when the
  /// gap leaves few enough. A try that finds too many is made again with more room, but takes no
  /// more than a third of all work. False: not tried this time.
  bool closeGap(const Halt& halt) {
    const Worth open = cost() - bound_;
    if (open > triedOpen_ / 10 * 8 && spent_.effort < nextTry_) return false;
    if (open > triedOpen_ / 10 * 8) labels_ = std::min(mostLabels, labels_ * 3);
    triedOpen_ = open;
    const std::uint64_t before = spent_.effort;
    const Worth from = cost();
    const std::optional<std::vector<Column>> ways = listWays(halt);
    nextTry_ = spent_.effort + 2 * (spent_.effort - before);
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

  /// A way worth no more than a board costs, or is worth, less the gap costs so much more than the
  /// multipliers allow that no plan with it is cheaper. Nothing: they are too many.
  std::optional<std::vector<Column>> listWays(const Halt& halt) {
    const Worth open = cost() - bounds_.bound();
    const std::vector<std::int64_t> wanted = flitch::optimizer::wanted(problem_);
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
        listings[s] = pricers_.lister(static_cast<int>(s))
                          .list({.unit = bounds_.best(),
                                 .wanted = wanted,
                                 .floor = floor(s),
                                 .labels = labels_,
                                 .halt = &halt});
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

  /// What every board can be worth at most where parts are worth nothing: as one offcut, and full
  /// of the items that pay by themselves.
  [[nodiscard]] std::vector<Worth> worthForNothing() const {
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

  /// `kind`: whether the patterns under this bound kept their caps.
  void raise(Worth bound, BoundKind kind) {
    bound += (step_ - bound % step_) % step_;
    if (bound > bound_ || kind_ == BoundKind::none) kind_ = kind;
    bound_ = std::max(bound_, bound);
  }

  const Problem& problem_;
  Pricers pricers_;
  Multipliers bounds_;
  std::uint64_t boundEffort_ = 0, planEffort_ = 0;
  std::size_t chosenFrom_ = 0;  ///< columns there were when a whole plan was last chosen
  Draft draft_;
  std::mt19937_64 random_;
  std::vector<Worth> shortage_;
  const Worth step_;  ///< costs of plans are multiples of this
  Worth bound_ = 0;
  Worth triedOpen_ = std::numeric_limits<Worth>::max();
  std::uint64_t nextTry_ = 0, turn_ = 0;
  std::uint64_t nextDive_ = 0;  ///< of the work for plans
  std::size_t labels_ = fewLabels;
  BoundKind kind_ = BoundKind::none;
  Filling spent_;
};

/// The boards of a known plan that belong to a component, in its own numbers.
std::vector<Opened> boardsOf(const Solution& known, const Component& part) {
  const auto numberIn = [](const std::vector<int>& list, int global) {
    const auto found = std::lower_bound(list.begin(), list.end(), global);
    return found != list.end() && *found == global ? static_cast<int>(found - list.begin()) : -1;
  };
  std::vector<Opened> boards;
  for (const StockCut& cut : known.cuts) {
    const int stock = numberIn(part.stock, cut.stock);
    if (stock < 0) continue;
    Pattern pattern = cut.pattern;
    for (Cell& cell : pattern.cells)
      if (cell.item >= 0) cell.item = numberIn(part.items, cell.item);
    for (int copy = 0; copy < cut.times; ++copy) boards.push_back({stock, pattern});
  }
  return boards;
}

void requireSound(const Solution& known, const Problem& problem) {
  std::vector<std::int64_t> used(problem.stock.size(), 0);
  for (std::size_t c = 0; c < known.cuts.size(); ++c) {
    const StockCut& cut = known.cuts[c];
    const std::string field = "known.cuts[" + std::to_string(c) + "]";
    const auto stock = static_cast<std::size_t>(cut.stock);
    if (cut.stock < 0 || stock >= problem.stock.size())
      throw std::invalid_argument(field + ".stock: is no index of a stock");
    used[stock] += cut.times;
    if (used[stock] > problem.stock[stock].copies)
      throw std::invalid_argument(field + ".times: is more than there are copies");
    const std::vector<std::string> broken = faults(cut.pattern, problem, problem.stock[stock]);
    if (!broken.empty()) throw std::invalid_argument(field + ".pattern: " + broken.front());
  }
}

}  // namespace

Solution solve(const Problem& problem, const Limits& limits, std::stop_token stop,
               const ProgressSink& progress, const Solution* known) {
  validate(problem);
  if (known != nullptr) requireSound(*known, problem);
  const Clock::time_point start = Clock::now();
  Halt halt{stop, start + std::chrono::duration_cast<Clock::duration>(
                              std::chrono::duration<double>(std::clamp(limits.seconds, 0.0, 1e6)))};
  const std::vector<Component> components = split(problem);
  std::vector<Part> parts;
  parts.reserve(components.size());
  for (std::size_t c = 0; c < components.size(); ++c)
    parts.emplace_back(components[c].problem, static_cast<std::uint64_t>(limits.seed) + c,
                       Crew(limits.threads));

  int plans = 0;
  double firstPlan = 0;
  Progress told;
  const auto report = [&](bool better) {
    Progress now{secondsSince(start), plans, 0, 0, BoundKind::exact};
    for (std::size_t c = 0; c < parts.size(); ++c) {
      const Part& part = parts[c];
      now.cost += part.cost();
      now.bound += part.bound();
      now.boundKind = std::min(now.boundKind, part.kind());
      const std::vector<int>& needs = components[c].needs;
      for (std::size_t n = 0; n < needs.size(); ++n)
        if (const std::int64_t missing = part.missing(static_cast<int>(n)); missing > 0)
          now.shortages.push_back({needs[n], missing});
    }
    std::sort(now.shortages.begin(), now.shortages.end(),
              [](const Shortage& a, const Shortage& b) { return a.need < b.need; });
    if (better) now.plan = ++plans;
    told = now;
    if (progress) progress(now);
  };
  const auto effort = [&] {
    return std::accumulate(parts.begin(), parts.end(), std::uint64_t{0},
                           [](std::uint64_t sum, const Part& part) { return sum + part.effort(); });
  };
  const auto goodEnough = [&] {
    const Worth open = told.cost - told.bound;
    return open <= limits.goodEnough ||
           (told.cost > 0 && open <= told.cost / 1000 * limits.goodEnoughPermille);
  };

  for (Part& part : parts) part.handPlan();
  if (known != nullptr)
    for (std::size_t c = 0; c < components.size(); ++c)
      parts[c].take(boardsOf(*known, components[c]));
  firstPlan = secondsSince(start);
  report(true);
  for (Part& part : parts) {
    if (known != nullptr) break;
    const Worth before = part.cost();
    if (part.boards() > fewBoards) continue;  // the bound's columns give a plan sooner
    part.carefulPlan(halt);
    if (part.cost() < before) report(true);
  }
  for (Part& part : parts) part.firstBound(halt);
  report(false);

  Ending ending = Ending::closed;
  for (std::size_t turn = 0;; ++turn) {
    const bool closed =
        std::all_of(parts.begin(), parts.end(), [](const Part& part) { return part.closed(); });
    if (closed) break;
    ending = Ending::goodEnough;
    if (goodEnough()) break;
    ending = Ending::stopped;
    if (stop.stop_requested()) break;
    ending = Ending::effortSpent;
    if (limits.effort > 0 && effort() >= limits.effort) break;
    ending = Ending::timeUp;
    if (halt.now()) break;
    Part& part = parts[turn % parts.size()];
    if (part.closed()) continue;
    const Worth cost = part.cost(), bound = part.bound();
    part.improve(halt);
    if (part.cost() < cost || part.bound() > bound) report(part.cost() < cost);
    ending = Ending::closed;
  }

  std::vector<Solution> solutions;
  for (const Part& part : parts) solutions.push_back(part.solution());
  Solution all = join(components, solutions);
  all.ending = ending;
  all.statistics.seconds = secondsSince(start);
  all.statistics.firstPlanSeconds = firstPlan;
  return all;
}

}  // namespace flitch::optimizer
