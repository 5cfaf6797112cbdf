#include "optimizer/solve.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>
#include <string>

#include "optimizer/baselines.h"
#include "optimizer/bound.h"
#include "optimizer/components.h"
#include "optimizer/draft.h"
#include "optimizer/improve.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

using Clock = Halt::Clock;

double secondsSince(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

/// A component on its way: a plan and a bound that hold at every moment.
class Part {
 public:
  Part(const Problem& problem, std::uint64_t seed)
      : problem_(problem), pricers_(problem), bounds_(problem), draft_(problem), random_(seed) {
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
    count(fill(fresh, problem_, all, shortage_, pricers_, halt));
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
    for (Opened& board : boards) fresh.add(std::move(board));
    fresh.tidy();
    openForced(fresh, problem_);
    if (fresh.cost() < draft_.cost()) draft_ = std::move(fresh);
  }

  /// Rounds on the bound until it is as good as it gets, with a fifth of the work for better plans
  /// on the way; then plans only.
  void improve(const Halt& halt) {
    const std::uint64_t before = spent_.effort;
    if (!bounds_.converged() && boundEffort_ <= 4 * planEffort_) {
      for (const Opened& board : draft_.boards()) bounds_.learn(board.stock, board.pattern);
      const BoundKind kind = bounds_.kind();
      const Worth bound = bounds_.round(pricers_, halt, spent_);
      raise(bound, halt.now() ? BoundKind::relaxed : kind);
      boundEffort_ += spent_.effort - before;
      return;
    }
    const std::size_t columns = bounds_.master().columns().size();
    const bool fresh = columns > chosenFrom_ + chosenFrom_ / 5;
    if (fresh) {
      chosenFrom_ = columns;
      rechoose(draft_, problem_, bounds_, bounds_.converged() ? 1000 : 50, halt, spent_);
    } else {
      replan(draft_, problem_, bounds_, pricers_, random_, halt, spent_);
    }
    planEffort_ += spent_.effort - before;
  }

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
  void count(const Filling& filling) {
    spent_.effort += filling.effort;
    spent_.priced += filling.priced;
  }

  /// `kind`: whether the patterns under this bound kept their caps.
  void raise(Worth bound, BoundKind kind) {
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
  Worth bound_ = 0;
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
    parts.emplace_back(components[c].problem, static_cast<std::uint64_t>(limits.seed) + c);

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
