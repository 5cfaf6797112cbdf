// planbench [--oak DIR] --boards N --seeds A-B --seconds S [--effort E] [--threads T] [--stop-at S]
//           [--verbose] --csv OUT
// Plans seeded shops (with --oak shops of the real boards in DIR) and writes a line for each: how
// good the plan and its proof are. With --stop-at, asks to stop then and gives how long the answer
// took. Last a line of summary. Exit 1 when a plan is at fault or none came back.
#include <algorithm>
#include <fstream>
#include <iostream>
#include <stdexcept>
#include <string>

#include "tests/bench/oak_shop.h"
#include "tests/bench/plan_run.h"

namespace {

using namespace flitch;

struct Options {
  int boards = 15, firstSeed = 1, lastSeed = 1;
  bench::PlanOrder order;
  std::string oak, csv;
};

Options read(int argc, char** argv) {
  Options options;
  const std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t w = 0; w < words.size(); ++w) {
    const std::string& key = words[w];
    if (key == "--verbose") {
      options.order.verbose = true;
      continue;
    }
    if (++w == words.size()) throw std::invalid_argument(key + " needs a value");
    const std::string& value = words[w];
    if (key == "--boards") {
      options.boards = std::stoi(value);
    } else if (key == "--oak") {
      options.oak = value;
    } else if (key == "--seeds") {
      const std::size_t dash = value.find('-');
      options.firstSeed = std::stoi(value);
      options.lastSeed =
          dash == std::string::npos ? options.firstSeed : std::stoi(value.substr(dash + 1));
    } else if (key == "--seconds") {
      options.order.limits.seconds = std::stod(value);
    } else if (key == "--effort") {
      options.order.limits.effort = std::stoull(value);
    } else if (key == "--threads") {
      options.order.limits.threads = std::stoi(value);
    } else if (key == "--stop-at") {
      options.order.stopAt = std::stod(value);
    } else if (key == "--csv") {
      options.csv = value;
    } else {
      throw std::invalid_argument("unknown option " + key);
    }
  }
  return options;
}

void write(std::ostream& csv, const bench::ShopSize& size, int seed, const bench::PlanRow& row) {
  const auto money = [](optimizer::Worth worth) { return static_cast<double>(worth) / 1e4; };
  csv << size.boards << "," << size.types << "," << size.pieces << "," << seed << "," << row.seconds
      << "," << row.firstPlanSeconds << "," << money(row.cost) << "," << money(row.bound) << ","
      << row.gap() << "," << money(row.handRule) << "," << money(row.carefulHand) << ","
      << row.carefulSeconds << "," << row.shortNeeds << "," << row.memoryMb << "," << row.priced
      << "," << row.nodes << "," << row.effort << "," << row.stopMs << std::endl;
}

template <class Figure>
double median(const std::vector<bench::PlanRow>& rows, Figure figure) {
  std::vector<double> figures;
  for (const bench::PlanRow& row : rows) figures.push_back(figure(row));
  std::sort(figures.begin(), figures.end());
  const std::size_t half = figures.size() / 2;
  return figures.size() % 2 == 1 ? figures[half] : (figures[half - 1] + figures[half]) / 2;
}

void summary(const std::string& name, const std::vector<bench::PlanRow>& rows) {
  if (rows.empty()) return;
  const auto gap = [](const bench::PlanRow& row) { return row.gap(); };
  double worst = 0;
  long memory = 0;
  std::ptrdiff_t proven = 0;
  for (const bench::PlanRow& row : rows) {
    worst = std::max(worst, row.gap());
    memory = std::max(memory, row.memoryMb);
    if (row.cost == row.bound) ++proven;
  }
  std::cerr << name << ": " << rows.size() << " shops, median gap " << 100 * median(rows, gap)
            << " %, worst " << 100 * worst << " %, " << proven
            << " proven optimal, median first plan "
            << median(rows, [](const bench::PlanRow& row) { return row.firstPlanSeconds; })
            << " s, most memory " << memory << " MB\n";
}

int run(const Options& options) {
  std::ofstream file;
  if (!options.csv.empty()) file.open(options.csv);
  std::ostream& csv = options.csv.empty() ? std::cout : file;
  csv << "boards,types,pieces,seed,seconds,first_plan_s,cost,bound,gap,hand_rule,careful_hand,"
         "careful_s,short_needs,memory_mb,priced,nodes,effort,stop_ms\n";
  const std::vector<bench::Instance> oak =
      options.oak.empty() ? std::vector<bench::Instance>{} : bench::readSet(options.oak);
  const bench::ShopSize size = bench::ShopSize::of(options.boards);
  std::vector<bench::PlanRow> supplied, missing;
  int faults = 0;
  for (int seed = options.firstSeed; seed <= options.lastSeed; ++seed) {
    const auto number = static_cast<std::uint64_t>(seed);
    const auto problem = [&] {
      return oak.empty() ? bench::randomShop(size, number) : bench::oakShop(oak, size, number);
    };
    const std::optional<bench::PlanRow> row = bench::planApart(problem, options.order);
    if (!row) {
      std::cerr << "seed " << seed << ": no plan came back\n";
      ++faults;
      continue;
    }
    write(csv, size, seed, *row);
    faults += row->faults;
    (row->shortNeeds == 0 ? supplied : missing).push_back(*row);
  }
  // What stock cannot supply is most of a cost and hides the gap.
  summary("all supplied", supplied);
  summary("parts short", missing);
  return faults == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(read(argc, argv));
  } catch (const std::exception& error) {
    std::cerr << error.what()
              << "\nusage: planbench [--oak DIR] --boards N --seeds A-B --seconds S [--effort E]\n"
                 "       [--threads T] [--stop-at S] [--verbose] --csv OUT\n";
    return 2;
  }
}
