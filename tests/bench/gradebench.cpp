// gradebench SET_DIR --csv OUT [--why]
// Grades every board of a set of boards with marks on both faces and writes
// instance,recorded,estimate,units_found,units_needed,cuttings,exact,seconds. On stderr: recorded
// grades against estimates, and with --why each board on which they differ.
#include <chrono>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <map>
#include <stdexcept>

#include "tests/bench/oak_boards.h"

namespace {

using namespace flitch;

constexpr const char* bankGrades[] = {"FAS", "F1F", "SEL", "1C", "2AC", "3AC", "below"};

struct Options {
  std::string folder, csv;
  bool why = false;
};

Options read(int argc, char** argv) {
  Options options;
  const std::vector<std::string> words(argv + 1, argv + argc);
  for (std::size_t w = 0; w < words.size(); ++w) {
    if (words[w] == "--why") {
      options.why = true;
    } else if (words[w] == "--csv" && w + 1 < words.size()) {
      options.csv = words[++w];
    } else if (options.folder.empty() && words[w].rfind("--", 0) != 0) {
      options.folder = words[w];
    } else {
      options.folder.clear();
      break;
    }
  }
  if (options.folder.empty())
    throw std::invalid_argument("usage: gradebench SET_DIR --csv OUT [--why]");
  return options;
}

void explain(const bench::OakBoard& oak, const GradeEstimate& estimate) {
  std::cerr << oak.name << ": recorded " << oak.recorded << ", estimate "
            << bench::bankWord(estimate.grade) << (estimate.exact ? "" : " (open)") << ", SM "
            << estimate.surfaceMeasure << "\n";
  const auto say = [](const GradeTrial& trial) {
    std::cerr << "    " << word(trial.grade) << ", face " << (trial.face == 0 ? "A" : "B") << ": "
              << unitsText(trial.set.area) << " of " << unitsText(trial.needed) << " units in "
              << trial.set.cuttings.size() << " of " << trial.allowed << " cuttings"
              << (trial.barredBy.empty() ? "" : "; " + trial.barredBy) << "\n";
  };
  for (const GradeTrial& trial : estimate.missed) say(trial);
  if (estimate.grade == Grade::below) return;
  say(estimate.trial);
  for (const Cells& one : estimate.trial.set.cuttings) {
    std::cerr << "      x " << one.x << "-" << one.right() << ", y " << one.y << "-" << one.top()
              << "\n";
  }
}

int run(const Options& options) {
  std::ofstream file;
  if (!options.csv.empty()) file.open(options.csv);
  std::ostream& csv = options.csv.empty() ? std::cout : file;
  csv << "instance,recorded,estimate,units_found,units_needed,cuttings,exact,seconds\n";
  std::map<std::string, std::map<std::string, int>> table;
  int graded = 0, same = 0, open = 0;
  double total = 0;
  for (const bench::OakBoard& oak : bench::readOakBoards(options.folder)) {
    if (oak.recorded == "-") continue;
    const auto start = std::chrono::steady_clock::now();
    const GradeEstimate estimate = estimateGrade(oak.board);
    const double seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    const std::string ours = bench::bankWord(estimate.grade);
    csv << oak.name << "," << oak.recorded << "," << ours << ","
        << unitsText(estimate.trial.set.area) << "," << unitsText(estimate.trial.needed) << ","
        << estimate.trial.set.cuttings.size() << "," << (estimate.exact ? "yes" : "no") << ","
        << seconds << "\n";
    ++table[oak.recorded][ours];
    ++graded;
    same += ours == oak.recorded ? 1 : 0;
    open += estimate.exact ? 0 : 1;
    total += seconds;
    if (options.why && ours != oak.recorded) explain(oak, estimate);
  }
  std::cerr << "recorded";
  for (const char* grade : bankGrades) std::cerr << std::setw(7) << grade;
  std::cerr << "\n";
  for (const char* recorded : bankGrades) {
    if (table[recorded].empty()) continue;
    std::cerr << std::setw(8) << recorded;
    for (const char* ours : bankGrades) std::cerr << std::setw(7) << table[recorded][ours];
    std::cerr << "\n";
  }
  std::cerr << graded << " boards, " << same << " with the recorded grade, " << open
            << " open at the limit of effort; " << total << " s\n";
  return 0;
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
