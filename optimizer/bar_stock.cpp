#include "optimizer/bar_stock.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <numeric>
#include <random>
#include <stdexcept>
#include <string>

#include "optimizer/bar_kinds.h"
#include "optimizer/bar_master.h"
#include "optimizer/bar_prices.h"
#include "optimizer/bar_ways.h"
#include "optimizer/wide.h"

namespace flitch::optimizer {
namespace {

constexpr Worth unknown = std::numeric_limits<Worth>::max();

/// A pattern and how often it is cut.
struct Cut {
  BarPattern pattern;
  std::int64_t times = 0;
};

/// Part of a plan: what is cut and what is wanted still.
struct Begun {
  std::vector<std::int64_t> wanted;
  std::vector<Cut> cuts;
  Worth cost = 0;

  void cut(const BarPattern& pattern, std::int64_t times, Worth each) {
    for (const auto& [kind, count] : pattern.pieces)
      wanted[static_cast<std::size_t>(kind)] -= times * count;
    cuts.push_back({pattern, times});
    cost += times * each;
  }
};

class BarSearch {
 public:
  BarSearch(const BarKinds& kinds, const BarLimits& limits, std::stop_token stop)
      : kinds_(kinds),
        limits_(limits),
        stop_(std::move(stop)),
        prices_(kinds),
        master_(kinds.size.size(), kinds.cost),
        random_(limits.seed) {
    for (const Worth cost : kinds.cost) step_ = std::gcd(step_, cost);
    bound_ = kinds_.continuousBound(kinds_.wanted, step_);
    for (std::size_t k = 0; k < kinds.size.size(); ++k)
      master_.add({kinds.cheapestBar(kinds.size[k]), {{static_cast<int>(k), 1}}});
  }

  void run() {
    constexpr int packings = 3;
    pack({kinds_.wanted, {}, 0}, packings);
    if (!over()) tryEveryWay();
    for (bool greedy = true; !over(); greedy = false) dive(greedy);
  }
  [[nodiscard]] const std::vector<Cut>& best() const { return best_; }
  [[nodiscard]] Worth cost() const { return cost_; }
  [[nodiscard]] Worth bound() const { return bound_; }
  [[nodiscard]] std::uint64_t effort() const { return prices_.work() + master_.work() + ways_; }

 private:
  /// Proved, spent or stopped; one plan is always made.
  [[nodiscard]] bool over() const {
    if (cost_ == unknown) return false;
    return cost_ <= bound_ || effort() > limits_.effort || stop_.stop_requested();
  }
  [[nodiscard]] std::int64_t sizeOf(std::span<const std::int64_t> wanted) const {
    return std::inner_product(wanted.begin(), wanted.end(), kinds_.size.begin(), std::int64_t{0});
  }
  void offer(const Begun& whole) {
    if (whole.cost >= cost_) return;
    cost_ = whole.cost;
    best_ = whole.cuts;
  }

  /// Settles what is small.
  void tryEveryWay() {
    constexpr std::uint64_t most = 200'000, stepCosts = 10;
    const BarWays ways = everyWay(kinds_, cost_, most);
    ways_ += stepCosts * ways.steps;
    if (!ways.finished) return;
    if (ways.cheaper) {
      Begun whole{kinds_.wanted, {}, 0};
      for (const BarPattern& pattern : *ways.cheaper)
        whole.cut(pattern, 1, kinds_.cost[static_cast<std::size_t>(pattern.bar)]);
      offer(whole);
    }
    bound_ = cost_;
  }

  /// The best pattern for what is wanted still: the cheapest bar that takes all of it, or the
  /// pattern worth most for its cost.
  [[nodiscard]] BarPattern bestPattern(const Begun& begun, std::span<const Worth> worth) {
    const std::int64_t left = sizeOf(begun.wanted);
    if (left <= kinds_.longest()) {
      BarPattern all{kinds_.cheapestBar(left), {}};
      for (std::size_t k = 0; k < begun.wanted.size(); ++k)
        if (begun.wanted[k] > 0) all.pieces.emplace_back(static_cast<int>(k), begun.wanted[k]);
      return all;
    }
    return prices_.price(worth, begun.wanted).dearest(kinds_.cost).pattern;
  }

