#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "optimizer/baselines.h"
#include "optimizer/bound.h"
#include "optimizer/solve.h"
#include "tests/optimizer/plan_faults.h"
#include "tests/optimizer/random_boards.h"
#include "tests/optimizer/slow_programme.h"

using namespace flitch::optimizer;

namespace {

/// Makes a shop extreme in one way.
void exaggerate(Draw& draw, Problem& problem) {
  switch (draw(0, 11)) {
    case 0:  // offcuts worth nothing
      for (Stock& stock : problem.stock) stock.offcuts.bands.clear();
      break;
    case 1:  // a missing part costs more than all the wood there is
      for (Need& need : problem.needs) need.shortage = Worth{1} << draw(30, 50);
      break;
    case 2:  // or next to nothing
      for (Need& need : problem.needs) need.shortage = draw(0, 2);
      break;
    case 3:  // one for nothing beside one beyond price
      problem.needs.front().shortage = 0;
      problem.needs.back().shortage = Worth{1} << 50;
      break;
    case 4: problem.stock.clear(); break;
    case 5: problem.stock.resize(1); break;
    case 6:  // boards for nothing, or dearer than everything
      for (Stock& stock : problem.stock) stock.cost = draw.oneIn(2) ? 0 : Worth{1} << draw(20, 40);
      break;
    case 7:  // offcuts worth more than their board
      for (Stock& stock : problem.stock) {
        const int doublings = draw(0, 10);
        for (KeepRule::Band& band : stock.offcuts.bands) band.rate <<= doublings;
      }
      break;
    case 8:  // every board must be opened
      for (Stock& stock : problem.stock) stock.least = stock.copies;
      break;
    case 9:  // nothing fits the first board
      for (int& cls : problem.stock.front().itemClass) cls = noClass;
      break;
    case 10:  // a cut costs more than a part
      problem.saw.crosscut = problem.saw.rip = draw(50, 5000);
      break;
    default: break;
  }
}

/// A tiny shop with something out of the ordinary, or two such things.
Problem oddShop(Draw& draw) {
  Problem problem = randomShop(draw, {{7, 4, 2}, 3, 3});
  dropGifts(problem);
  exaggerate(draw, problem);
  if (draw.oneIn(3) && !problem.stock.empty()) exaggerate(draw, problem);
  return problem;
}

/// Ways of cutting a search short.
struct Attack {
  Limits limits{.seconds = 20};
  int reports = -1;  ///< until a stop is asked for; -1: never
  int wait = -1;     ///< microseconds until another thread asks for one; -1: never

  explicit Attack(Draw& draw) {
    limits.threads = draw(1, 2);
    limits.seed = draw(1, 1000);
    limits.effort = static_cast<std::uint64_t>(draw(1, 20000));
    switch (draw(0, 7)) {
      case 0: limits.effort = 1; break;
      case 1: limits.seconds = draw(0, 4) / 2000.0; break;
      case 2: limits.goodEnough = draw(0, 500); break;
      case 3: limits.goodEnoughPermille = draw(0, 300); break;
      case 4: wait = draw(0, 2000); break;
      default: break;
    }
    if (draw.oneIn(3)) reports = draw(1, 6);
  }
};

/// Whether the bound is at most `optimum` and the cost at least, at every report and at the end.
/// The solution goes to `out`.
bool ordered(const Problem& problem, const Attack& attack, Worth optimum, Solution& out) {
  std::stop_source source;
  bool held = true;
  int left = attack.reports;
  std::jthread stopper;
  if (attack.wait >= 0)
    stopper = std::jthread([&source, wait = attack.wait] {
      std::this_thread::sleep_for(std::chrono::microseconds(wait));
      source.request_stop();
    });
  out = solve(problem, attack.limits, source.get_token(), [&](const Progress& p) {
    held = held && p.bound <= optimum && optimum <= p.cost;
    if (--left == 0) source.request_stop();
  });
  return held && out.bound <= optimum && optimum <= out.cost;
}

}  // namespace

TEST_CASE("bound, optimum and plan stand in order at every moment on thousands of tiny shops") {
  int closed = 0, early = 0;
  const int shops = 3000;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + 700000);
    const Problem problem = oddShop(draw);
    const Worth optimum = slow::bestShop(problem);
    const Attack attack(draw);
    Solution solution;
    INFO("seed " << seed);
    CHECK(ordered(problem, attack, optimum, solution));
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
    if (solution.bound == solution.cost) ++closed;
    if (solution.ending == Ending::stopped) ++early;
  }
  WARN(closed << " of " << shops << " tiny shops closed, " << early << " stopped on the way");
  CHECK(closed > shops / 4);  // else bounds so weak would show nothing
  CHECK(early > shops / 100);
}

