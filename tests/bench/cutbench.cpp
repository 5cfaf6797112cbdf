// cutbench SET_DIR --stages 2|3 --first-cut x|y|any --trim exact|nonexact --rotation yes|no
//          --kerf K --seconds S --csv OUT --compare expected.csv
// Prices every instance of a published set and writes instance,value,bound,status,seconds. With
// --compare: agreements and misses against the known values of the same variant. Exit 1 on a miss.
#include <chrono>
#include <fstream>
#include <iostream>
#include <map>
#include <stdexcept>

#include "optimizer/pricer.h"
#include "tests/bench/instances.h"

namespace {

using namespace flitch;

struct Options {
  std::string folder, csv, compare;
  bench::Variant variant;
  double seconds = 60;
};

[[noreturn]] void usage(const std::string& why) {
  throw std::invalid_argument(
      why +
      "\nusage: cutbench SET_DIR --stages 2|3 --first-cut x|y|any --trim exact|nonexact\n"
      "       --rotation yes|no --kerf K --seconds S --csv OUT --compare expected.csv");
}

std::string oneOf(const std::string& key, const std::string& value,
                  std::initializer_list<const char*> allowed) {
  for (const char* a : allowed)
    if (value == a) return value;
  usage(key + " does not take " + value);
}

Options read(int argc, char** argv) {
  Options options;
  const std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t w = 0; w < words.size(); ++w) {
    const std::string& key = words[w];
    if (key.rfind("--", 0) != 0) {
      options.folder = key;
      continue;
    }
    if (++w == words.size()) usage(key + " needs a value");
    const std::string& value = words[w];
    if (key == "--stages") {
      options.variant.stages = std::stoi(oneOf(key, value, {"2", "3"}));
    } else if (key == "--first-cut") {
      const std::string first = oneOf(key, value, {"x", "y", "any"});
      options.variant.first = first == "x"   ? optimizer::FirstCut::x
                              : first == "y" ? optimizer::FirstCut::y
                                             : optimizer::FirstCut::any;
    } else if (key == "--trim") {
      options.variant.trim = oneOf(key, value, {"exact", "nonexact"}) == "nonexact";
    } else if (key == "--rotation") {
      options.variant.rotation = oneOf(key, value, {"yes", "no"}) == "yes";
    } else if (key == "--kerf") {
      options.variant.kerf = std::stoi(value);
    } else if (key == "--seconds") {
      options.seconds = std::stod(value);
    } else if (key == "--csv") {
      options.csv = value;
    } else if (key == "--compare") {
      options.compare = value;
    } else {
      usage("unknown option " + key);
    }
  }
  if (options.folder.empty()) usage("no set given");
  return options;
}

int run(const Options& options) {
  using Clock = optimizer::Halt::Clock;
  std::map<std::string, bench::Known> known;
  if (!options.compare.empty())
    for (bench::Known& row : bench::readKnown(options.compare))
      if (row.variant == options.variant) known.emplace(row.instance, std::move(row));

  std::ofstream file;
  if (!options.csv.empty()) file.open(options.csv);
  std::ostream& csv = options.csv.empty() ? std::cout : file;
  csv << "instance,value,bound,status,seconds\n";
  std::size_t met = 0, misses = 0, open = 0, skipped = 0, compared = 0;
  double total = 0;
  for (const bench::Instance& instance : bench::readSet(options.folder)) {
    if (const std::string why = bench::unsupported(instance); !why.empty()) {
      if (skipped++ == 0) std::cerr << options.folder << ": " << why << "\n";
      continue;
    }
    const bench::Case made = bench::makeCase(instance, options.variant);
    const Clock::time_point start = Clock::now();
    const optimizer::Halt halt{{},
                               start + std::chrono::duration_cast<Clock::duration>(
                                           std::chrono::duration<double>(options.seconds))};
    optimizer::Pricer pricer(made.problem, made.problem.stock[0]);
    const optimizer::Best best =
        pricer.best(made.priced,
                    {.caps = optimizer::Caps::drop, .reach = optimizer::Reach::all, .halt = &halt});
    const double seconds = std::chrono::duration<double>(Clock::now() - start).count();
    total += seconds;
    const bool proven = best.value == best.upperBound;
    if (!proven) ++open;
    csv << instance.name << "," << best.value << "," << best.upperBound << ","
        << (proven ? "optimal" : "time") << "," << seconds << "\n";
    for (const std::string& fault :
         optimizer::faults(best.pattern, made.problem, made.problem.stock[0]))
      std::cerr << instance.name << ": " << fault << "\n", ++misses;
    const auto row = known.find(instance.name);
    if (row == known.end()) continue;
    ++compared;
    const optimizer::Worth value = row->second.value;
    const bool agrees =
        row->second.kind == "optimal"
            ? (proven ? best.value == value : best.value <= value && value <= best.upperBound)
            : true;
    if (agrees && proven) ++met;
    if (!agrees) {
      ++misses;
      std::cerr << instance.name << ": " << best.value << " to " << best.upperBound << ", known "
                << row->second.kind << " " << value << "\n";
    }
  }
  std::cerr << options.folder << ": " << compared << " compared, " << met << " met, " << misses
            << " missed, " << open << " open at the time limit, " << skipped << " unsupported; "
            << total << " s\n";
  return misses == 0 ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(read(argc, argv));
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 2;
  }
}
