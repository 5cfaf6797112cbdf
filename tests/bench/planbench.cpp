// planbench --boards N --seeds A-B --seconds S [--effort E] [--threads T] [--stop-at S] --csv OUT
// Plans seeded shops and writes a line for each: how good the plan and its proof are. With
// --stop-at, asks to stop then and gives how long the answer took. Exit 1 when a plan is at fault.
#include <sys/resource.h>

#include <chrono>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>
#include <thread>

#include "optimizer/baselines.h"
#include "optimizer/solve.h"
#include "tests/bench/shops.h"

namespace {

using namespace flitch;
using Clock = std::chrono::steady_clock;

struct Options {
  int boards = 15, firstSeed = 1, lastSeed = 1;
  optimizer::Limits limits;
  double stopAt = 0;
  std::string csv;
  bool verbose = false;
};

Options read(int argc, char** argv) {
  Options options;
  const std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t w = 0; w < words.size(); ++w) {
    const std::string& key = words[w];
    if (key == "--verbose") {
      options.verbose = true;
      continue;
    }
    if (++w == words.size()) throw std::invalid_argument(key + " needs a value");
    const std::string& value = words[w];
    if (key == "--boards") {
      options.boards = std::stoi(value);
    } else if (key == "--seeds") {
      const std::size_t dash = value.find('-');
      options.firstSeed = std::stoi(value);
      options.lastSeed =
          dash == std::string::npos ? options.firstSeed : std::stoi(value.substr(dash + 1));
    } else if (key == "--seconds") {
      options.limits.seconds = std::stod(value);
    } else if (key == "--effort") {
      options.limits.effort = std::stoull(value);
    } else if (key == "--threads") {
      options.limits.threads = std::stoi(value);
    } else if (key == "--stop-at") {
      options.stopAt = std::stod(value);
    } else if (key == "--csv") {
      options.csv = value;
    } else {
      throw std::invalid_argument("unknown option " + key);
    }
  }
  return options;
}

/// The plan's faults, told on stderr.
int judge(const optimizer::Solution& solution, const optimizer::Problem& problem) {
  int faults = 0;
  const auto fault = [&](const std::string& what) {
    std::cerr << what << "\n";
    ++faults;
  };
  if (solution.cost != optimizer::costOf(solution, problem)) fault("the cost is not the sum");
  if (solution.bound > solution.cost) fault("the bound is above the cost");
  std::vector<std::int64_t> units(problem.needs.size(), 0);
  std::vector<int> used(problem.stock.size(), 0);
  for (const optimizer::StockCut& cut : solution.cuts) {
    const auto s = static_cast<std::size_t>(cut.stock);
    for (const std::string& what : optimizer::faults(cut.pattern, problem, problem.stock[s]))
      fault(what);
    used[s] += cut.times;
    const std::vector<std::int64_t> own = optimizer::supplies(cut.pattern, problem);
    for (std::size_t n = 0; n < own.size(); ++n) units[n] += cut.times * own[n];
  }
  for (std::size_t s = 0; s < used.size(); ++s)
    if (used[s] > problem.stock[s].copies) fault("a board is used more often than there is of it");
  for (const optimizer::Shortage& shortage : solution.shortages)
    units[static_cast<std::size_t>(shortage.need)] += shortage.amount;
  for (std::size_t n = 0; n < units.size(); ++n)
    if (units[n] < problem.needs[n].amount) fault("a need is not met");
  return faults;
}

int run(const Options& options) {
  std::ofstream file;
  if (!options.csv.empty()) file.open(options.csv);
  std::ostream& csv = options.csv.empty() ? std::cout : file;
  csv << "boards,types,pieces,seed,seconds,first_plan_s,cost,bound,gap,hand_rule,careful_hand,"
         "careful_s,short_needs,memory_mb,priced,nodes,effort,stop_ms\n";
  int faults = 0;
  for (int seed = options.firstSeed; seed <= options.lastSeed; ++seed) {
    const bench::ShopSize size = bench::ShopSize::of(options.boards);
    const optimizer::Problem problem = bench::randomShop(size, static_cast<std::uint64_t>(seed));
    const optimizer::Solution hand = optimizer::handRule(problem);
    const Clock::time_point before = Clock::now();
    const optimizer::Solution careful = optimizer::carefulHand(problem);
    const double carefulSeconds = std::chrono::duration<double>(Clock::now() - before).count();

    std::stop_source source;
    Clock::time_point asked;
    std::jthread stopper;
    if (options.stopAt > 0)
      stopper = std::jthread([&] {
        std::this_thread::sleep_for(std::chrono::duration<double>(options.stopAt));
        asked = Clock::now();
        source.request_stop();
      });
    const auto tell = [&](const optimizer::Progress& p) {
      if (options.verbose)
        std::cerr << p.seconds << " s: plan " << p.plan << ", cost "
                  << static_cast<double>(p.cost) / 1e4 << ", bound "
                  << static_cast<double>(p.bound) / 1e4 << "\n";
    };
    const optimizer::Solution solution =
        optimizer::solve(problem, options.limits, source.get_token(), tell);
    const Clock::time_point back = Clock::now();
    if (stopper.joinable()) stopper.join();
    const double stopMs = solution.ending == optimizer::Ending::stopped
                              ? std::chrono::duration<double, std::milli>(back - asked).count()
                              : 0;
    faults += judge(solution, problem);
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    csv << size.boards << "," << size.types << "," << size.pieces << "," << seed << ","
        << solution.statistics.seconds << "," << solution.statistics.firstPlanSeconds << ","
        << static_cast<double>(solution.cost) / 1e4 << ","
        << static_cast<double>(solution.bound) / 1e4 << ","
        << optimizer::gap(solution.cost, solution.bound).relative << ","
        << static_cast<double>(hand.cost) / 1e4 << "," << static_cast<double>(careful.cost) / 1e4
        << "," << carefulSeconds << "," << solution.shortages.size() << ","
        << usage.ru_maxrss / 1024 << "," << solution.statistics.priced << ","
        << solution.statistics.nodes << "," << solution.statistics.effort << "," << stopMs
        << std::endl;
  }
  return faults == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(read(argc, argv));
  } catch (const std::exception& error) {
    std::cerr
        << error.what()
        << "\nusage: planbench --boards N --seeds A-B --seconds S [--effort E] [--threads T]\n"
           "       [--stop-at S] [--verbose] --csv OUT\n";
    return 2;
  }
}
