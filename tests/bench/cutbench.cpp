// cutbench SET_DIR --stages 2|3 --first-cut x|y|any --trim exact|nonexact --rotation yes|no
//          --kerf K --seconds S [--effort E] [--threads T] [--only TEXT] --csv OUT
//          --compare expected.csv [--rows all|own]
// Solves every instance of a published set (those with TEXT in their names; with --rows own those
// that have a row of this very variant), at most S seconds each, and writes
// instance,value,bound,status,seconds. With --compare: what agrees with the known values, what
// misses them, and gaps. Exit 1 when a plan or a bound cannot be true.
#include <fstream>
#include <iostream>
#include <optional>
#include <stdexcept>

#include "tests/bench/comparison.h"

namespace {

using namespace flitch;

struct Options {
  std::string folder, csv, compare, only;
  bench::Variant variant;
  bench::Budget budget;
  bool ownRows = false;
};

[[noreturn]] void usage(const std::string& why) {
  throw std::invalid_argument(
      why +
      "\nusage: cutbench SET_DIR --stages 2|3 --first-cut x|y|any --trim exact|nonexact\n"
      "       --rotation yes|no --kerf K --seconds S [--effort E] [--threads T] [--only TEXT]\n"
      "       --csv OUT --compare expected.csv [--rows all|own]");
}

std::string oneOf(const std::string& key, const std::string& value,
                  std::initializer_list<const char*> allowed) {
  for (const char* a : allowed)
    if (value == a) return value;
  usage(key + " does not take " + value);
}

optimizer::FirstCut firstCut(const std::string& value) {
  if (value == "x") return optimizer::FirstCut::x;
  return value == "y" ? optimizer::FirstCut::y : optimizer::FirstCut::any;
}

void set(Options& options, const std::string& key, const std::string& value) {
  bench::Variant& variant = options.variant;
  if (key == "--stages") {
    variant.stages = std::stoi(oneOf(key, value, {"2", "3"}));
  } else if (key == "--first-cut") {
    variant.first = firstCut(oneOf(key, value, {"x", "y", "any"}));
  } else if (key == "--trim") {
    variant.trim = oneOf(key, value, {"exact", "nonexact"}) == "nonexact";
  } else if (key == "--rotation") {
    variant.rotation = oneOf(key, value, {"yes", "no"}) == "yes";
  } else if (key == "--kerf") {
    variant.kerf = std::stoi(value);
  } else if (key == "--seconds") {
    options.budget.seconds = std::stod(value);
  } else if (key == "--effort") {
    options.budget.effort = std::stoull(value);
  } else if (key == "--threads") {
    options.budget.threads = std::stoi(value);
  } else if (key == "--rows") {
    options.ownRows = oneOf(key, value, {"all", "own"}) == "own";
  } else if (key == "--only") {
    options.only = value;
  } else if (key == "--csv") {
    options.csv = value;
  } else if (key == "--compare") {
    options.compare = value;
  } else {
    usage("unknown option " + key);
  }
}

Options read(int argc, char** argv) {
  Options options;
  const std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t w = 0; w < words.size(); ++w) {
    if (words[w].rfind("--", 0) != 0) {
      options.folder = words[w];
    } else if (w + 1 == words.size()) {
      usage(words[w] + " needs a value");
    } else {
      set(options, words[w], words[w + 1]);
      ++w;
    }
  }
  if (options.folder.empty()) usage("no set given");
  return options;
}

int run(const Options& options) {
  std::optional<bench::Comparison> comparison;
  if (!options.compare.empty())
    comparison.emplace(bench::readKnown(options.compare), options.variant);
  std::ofstream file;
  if (!options.csv.empty()) file.open(options.csv);
  std::ostream& csv = options.csv.empty() ? std::cout : file;
  csv << "instance,value,bound,status,seconds\n";
  std::size_t faults = 0;
  double total = 0;
  for (const bench::Instance& instance : bench::readSet(options.folder)) {
    if (instance.name.find(options.only) == std::string::npos) continue;
    if (options.ownRows && !(comparison && comparison->hasRow(instance.name))) continue;
    const bench::Outcome outcome = bench::run(instance, options.variant, options.budget);
    total += outcome.seconds;
    csv << instance.name << "," << outcome.value << "," << outcome.bound << "," << outcome.status()
        << "," << outcome.seconds << std::endl;
    for (const std::string& fault : outcome.faults)
      std::cerr << instance.name << ": " << fault << "\n", ++faults;
    if (comparison) comparison->add(instance, outcome);
  }
  std::cerr << options.folder << ": " << total << " s, " << faults << " faults\n";
  if (comparison) std::cerr << comparison->text();
  return faults > 0 || (comparison && comparison->bugs()) ? 1 : 0;
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
