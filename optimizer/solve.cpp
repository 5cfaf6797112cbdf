#include "optimizer/solve.h"

#include <algorithm>
#include <stdexcept>
#include <string>
#include <thread>

#include "optimizer/components.h"
#include "optimizer/condense.h"
#include "optimizer/searches.h"

namespace flitch::optimizer {
namespace {

using Clock = Halt::Clock;

constexpr std::size_t fewBoards = 100;

double secondsSince(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

int processors() {
  constexpr unsigned most = 8;
  return static_cast<int>(std::clamp(std::thread::hardware_concurrency(), 1U, most));
}

/// The boards of a known plan that belong to a component, in its own numbers.
std::vector<Opened> boardsOf(const Solution& known, const Condensed& condensed,
                             const Component& part) {
  const auto numberIn = [](const std::vector<int>& list, int global) {
    const auto found = std::lower_bound(list.begin(), list.end(), global);
    return found != list.end() && *found == global ? static_cast<int>(found - list.begin()) : -1;
  };
  std::vector<Opened> boards;
  for (const StockCut& cut : known.cuts) {
    const int stock = numberIn(part.stock, condensed.stockOf[static_cast<std::size_t>(cut.stock)]);
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
  const Condensed condensed = condense(problem);
  const std::vector<Component> components = split(condensed.problem);
  Limits shared = limits;
  if (shared.threads <= 0) shared.threads = processors();
  Searches searches(components, shared);

  int plans = 0;
  Progress told;
  /// Tells what is better than at the last call.
  const auto report = [&] {
    Progress now = searches.progress();
    const bool better = plans == 0 || now.cost < told.cost;
    if (!better && now.bound <= told.bound && now.boundKind == told.boundKind) return;
    now.seconds = secondsSince(start);
    plans += better ? 1 : 0;
    now.plan = plans;
    for (Shortage& shortage : now.shortages)
      shortage.amount *= condensed.units[static_cast<std::size_t>(shortage.need)];
    told = now;
    if (progress) progress(now);
  };
  const auto goodEnough = [&] {
    const Worth open = told.cost - told.bound;
    return open <= limits.goodEnough ||
           (told.cost > 0 && open <= told.cost / 1000 * limits.goodEnoughPermille);
  };

  searches.each([&](ComponentSearch& search, std::size_t c) {
    search.handPlan();
    if (known != nullptr) search.take(boardsOf(*known, condensed, components[c]));
  });
  const double firstPlan = secondsSince(start);
  report();
  if (known == nullptr) {
    searches.each([&](ComponentSearch& search, std::size_t) {
      // Of many boards the bound's columns give a plan sooner.
      if (search.boards() <= fewBoards) search.carefulPlan(halt);
    });
    report();
  }
  searches.each([&](ComponentSearch& search, std::size_t) { search.firstBound(halt); });

  Ending ending = Ending::timeUp;
  searches.improve(halt, [&] {
    report();
    return !goodEnough();
  });
  report();
  if (searches.closed())
    ending = Ending::closed;
  else if (goodEnough())
    ending = Ending::goodEnough;
  else if (stop.stop_requested())
    ending = Ending::stopped;
  else if (limits.effort > 0 && searches.effort() >= limits.effort)
    ending = Ending::effortSpent;
  Solution all = expand(searches.solution(), condensed, problem);
  all.ending = ending;
  all.statistics.seconds = secondsSince(start);
  all.statistics.firstPlanSeconds = firstPlan;
  return all;
}

}  // namespace flitch::optimizer
