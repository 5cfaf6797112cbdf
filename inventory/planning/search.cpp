#include "inventory/planning/search.h"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <thread>

#include "inventory/planning/shortage_reasons.h"
#include "inventory/planning/useful.h"
#include "inventory/records/account.h"
#include "optimizer/baselines.h"

namespace flitch::planning {

namespace {

using optimizer::Solution;
using optimizer::Worth;
using Clock = std::chrono::steady_clock;

/// A stop token that is also requested once a time has passed.
class Deadline {
 public:
  Deadline(double seconds, const std::stop_token& stop)
      : passOn_(stop, [this] { source_.request_stop(); }),
        clock_([this, seconds](const std::stop_token& done) {
          std::mutex mutex;
          std::unique_lock lock(mutex);
          std::condition_variable_any waiting;
          waiting.wait_for(lock, done, std::chrono::duration<double>(seconds),
                           [] { return false; });
          if (!done.stop_requested()) source_.request_stop();
        }) {}
  [[nodiscard]] std::stop_token token() const { return source_.get_token(); }

 private:
  std::stop_source source_;
  std::stop_callback<std::function<void()>> passOn_;
  std::jthread clock_;
};

class Search {
 public:
  Search(Framing& framing, const PlanRequest& request, const optimizer::Limits& limits,
         std::stop_token stop, const optimizer::ProgressSink& progress)
      : framing_(framing),
        problem_(framing.problem),
        request_(request),
        limits_(limits),
        stop_(std::move(stop)),
        progress_(progress) {}

  Found run() {
    raisePrices();
    Found found;
    found.handRule = optimizer::handRule(problem_);
    tell(found.handRule, 0, optimizer::BoundKind::none);
    found.carefulHand = carefulHand(found.handRule);
    tell(found.carefulHand, 0, optimizer::BoundKind::none);
    if (stop_.stop_requested()) {
      found.solution =
          found.carefulHand.cost < found.handRule.cost ? found.carefulHand : found.handRule;
      found.solution.ending = optimizer::Ending::stopped;
      found.solution.statistics.seconds = limits_.seconds - secondsLeft();
      return found;
    }
    Solution best = solveOnce(found.carefulHand);
    takeIfCheaper(best, found.handRule);
    takeIfCheaper(best, found.carefulHand);
    takeIfCheaper(best, toppedUp(best));
    best.statistics.seconds = limits_.seconds - secondsLeft();
    found.solution = std::move(best);
    return found;
  }

 private:
  [[nodiscard]] double secondsLeft() const {
    return limits_.seconds - std::chrono::duration<double>(Clock::now() - start_).count();
  }

  /// Cut off by the clock, what it has is finished by the hand rule; stopped before it began, it is
  /// the hand rule's plan.
  Solution carefulHand(const Solution& hand) {
    if (stop_.stop_requested()) return hand;
    const Deadline deadline(limits_.seconds / 4, stop_);
    Solution careful = optimizer::carefulHand(problem_, deadline.token());
    carefulToTheEnd_ = careful.ending != optimizer::Ending::stopped;
    careful = toppedUp(careful);
    careful.cost = optimizer::costOf(careful, problem_);
    return careful;
  }

  /// Puts another's cuts into `solution`, whose bound holds whatever is cut.
  void takeIfCheaper(Solution& solution, const Solution& other) const {
    const Worth cost = optimizer::costOf(other, problem_);
    if (cost >= solution.cost) return;
    solution.cuts = other.cuts;
    solution.recipes = other.recipes;
    solution.shortages = other.shortages;
    solution.cost = cost;
  }

  /// What is short cut by the hand rule from the boards that are left; once stopped, not at all.
  [[nodiscard]] Solution toppedUp(const Solution& solution) const {
    if (solution.shortages.empty() || stop_.stop_requested()) return solution;
    optimizer::Problem rest = problem_;
    for (const optimizer::StockCut& c : solution.cuts) {
      rest.stock[static_cast<std::size_t>(c.stock)].copies -= c.times;
      rest.stock[static_cast<std::size_t>(c.stock)].least = 0;
    }
    for (optimizer::Need& need : rest.needs) need.amount = 0;
    for (const optimizer::Shortage& s : solution.shortages) {
      rest.needs[static_cast<std::size_t>(s.need)].amount = s.amount;
    }
    Solution more = optimizer::handRule(rest);
    more.cuts.insert(more.cuts.begin(), solution.cuts.begin(), solution.cuts.end());
    more.recipes.insert(more.recipes.begin(), solution.recipes.begin(), solution.recipes.end());
    return more;
  }

  /// The smaller of the shop's sum and share; the solver's own limits stop at the larger.
  [[nodiscard]] bool goodEnough(Worth cost, Worth bound) const {
    const Worth open = cost - bound;
    return open <= request_.shop.stopWhenBelow.raw() &&
           open <= cost / 1000 * request_.shop.stopPermille;
  }

  /// What was found first stands until something better is.
  void tell(const Solution& found, Worth bound, optimizer::BoundKind kind) {
    if (!progress_) return;
    if (told_.plan == 0 || found.cost < told_.cost) {
      ++told_.plan;
      told_.cost = found.cost;
      told_.shortages = found.shortages;
    }
    told_.seconds = std::chrono::duration<double>(Clock::now() - start_).count();
    told_.bound = bound;
    told_.boundKind = kind;
    progress_(told_);
  }