  /// Packs what is wanted bar by bar, `rounds` times: values of pieces that end up in bars with
  /// waste rise for the next round.
  void pack(const Begun& begun, int rounds) {
    constexpr double curve = 1.02;  // long pieces first where nothing is known yet
    std::vector<double> value(kinds_.size.size());
    for (std::size_t k = 0; k < value.size(); ++k)
      value[k] = std::pow(static_cast<double>(kinds_.size[k]), curve);
    for (int round = 0; round < rounds && !over(); ++round) {
      const std::vector<Worth> worth = scaled(value);
      const double share = 0.3 + 0.4 * drawn(), power = 1 + 0.05 * drawn();
      Begun packed = begun;
      while (sizeOf(packed.wanted) > 0) {
        const BarPattern pattern = bestPattern(packed, worth);
        const auto bar = static_cast<std::size_t>(pattern.bar);
        packed.cut(pattern, timesWithin(pattern, packed.wanted), kinds_.cost[bar]);
        master_.add(pattern);
        const double room = static_cast<double>(kinds_.room[bar]) / usedBy(pattern);
        for (const auto& [kind, count] : pattern.pieces) {
          const auto k = static_cast<std::size_t>(kind);
          const double now = std::pow(static_cast<double>(kinds_.size[k]) * room, power);
          value[k] = (1 - share) * value[k] + share * now;
        }
      }
      offer(packed);
    }
  }
  [[nodiscard]] double usedBy(const BarPattern& pattern) const {
    std::int64_t used = 0;
    for (const auto& [kind, count] : pattern.pieces)
      used += count * kinds_.size[static_cast<std::size_t>(kind)];
    return static_cast<double>(used);
  }
  [[nodiscard]] double drawn() { return static_cast<double>(random_() >> 11U) * 0x1.0p-53; }
  /// As whole numbers up to 2^40.
  [[nodiscard]] static std::vector<Worth> scaled(const std::vector<double>& value) {
    const double most = *std::max_element(value.begin(), value.end());
    std::vector<Worth> worth;
    for (const double v : value)
      worth.push_back(std::max<Worth>(1, static_cast<Worth>(v / most * 0x1.0p40)));
    return worth;
  }

  /// Column generation for what is wanted still. Returns a bound of it, on a cost step: no way of
  /// meeting it costs less. Ends early when no better plan can come of it.
  Worth generate(const Begun& begun) {
    master_.want(begun.wanted);
    Worth bound = 0;
    while (master_.solve()) {
      const BarPrices::Priced priced = prices_.price(prices_.whole(master_.worths()), begun.wanted);
      bound = std::max(bound, priced.bound(kinds_.cost, step_));
      if (cost_ != unknown && begun.cost + bound >= cost_) break;
      const double steps = std::ceil(master_.value() / static_cast<double>(step_) - 1e-7);
      if (static_cast<Worth>(steps) * step_ <= bound) break;
      bool more = false;
      for (const BarPrices::Best& best : priced.best)
        if (prices_.pays(best, kinds_.cost)) more = master_.add(best.pattern) || more;
      if (!more || over()) break;
    }
    return bound;
  }

  /// Opens bars as the linear programme shares them, whole ones first, and generates anew for what
  /// is left, until all is cut or no better plan can come of it.
  void dive(bool greedy) {
    Begun begun{kinds_.wanted, {}, 0};
    while (sizeOf(begun.wanted) > 0) {
      const Worth bound = generate(begun);
      if (begun.cuts.empty()) bound_ = std::max(bound_, bound);
      if (over() || begun.cost + bound >= cost_ || !open(begun, greedy)) return;
      constexpr std::int64_t few = 12;  // bars that packing alone may save one of
      constexpr int packings = 5;
      if (sizeOf(begun.wanted) < few * kinds_.longest()) pack(begun, packings);
      if (over()) return;
    }
    offer(begun);
  }

