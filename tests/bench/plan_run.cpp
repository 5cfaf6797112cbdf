#include "tests/bench/plan_run.h"

#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <exception>
#include <iostream>
#include <stdexcept>
#include <thread>

#include "optimizer/baselines.h"
#include "tests/optimizer/plan_faults.h"

namespace flitch::bench {
namespace {

using Clock = std::chrono::steady_clock;
using optimizer::Problem;
using optimizer::Solution;

PlanRow plan(const Problem& problem, const PlanOrder& order) {
  PlanRow row;
  row.handRule = optimizer::handRule(problem).cost;
  const Clock::time_point before = Clock::now();
  row.carefulHand = optimizer::carefulHand(problem).cost;
  row.carefulSeconds = std::chrono::duration<double>(Clock::now() - before).count();

  std::stop_source source;
  Clock::time_point asked;
  std::jthread stopper;
  if (order.stopAt > 0)
    stopper = std::jthread([&] {
      std::this_thread::sleep_for(std::chrono::duration<double>(order.stopAt));
      asked = Clock::now();
      source.request_stop();
    });
  const auto tell = [&](const optimizer::Progress& p) {
    if (order.verbose)
      std::cerr << p.seconds << " s: plan " << p.plan << ", cost "
                << static_cast<double>(p.cost) / 1e4 << ", bound "
                << static_cast<double>(p.bound) / 1e4 << "\n";
  };
  const Solution solution = optimizer::solve(problem, order.limits, source.get_token(), tell);
  const Clock::time_point back = Clock::now();
  if (stopper.joinable()) stopper.join();
  if (solution.ending == optimizer::Ending::stopped)
    row.stopMs = std::chrono::duration<double, std::milli>(back - asked).count();
  for (const std::string& fault : optimizer::faultsOf(solution, problem)) {
    std::cerr << fault << "\n";
    ++row.faults;
  }
  row.seconds = solution.statistics.seconds;
  row.firstPlanSeconds = solution.statistics.firstPlanSeconds;
  row.cost = solution.cost;
  row.bound = solution.bound;
  row.shortNeeds = static_cast<int>(solution.shortages.size());
  row.priced = solution.statistics.priced;
  row.nodes = solution.statistics.nodes;
  row.effort = solution.statistics.effort;
  return row;
}

/// The child's side: the row goes into the pipe whole or not at all.
[[noreturn]] void planAndLeave(int pipe, const std::function<Problem()>& problem,
                               const PlanOrder& order) {
  bool written = false;
  try {
    const PlanRow row = plan(problem(), order);
    written = write(pipe, &row, sizeof row) == sizeof row;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
  }
  _exit(written ? 0 : 1);
}

}  // namespace

std::optional<PlanRow> planApart(const std::function<Problem()>& problem, const PlanOrder& order) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("no process");
  if (child == 0) planAndLeave(ends[1], problem, order);
  close(ends[1]);
  PlanRow row;
  const bool whole = read(ends[0], &row, sizeof row) == sizeof row;
  close(ends[0]);
  rusage usage{};
  int status = 0;
  wait4(child, &status, 0, &usage);
  if (!whole) return std::nullopt;
  row.memoryMb = usage.ru_maxrss / 1024;
  return row;
}

}  // namespace flitch::bench