  Solution solveOnce(const Solution& careful) {
    optimizer::Limits limits = limits_;
    limits.seconds = std::max(0.0, secondsLeft());
    limits.goodEnough = 0;
    limits.goodEnoughPermille = 0;
    std::stop_source enough;
    const std::stop_callback passOn(stop_, [&enough] { enough.request_stop(); });
    bool satisfied = false;
    const auto hear = [&](const optimizer::Progress& p) {
      Solution now;
      now.cost = p.cost;
      now.shortages = p.shortages;
      tell(now, p.bound, p.boundKind);
      if (p.boundKind == optimizer::BoundKind::none) return;
      const Worth raised = raisedBy(p.shortages, framing_).raw();
      if (!goodEnough(p.cost - raised, p.bound - raised)) return;
      satisfied = true;
      enough.request_stop();
    };
    Solution solution = optimizer::solve(problem_, limits, enough.get_token(), hear,
                                         carefulToTheEnd_ ? &careful : nullptr);
    if (satisfied && !stop_.stop_requested()) solution.ending = optimizer::Ending::goodEnough;
    return solution;
  }

  /// Makes a copy that some board could give blanks for dearer to leave short than to cut.
  void raisePrices() {
    for (const Want& want : framing_.wants) {
      Worth& price = needOf(want.need).shortage;
      for (const Making& making : want.makings) {
        if (stop_.stop_requested()) return;
        if (!suppliable(making.need)) continue;
        price = std::max(price, dearestMaking(making));
      }
      for (const Making& making : want.makings) {
        if (making.need != want.need) needOf(making.need).shortage = price;
      }
    }
    for (const GroupWant& group : framing_.groups) raisePrice(group);
  }

  /// The same of a group: all copies of its dearest way.
  void raisePrice(const GroupWant& group) {
    Worth& price = needOf(group.need).shortage;
    for (const std::vector<std::size_t>& way : group.ways) {
      Worth whole = 0;
      bool supplied = true;
      for (const std::size_t w : way) {
        const Want& want = framing_.wants[w];
        const Making& making = want.makings.front();
        if (stop_.stop_requested()) return;
        supplied = supplied && suppliable(making.need);
        whole += dearestMaking(making) * static_cast<Worth>(want.copies.size());
      }
      if (supplied) price = std::max(price, whole);
    }
    for (const std::vector<std::size_t>& way : group.ways) {
      for (const std::size_t w : way) {
        needOf(framing_.wants[w].makings.front().need).shortage = price;
      }
    }
  }

  [[nodiscard]] optimizer::Need& needOf(int need) {
    return problem_.needs[static_cast<std::size_t>(need)];
  }
  [[nodiscard]] bool suppliable(int need) const {
    const std::vector<std::size_t> items = itemsOf(problem_, need);
    return std::any_of(items.begin(), items.end(),
                       [&](std::size_t item) { return hasPlace(problem_, item); });
  }
  /// A copy, each of its blanks out of the dearest stock, with what blanks and recipe cost beside.
  [[nodiscard]] Worth dearestMaking(const Making& making) const {
    Worth extra = 0, recipe = 0;
    for (const std::size_t item : itemsOf(problem_, making.need)) {
      extra = std::max(extra, problem_.items[item].extra);
    }
    for (const optimizer::Recipe& r : problem_.recipes) {
      for (const optimizer::Supply& use : r.uses) {
        if (use.need == making.need) recipe = r.cost;
      }
    }
    return (dearestOpening(making.need) + extra) * mostPieces(making) + recipe;
  }

  /// Blanks to a copy, at most.
  [[nodiscard]] std::int64_t mostPieces(const Making& making) const {
    std::int64_t most = 1;
    for (const std::size_t item : itemsOf(problem_, making.need)) {
      const std::int64_t supplies = problem_.items[item].supplies;
      most = std::max(most, (making.units + supplies - 1) / supplies);
    }
    return most;
  }

  /// Opening the dearest stock that an item of the need fits, and cutting one out of it.
  [[nodiscard]] Worth dearestOpening(int need) const {
    Worth dearest = 0;
    for (const std::size_t item : itemsOf(problem_, need)) {
      for (const optimizer::Stock& stock : problem_.stock) {
        if (stock.itemClass[item] != optimizer::noClass) dearest = std::max(dearest, stock.cost);
      }
    }
    return dearest + 2 * std::max(problem_.saw.crosscut, problem_.saw.rip) + problem_.saw.crosscut +
           1;
  }

  Framing& framing_;
  optimizer::Problem& problem_;
  const PlanRequest& request_;
  const optimizer::Limits& limits_;
  std::stop_token stop_;
  const optimizer::ProgressSink& progress_;
  Clock::time_point start_ = Clock::now();
  optimizer::Progress told_;
  bool carefulToTheEnd_ = false;  ///< else the solver does better to ask again
};

}  // namespace

Found search(Framing& framing, const PlanRequest& request, const optimizer::Limits& limits,
             std::stop_token stop, const optimizer::ProgressSink& progress) {
  return Search(framing, request, limits, std::move(stop), progress).run();
}

}  // namespace flitch::planning