  /// Whole bars; else the one with the largest share left, or one near it by chance, and those that
  /// are all but whole. False when there is none.
  bool open(Begun& begun, bool greedy) {
    constexpr double none = 1e-6, nearlyWhole = 0.8;
    const std::vector<double> shares(master_.shares().begin(), master_.shares().end());
    std::vector<std::pair<double, std::size_t>> parts;
    bool opened = false;
    for (std::size_t p = 0; p < shares.size(); ++p) {
      const double whole = std::floor(shares[p] + none);
      if (shares[p] - whole > none) parts.emplace_back(shares[p] - whole, p);
      opened = cutUpTo(begun, p, static_cast<std::int64_t>(whole)) || opened;
    }
    if (opened || parts.empty()) return opened;
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::size_t chosen = 0;
    constexpr std::size_t furthest = 4;
    while (!greedy && chosen < furthest && chosen + 1 < parts.size() && random_() % 4 == 0) {
      ++chosen;
    }
    opened = cutUpTo(begun, parts[chosen].second, 1);
    for (const auto& [share, p] : parts) {
      if (share < nearlyWhole) break;
      opened = cutUpTo(begun, p, 1) || opened;
    }
    return opened;
  }
  bool cutUpTo(Begun& begun, std::size_t p, std::int64_t times) {
    const BarPattern& pattern = master_.patterns()[p];
    times = std::min(times, timesWithin(pattern, begun.wanted));
    if (times <= 0) return false;
    begun.cut(pattern, times, kinds_.cost[static_cast<std::size_t>(pattern.bar)]);
    return true;
  }

  const BarKinds& kinds_;
  BarLimits limits_;
  std::stop_token stop_;
  BarPrices prices_;
  BarMaster master_;
  std::mt19937_64 random_;
  Worth step_ = 0;  ///< every cost is a multiple of it
  Worth bound_ = 0, cost_ = unknown;
  std::vector<Cut> best_;
  std::uint64_t ways_ = 0;  ///< work of trying every way
};

/// Shares pieces of a kind among the needs of that length, bar by bar.
class Sharing {
 public:
  Sharing(const BarProblem& problem, const BarKinds& kinds) : kinds_(kinds) {
    for (const BarNeed& need : problem.needs) left_.push_back(need.amount);
  }
  std::vector<std::int64_t> pieces(const BarPattern& pattern) {
    std::vector<std::int64_t> pieces(left_.size(), 0);
    for (const auto& [kind, count] : pattern.pieces) {
      std::int64_t rest = count;
      for (const std::size_t need : kinds_.needs[static_cast<std::size_t>(kind)]) {
        const std::int64_t some = std::min(rest, left_[need]);
        pieces[need] += some;
        left_[need] -= some;
        rest -= some;
      }
    }
    return pieces;
  }

 private:
  const BarKinds& kinds_;
  std::vector<std::int64_t> left_;
};

}  // namespace

BarSolution cutBars(const BarProblem& problem, const BarLimits& limits, std::stop_token stop) {
  const BarKinds kinds(problem);
  if (kinds.size.empty()) return {};
  BarSearch search(kinds, limits, std::move(stop));
  search.run();
  BarSolution solution;
  solution.cost = search.cost();
  solution.bound = search.bound();
  solution.effort = search.effort();
  std::map<BarPattern, std::int64_t> bars;
  for (const Cut& cut : search.best()) bars[cut.pattern] += cut.times;
  Sharing sharing(problem, kinds);
  for (const auto& [pattern, times] : bars)
    for (std::int64_t bar = 0; bar < times; ++bar) {
      std::vector<std::int64_t> pieces = sharing.pieces(pattern);
      const bool again = !solution.cuttings.empty() &&
                         solution.cuttings.back().bar == pattern.bar &&
                         solution.cuttings.back().pieces == pieces;
      if (!again) solution.cuttings.push_back({pattern.bar, 0, std::move(pieces)});
      ++solution.cuttings.back().times;
    }
  return solution;
}

}  // namespace flitch::optimizer
