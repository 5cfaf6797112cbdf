#include "tests/bench/cases.h"

#include <algorithm>
#include <chrono>

#include "optimizer/bar_stock.h"
#include "optimizer/pricer.h"
#include "optimizer/solve.h"
#include "tests/optimizer/plan_faults.h"

namespace flitch::bench {
namespace {

using optimizer::Problem;
using optimizer::Solution;
using optimizer::Tick;
using optimizer::Worth;
using Clock = optimizer::Halt::Clock;

double secondsSince(Clock::time_point start) {
  return std::chrono::duration<double>(Clock::now() - start).count();
}

/// Pieces a board can hold by area at most.
std::int64_t byArea(const Instance& instance, const Instance::Piece& piece) {
  return std::int64_t{instance.length} * instance.width / (std::int64_t{piece.l} * piece.w);
}

/// Boards enough to cut every kind of piece from boards of its own.
std::int64_t enough(const Instance& instance, bool rotation) {
  std::int64_t boards = 0;
  for (const Instance::Piece& piece : instance.pieces) {
    const auto grid = [&](Tick l, Tick w) {
      return std::int64_t{instance.length / l} * (instance.width / w);
    };
    std::int64_t each = grid(piece.l, piece.w);
    if (rotation) each = std::max(each, grid(piece.w, piece.l));
    if (each > 0) boards += (piece.least + each - 1) / each;
  }
  return boards;
}

/// What is worth money when every piece is supplied.
Worth everything(const Problem& problem) {
  Worth sum = 0;
  for (const optimizer::Need& need : problem.needs) sum += need.amount * need.shortage;
  return sum;
}

void fill(Outcome& outcome, Goal goal, const Problem& problem, const Solution& solution) {
  switch (goal) {
    case Goal::mostValue:
      outcome.value = everything(problem) - solution.cost;
      outcome.bound = everything(problem) - solution.bound;
      break;
    case Goal::fewestBoards:
      outcome.value = solution.cost / Case::board;
      outcome.bound = (solution.bound + Case::board - 1) / Case::board;
      break;
    case Goal::fits:
      outcome.value = solution.cost == 0 ? 1 : 0;
      outcome.bound = solution.bound <= 0 ? 1 : 0;
      break;
  }
}

/// Bars, all of one length.
Outcome runBars(const Instance& instance, const Variant& variant, const Budget& budget) {
  optimizer::BarProblem problem{{{instance.length, 1}}, {}, variant.kerf};
  for (const Instance::Piece& piece : instance.pieces)
    problem.needs.push_back({piece.l, piece.least});
  constexpr std::uint64_t plenty = 1'500'000'000;
  const optimizer::BarLimits limits{budget.effort > 0 ? budget.effort : plenty};
  const Clock::time_point start = Clock::now();
  const optimizer::BarSolution solution = optimizer::cutBars(problem, limits);
  Outcome outcome;
  outcome.seconds = secondsSince(start);
  outcome.value = solution.cost;
  outcome.bound = solution.bound;
  outcome.faults = optimizer::faultsOf(solution, problem);
  return outcome;
}

/// The best pattern of the one board as a plan.
Solution planOf(const optimizer::Pattern& pattern, const Problem& problem) {
  Solution plan;
  if (!pattern.cells.empty()) plan.cuts.push_back({0, 1, pattern});
  const std::vector<std::int64_t> own = optimizer::supplies(pattern, problem);
  for (std::size_t n = 0; n < own.size(); ++n)
    if (const std::int64_t missing = problem.needs[n].amount - own[n]; missing > 0)
      plan.shortages.push_back({static_cast<int>(n), missing});
  plan.cost = optimizer::costOf(plan, problem);
  return plan;
}

}  // namespace

Case makeCase(const Instance& instance, const Variant& variant) {
  Case made;
  Problem& problem = made.problem;
  problem.saw.stages = instance.oneDimensional ? 2 : variant.stages;
  problem.saw.first = instance.oneDimensional ? optimizer::FirstCut::x : variant.first;
  problem.saw.trim = variant.trim && !instance.oneDimensional;
  problem.saw.kerfX = problem.saw.kerfY = variant.kerf;
  const Goal goal = instance.goal();
  optimizer::Stock stock;
  if (goal == Goal::fewestBoards) {
    stock.cost = Case::board;
    stock.copies = static_cast<int>(enough(instance, variant.rotation));
  } else {
    stock.copies = static_cast<int>(instance.copies);
  }
  for (const Instance::Piece& piece : instance.pieces) {
    const int need = static_cast<int>(problem.needs.size());
    const std::int64_t most = byArea(instance, piece) * stock.copies;
    const bool limited = piece.most >= 0 && piece.most < most;
    problem.needs.push_back({goal != Goal::mostValue ? piece.least
                             : limited               ? piece.most
                                                     : most,
                             goal == Goal::fewestBoards ? 2 * Case::board
                             : goal == Goal::fits       ? Worth{piece.l} * piece.w
                                                        : piece.value});
    const auto add = [&](Tick l, Tick w) {
      made.priced.push_back({static_cast<int>(problem.items.size()), piece.value});
      if (limited) made.priced.back().cap = piece.most;
      made.limited = made.limited || limited;
      problem.items.push_back({l, w, need});
    };
    add(piece.l, piece.w);
    if (!variant.rotation || piece.l == piece.w) continue;
    add(piece.w, piece.l);
    made.capsEachItem = made.capsEachItem && !limited;
  }
  stock.profile = optimizer::Profile::rectangle(instance.length, instance.width);
  stock.itemClass.assign(problem.items.size(), 0);
  for (auto& zones : stock.zones)
    for (const Instance::Defect& defect : instance.defects) zones.push_back({defect.where, 1});
  problem.stock.push_back(std::move(stock));
  return made;
}

Outcome run(const Instance& instance, const Variant& variant, const Budget& budget) {
  if (instance.oneDimensional) return runBars(instance, variant, budget);
  const Case made = makeCase(instance, variant);
  const Problem& problem = made.problem;
  const Goal goal = instance.goal();
  const Clock::time_point start = Clock::now();
  Outcome outcome;
  Solution known;
  const bool oneBoard = goal == Goal::mostValue && problem.stock[0].copies == 1;
  if (oneBoard && made.capsEachItem) {
    // Counting copies may take for ever: half the time is left for solve().
    const double most = made.limited ? budget.seconds / 2 : budget.seconds;
    const optimizer::Halt halt{
        {},
        start + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(most))};
    optimizer::Pricer pricer(problem, problem.stock[0]);
    const optimizer::Best best = pricer.best(made.priced, {.halt = &halt});
    known = planOf(best.pattern, problem);
    outcome.value = best.value;
    outcome.bound = best.upperBound;
    if (everything(problem) - known.cost != best.value) outcome.faults.push_back("the value");
    for (const std::string& fault : optimizer::faultsOf(known, problem))
      outcome.faults.push_back(fault);
    outcome.seconds = secondsSince(start);
    outcome.timeUp = halt.now();
    if (best.value == best.upperBound || outcome.seconds >= budget.seconds) return outcome;
  }
  std::stop_source enough;
  optimizer::Limits limits{.seconds = budget.seconds - outcome.seconds, .effort = budget.effort};
  limits.threads = budget.threads;
  if (goal == Goal::fewestBoards) limits.goodEnough = Case::board - 1;
  const auto settled = [&](const optimizer::Progress& now) {
    if (goal == Goal::fits && now.bound > 0) enough.request_stop();
  };
  const Solution solution = optimizer::solve(problem, limits, enough.get_token(), settled,
                                             outcome.seconds > 0 ? &known : nullptr);
  const Outcome before = outcome;
  fill(outcome, goal, problem, solution);
  if (outcome.seconds > 0) outcome.bound = std::min(outcome.bound, before.bound);
  for (const std::string& fault : optimizer::faultsOf(solution, problem))
    outcome.faults.push_back(fault);
  outcome.timeUp = solution.ending == optimizer::Ending::timeUp;
  outcome.seconds = secondsSince(start);
  return outcome;
}

}  // namespace flitch::bench
