#include <array>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "inventory/wood/rows.h"

// Every row of the published tables that was seen at its source, or in a transcription that names
// it, is a test or is exempt by name with a reason: data/published_rows.csv says which.

namespace {

namespace fs = std::filesystem;
const fs::path root = FLITCHBOOK_SOURCE;
const std::array<const char*, 3> tableFolders{"tests/wood/data", "tests/labels/data",
                                              "inventory/wood/data"};

std::string read(const fs::path& file) {
  std::ifstream in(file);
  INFO(file.string());
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// What comes first in a row: its name.
struct Named {
  std::string name;
  bool seen = false;  ///< verified, at the source or in a transcription of it
};

/// The published tables: file -> rows. The name is the first column.
std::map<std::string, std::vector<Named>> publishedTables() {
  std::map<std::string, std::vector<Named>> tables;
  for (const char* folder : tableFolders) {
    for (const fs::directory_entry& entry : fs::directory_iterator(root / folder)) {
      if (entry.path().extension() != ".csv") continue;
      const std::string text = read(entry.path());
      const std::string head = text.substr(0, text.find_first_of(",\r\n"));
      const std::string file = entry.path().filename().string();
      for (const flitch::PublishedRow& row : flitch::publishedRows(text)) {
        if (row.count("mark") == 0) break;
        const std::string evidence = row.count("evidence") != 0 ? row.at("evidence") : "";
        tables[file].push_back(
            {row.at(head), row.at("mark") == "verified" && (evidence == "S" || evidence == "T")});
      }
    }
  }
  return tables;
}

/// Test cases by name, each with its text up to the next one.
std::map<std::string, std::string> testCases() {
  const std::regex begin(R"re(TEST_CASE\(\s*((?:"[^"\n]*"\s*)+))re");
  std::map<std::string, std::string> cases;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(root / "tests")) {
    if (entry.path().extension() != ".cpp") continue;
    const std::string text = read(entry.path());
    std::sregex_iterator at(text.begin(), text.end(), begin);
    for (const std::sregex_iterator end; at != end;) {
      const std::string name = std::regex_replace((*at)[1].str(), std::regex(R"re("\s*)re"), "");
      const auto from = static_cast<std::size_t>(at->position());
      ++at;
      const std::size_t to = at == end ? text.size() : static_cast<std::size_t>(at->position());
      cases[name] += text.substr(from, to - from);
    }
  }
  return cases;
}

/// Whether a test goes through a table row by row: it reads the file, or the copy in the program.
bool readsTable(const std::string& test, const std::string& file) {
  static const std::map<std::string, std::string> carried{
      {"dimensional_change_coefficients.csv", "checkRows(dimensionalChangeTable"},
      {"shrinkage_green_to_ovendry.csv", "checkRows(shrinkageTable"},
      {"specific_gravity_12pct.csv", "checkRows(gravityTable"}};
  if (test.find("published(\"" + file + "\")") != std::string::npos) return true;
  const auto at = carried.find(file);
  return at != carried.end() && test.find(at->second) != std::string::npos;
}

}  // namespace

TEST_CASE("every published row that was seen at its source is a test or is exempt by name") {
  const auto tables = publishedTables();
  const auto cases = testCases();
  std::map<std::string, std::set<std::string>> answered;
  for (const flitch::PublishedRow& line :
       flitch::publishedRows(read(fs::path(FLITCHBOOK_TEST_DATA) / "published_rows.csv"))) {
    const std::string& file = line.at("file");
    const std::string& row = line.at("row");
    const std::string& test = line.at("test");
    INFO(file << ", " << row);
    CHECK(answered[file].insert(row).second);
    CHECK(test.empty() != line.at("exempt").empty());
    REQUIRE(tables.count(file) == 1);
    if (row != "*") {
      const std::vector<Named>& rows = tables.at(file);
      CHECK(std::any_of(rows.begin(), rows.end(), [&](const Named& n) { return n.name == row; }));
    }
    if (test.empty()) continue;
    INFO(test);
    REQUIRE(cases.count(test) == 1);
    const std::string& text = cases.at(test);
    CHECK((readsTable(text, file) || (row != "*" && text.find(row) != std::string::npos)));
  }
  int seen = 0;
  for (const auto& [file, rows] : tables) {
    for (const Named& row : rows) {
      if (!row.seen) continue;
      ++seen;
      INFO(file << ", " << row.name << ": no test, and not exempt");
      CHECK((answered[file].count(row.name) == 1 || answered[file].count("*") == 1));
    }
  }
  CHECK(seen > 280);
}

TEST_CASE("a row that no test names would be found") {
  const std::string test = "TEST_CASE(\"x\") { for (row : published(\"a.csv\")) CHECK(row); }";
  CHECK(readsTable(test, "a.csv"));
  CHECK_FALSE(readsTable(test, "b.csv"));
  CHECK_FALSE(readsTable(test, "shrinkage_green_to_ovendry.csv"));
  CHECK(testCases().at("a row that no test names would be found").find("b.csv") !=
        std::string::npos);
}