TEST_CASE("500 equal boards: two kinds of blank that tile a board, in closed form") {
  int closed = 0;
  const int shops = 30;
  for (int seed = 1; seed <= shops; ++seed) {
    Draw draw(static_cast<std::uint64_t>(seed) + 800000);
    const Tick half = draw(1, 6), across = draw(1, 4);
    Problem problem;
    problem.items = {{half, 2 * across, 0}, {half, across, 1}};
    Stock stock;
    stock.copies = 500;
    stock.cost = draw(1, 1000);
    stock.profile = Profile::rectangle(2 * half, 2 * across);
    stock.itemClass = {0, 0};
    problem.stock.push_back(stock);
    // Dear enough that no board is left unopened for one more piece.
    problem.needs = {{draw(0, 600), 2000}, {draw(0, 700), 2000}};
    const std::int64_t quarters = 2 * problem.needs[0].amount + problem.needs[1].amount;
    const Worth optimum = (quarters + 3) / 4 * stock.cost;
    Solution solution;
    INFO("seed " << seed);
    CHECK(ordered(problem, Attack(draw), optimum, solution));
    const Solution whole = solve(problem, {.seconds = 60, .effort = 30000000});
    CHECK(whole.bound <= optimum);
    CHECK(whole.cost == optimum);
    if (whole.bound == optimum) ++closed;
  }
  WARN(closed << " of " << shops << " shops of 500 equal boards closed");
  CHECK(closed > shops / 2);
}

TEST_CASE("500 equal boards: no more of them can be of use than there are pieces wanted") {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    Draw draw(seed + 850000);
    Problem problem = randomShop(draw, {{8, 4, 3}, 1, 3});
    problem.stock.resize(1);
    Stock& stock = problem.stock[0];
    stock.offcuts.bands.clear();
    stock.least = 0;
    dropGifts(problem);
    std::int64_t pieces = 0;
    for (const Need& need : problem.needs) pieces += need.amount;
    stock.copies = static_cast<int>(pieces);
    const Worth optimum = slow::bestShop(problem);
    stock.copies = 500;
    Solution solution;
    INFO("seed " << seed);
    CHECK(ordered(problem, Attack(draw), optimum, solution));
    CHECK(faultsOf(solution, problem) == std::vector<std::string>{});
  }
}

TEST_CASE("a known plan is where the search begins, and one at fault is refused") {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    Draw draw(seed + 900000);
    const Problem problem = randomShop(draw, {{24, 10, 5}, 5, 5});
    const Solution careful = carefulHand(problem);
    INFO("seed " << seed);
    Worth first = 0;
    const Solution plan = solve(
        problem, {.seconds = 20, .effort = 1}, {},
        [&](const Progress& p) { first = p.plan == 1 ? p.cost : first; }, &careful);
    CHECK(first <= careful.cost);
    CHECK(plan.cost <= careful.cost);
    if (careful.cuts.empty()) continue;
    Solution broken = careful;
    broken.cuts[0].times += problem.stock[static_cast<std::size_t>(broken.cuts[0].stock)].copies;
    CHECK_THROWS_AS(solve(problem, {}, {}, {}, &broken), std::invalid_argument);
  }
}

TEST_CASE("what an older pricing allows is a bound at other multipliers") {
  int risen = 0;
  for (std::uint64_t seed = 1; seed <= 3000; ++seed) {
    Draw draw(seed + 1000000);
    Problem problem = randomShop(draw, {{14, 7, 4}, 1, 4});
    const Stock& stock = problem.stock[0];
    Pricer pricer(problem, stock);
    const auto multipliers = [&] {
      std::vector<Worth> unit;
      for (const Item& item : problem.items) unit.push_back(draw(0, 9) * item.length * item.width);
      return unit;
    };
    const Caps caps = draw.oneIn(2) ? Caps::keep : Caps::drop;
    const std::vector<Worth> then = multipliers(), now = multipliers();
    const Best old = pricer.best(pricesAt(problem, then), {.caps = caps});
    const Best fresh = pricer.best(pricesAt(problem, now), {.caps = caps});
    INFO("seed " << seed);
    CHECK(carriedBound(problem, stock, {then, old.upperBound}, now, caps) >= fresh.value);
    if (fresh.value > old.upperBound) ++risen;
  }
  CHECK(risen > 300);  // else the old figure alone would do
}
