#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <span>
#include <sstream>
#include <string>
#include <vector>

#include "inventory/exchange/columns.h"

namespace {

namespace fs = std::filesystem;
const fs::path root = FLITCHBOOK_SOURCE;

std::string read(const fs::path& file) {
  std::ifstream in(file);
  REQUIRE(in.good());
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// First groups of all matches, in order.
std::vector<std::string> found(const std::string& text, const std::string& pattern) {
  const std::regex regex(pattern, std::regex::ECMAScript | std::regex::multiline);
  std::vector<std::string> all;
  for (std::sregex_iterator at(text.begin(), text.end(), regex), end; at != end; ++at) {
    all.push_back((*at)[1]);
  }
  return all;
}

/// What a command prints; its exit code must be 0.
std::string output(const std::string& command) {
  FILE* pipe = ::popen(command.c_str(), "r");
  REQUIRE(pipe);
  std::string text;
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe)) {
    text.append(buffer.data(), n);
  }
  INFO(command);
  REQUIRE(::pclose(pipe) == 0);
  return text;
}

/// The table under a heading: first cell of each row, the head and the rule left out.
std::vector<std::string> firstCells(const std::string& text, const std::string& heading) {
  const std::size_t at = text.find("\n" + heading + "\n");
  INFO(heading);
  REQUIRE(at != std::string::npos);
  const std::string below = text.substr(at + heading.size() + 2);
  return found(below.substr(0, below.find("\n#")), R"(^\| `([^`]+)` \|)");
}

std::vector<std::string> names(std::span<const flitch::exchange::ImportColumn> columns) {
  std::vector<std::string> all;
  for (const auto& column : columns) all.emplace_back(column.name);
  return all;
}

TEST_CASE("every path that README and DEVELOPERS name is there") {
  for (const char* page : {"README.md", "DEVELOPERS.md"}) {
    const std::string text = read(root / page);
    std::vector<std::string> paths =
        found(text, R"(`((?:inventory|optimizer|labels|ui|tests|tools)(?:/[A-Za-z0-9_./-]*)?)`)");
    const std::vector<std::string> linked = found(text, R"(\]\(([^)#:]+)\))");
    paths.insert(paths.end(), linked.begin(), linked.end());
    CHECK(!paths.empty());
    for (const std::string& path : paths) {
      INFO(page << " names " << path);
      CHECK(fs::exists(root / path));
    }
  }
}

TEST_CASE("README shows a picture of the program, small enough for a page") {
  const std::vector<std::string> pictures =
      found(read(root / "README.md"), R"(!\[[^\]]+\]\(([^)]+)\))");
  REQUIRE(!pictures.empty());
  for (const std::string& picture : pictures) {
    INFO(picture);
    CHECK(fs::file_size(root / picture) < 300'000);
  }
}

TEST_CASE("README lists the columns that the imports take") {
  const std::string text = read(root / "README.md");
  CHECK(firstCells(text, "### Columns of a tally") == names(flitch::exchange::tallyColumns()));
  CHECK(firstCells(text, "### Columns of an invoice") == names(flitch::exchange::invoiceColumns()));
  CHECK(firstCells(text, "### Columns of a marks file") == names(flitch::exchange::markColumns()));
  CHECK(firstCells(text, "### Columns of a parts list") == names(flitch::exchange::partColumns()));
  CHECK(firstCells(text, "### Columns of a job's lines") ==
        names(flitch::exchange::jobLineColumns()));
  CHECK(firstCells(text, "### Columns of a price list") == names(flitch::exchange::priceColumns()));
}

TEST_CASE("README names every command that flitch has, and no other") {
  const std::string help = output(FLITCHBOOK_BIN "/flitch --help");
  const std::size_t at = help.find("Subcommands:");
  REQUIRE(at != std::string::npos);
  const std::vector<std::string> has = found(help.substr(at), R"(^  ([a-z]+) )");
  const std::vector<std::string> told = found(read(root / "README.md"), R"(^\| `flitch ([a-z]+))");
  CHECK(std::set<std::string>(told.begin(), told.end()) ==
        std::set<std::string>(has.begin(), has.end()));
}

TEST_CASE("DEVELOPERS gives the licence of every package that is installed") {
  const std::string page = read(root / "DEVELOPERS.md");
  const std::vector<std::string> packages =
      found(read(root / "tools/packages"), R"(^(?:build|run|test) (\S+) )");
  CHECK(packages.size() > 20);
  for (const std::string& package : packages) {
    INFO(package);
    CHECK(page.find("`" + package + "`") != std::string::npos);
  }
}

TEST_CASE("what CMake looks for is in the list of dependencies") {
  const std::string page = read(root / "DEVELOPERS.md");
  std::string lists = read(root / "CMakeLists.txt");
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(root / "tests")) {
    if (entry.path().filename() == "CMakeLists.txt") lists += read(entry.path());
  }
  // CMake's name of a library -> the name the page uses.
  const std::vector<std::pair<std::string, std::string>> known{
      {"Qt6", "| Qt 6 base"},  {"ZXing", "| ZXing-cpp"},
      {"Boost", "| Boost"},    {"CLI11", "| CLI11"},
      {"Catch2", "| Catch2"},  {"nlohmann_json", "| nlohmann-json"},
      {"SQLite3", "| SQLite"}, {"benchmark", "| Google Benchmark"},
      {"Threads", ""},         {"PkgConfig", ""},
  };
  const std::vector<std::string> wanted = found(lists, R"(find_package\((\w+))");
  CHECK(wanted.size() >= 8);
  for (const std::string& name : wanted) {
    INFO(name);
    const auto at = std::find_if(known.begin(), known.end(),
                                 [&](const auto& pair) { return pair.first == name; });
    REQUIRE(at != known.end());
    CHECK(page.find(at->second) != std::string::npos);
  }
}

}  // namespace
