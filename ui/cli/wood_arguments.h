#pragma once
#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "inventory/exchange/columns.h"
#include "ui/cli/arguments.h"

namespace CLI {
class App;
}

namespace flitch::cli {

/// A wrong use that CLI11 cannot see for itself.
struct WrongUse {
  std::string sentence;
};

/// What a subcommand comes to once its arguments are read.
using Build = std::function<Command()>;
/// Adds a subcommand to a parent: its name, one line of help, what it comes to.
using AddCommand =
    std::function<CLI::App*(CLI::App&, const std::string&, const std::string&, Build)>;

/// "Columns of ...:" and a line a column, for the foot of a command's help.
[[nodiscard]] std::string columnHelp(const char* head,
                                     std::span<const exchange::ImportColumn> columns);
/// --pdf and --png.
void addPaper(CLI::App* sub, PaperTo& paper);

/// The keys of a table of words, for CLI11 to check against.
template <class Value>
[[nodiscard]] std::vector<std::string> wordsOf(const std::map<std::string, Value>& table) {
  std::vector<std::string> words;
  for (const auto& [word, value] : table) words.push_back(word);
  return words;
}

/// The arguments of `flitch wood ...`: a member for each, filled while CLI11 parses; they must stay
/// where they are until then.
class WoodArguments {
 public:
  void addTo(CLI::App& wood, const AddCommand& add);

 private:
  void addMove(CLI::App& wood, const AddCommand& add);
  void addWeight(CLI::App& wood, const AddCommand& add);
  void addMeasure(CLI::App& wood, const AddCommand& add);
  void addSpecies(CLI::App& wood, const AddCommand& add);

  std::string sawn_ = "flat", fixing_ = "centre";
  WoodAir air_;
  WoodMove move_;
  WoodWeight weight_;
  WoodMeasure measure_;
  WoodReady ready_;
  WoodGrade grade_;
  WoodSpecies species_;
  WoodSpeciesAdd added_;
};

}  // namespace flitch::cli
