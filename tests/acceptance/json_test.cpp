#include <algorithm>
#include <catch2/catch.hpp>
#include <chrono>
#include <nlohmann/json.hpp>

#include "tests/acceptance/program.h"
#include "ui/cli/arguments.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;
using Json = nlohmann::json;

namespace {

void stockUp(const Bench& bench) {
  bench.write("tally.csv",
              "species,quarters,length,width,thickness,price_per_bf,looked\n"
              "cherry,4/4,8,8,1,6,planed\nash,4/4,8,8,1,6,planed\n");
  bench.write("marks.csv", "tag,kind,x_from,x_to\nT0001-X,sound knot,90,92\n");
  bench.write("prices.csv", "species,quarters,price_per_bf\ncherry,4/4,9\n");
  bench.write("lines.csv", "what,name,count,price\nhardware,cup pull,4,3.25\nhours,joinery,2,\n");
  bench.write("parts.csv", "part,count,length,width,thickness,species\nshelf,1,60,6,7/8,cherry\n");
}

}  // namespace

TEST_CASE("every command answers --json with one versioned document and nothing else") {
  const Bench bench;
  stockUp(bench);
  const std::vector<std::pair<std::string, std::string>> commands{
      {"book create", ""},
      {"book info", ""},
      {"receive", "tally.csv --supplier Yard"},
      {"mark", "marks.csv"},
      {"rack", ""},
      {"board", "T0001-X --bay B3"},
      {"count", "B3 T0001-X"},
      {"job add", "Shelf parts.csv"},
      {"job list", ""},
      {"plan", "Shelf --seconds 0.5"},
      {"job show", "Shelf"},
      {"paper", "--printer office --right 0.5"},
      {"price", "prices.csv"},
      {"demand", ""},
      {"job lines", "Shelf lines.csv"},
      {"job estimate", "Shelf"},
      {"job quote", "Shelf --title 'A shelf'"},
      {"job buy", "Shelf"},
      {"job change", "Shelf parts.csv"},
      {"job copy", "Shelf Shelves --times 2"},
      {"fit", "T0002-V"},
      {"tag", "--last --png tags"},
      {"photo", "tags/page-01.png --board T0001-X"},
      {"scan", "tags/page-01.png"},
      {"saw", "--job Shelf --as-planned"},
      {"ledger", "waste"},
      {"wood air", "70 50"},
      {"wood move", "cherry 12"},
      {"wood weight", "cherry 1 12 48"},
      {"wood measure", "8/4 6 8"},
      {"wood ready", "T0002-V"},
      {"wood grade", "T0002-V"},
      {"wood species", "cherry"},
      {"wood species add", "pear --gravity 0.69 --source 'own scales'"},
      {"shop", ""},
      {"bin", ""},
      {"book check", ""},
      {"undo", ""},
      {"return", "T0002-V --reason spare"}};
  std::vector<std::string> tried;
  for (const auto& [name, rest] : commands) {
    INFO(name);
    const Ran ran = bench.flitch(name + " " + rest + " --json");
    CHECK(ran.err.empty());
    const Json document = Json::parse(ran.out, nullptr, false);
    REQUIRE(document.is_object());
    CHECK(document["flitch"] == 1);
    CHECK(document["command"] == name);
    tried.push_back(name);
  }
  // A command that is added later must be tried here too.
  std::vector<std::string> all = flitch::cli::commandNames();
  std::sort(all.begin(), all.end());
  std::sort(tried.begin(), tried.end());
  CHECK(tried == all);
}

TEST_CASE("a plan keeps its curves, and planning again the better plan") {
  const Bench bench;
  stockUp(bench);
  bench.flitch("book create");
  bench.flitch("receive tally.csv --supplier Yard");
  bench.flitch("job add Shelf parts.csv");
  const Json plan = Json::parse(bench.flitch("plan Shelf --curves curves.csv --json").out);
  const std::string csv = bench.read("curves.csv");
  CHECK(csv.rfind("seconds,plan,cost", 0) == 0);
  CHECK(std::count(csv.begin(), csv.end(), '\n') ==
        static_cast<std::ptrdiff_t>(plan["curves"]["rows"].size() + 1));
  REQUIRE_FALSE(plan["curves"]["rows"].empty());
  CHECK_FALSE(plan["sentence"].get<std::string>().empty());
  CHECK_FALSE(plan["claim"].get<std::string>().empty());

  const Json again = Json::parse(bench.flitch("plan Shelf --seconds 0 --json").out);
  CHECK(again["total_tenthousandths"] <= plan["total_tenthousandths"]);
  CHECK(again["plan"]["bound_tenthousandths"] >= plan["plan"]["bound_tenthousandths"]);

  const std::string book = bench.bookBytes();
  bench.flitch("plan Shelf --curves nowhere/curves.csv", 1);
  CHECK(bench.bookBytes() == book);
}

TEST_CASE("a refusal is a line on stderr and, with --json, a document with its code") {
  const Bench bench;
  stockUp(bench);
  bench.flitch("book create");
  const Ran plain = bench.flitch("mark --board T0001-Y --at 3-4", 1);
  CHECK(plain.out.empty());
  CHECK(plain.err.find("T0001-Y") != std::string::npos);
  CHECK(plain.err.find('\n') == plain.err.size() - 1);
  const Ran ran = bench.flitch("mark --board T0001-Y --at 3-4 --json", 1);
  CHECK(ran.err == plain.err);
  const Json document = Json::parse(ran.out);
  CHECK(document["refused"]["code"] == "wrong-check");
  CHECK(document["refused"]["complaints"][0]["value"] == "T0001-Y");
}

TEST_CASE("every command has a help on stdout") {
  const Bench bench;
  for (const std::string& name : flitch::cli::commandNames()) {
    INFO(name);
    const Ran ran = bench.flitch(name + " --help");
    CHECK(ran.out.find("Exit codes") != std::string::npos);
    CHECK(ran.err.empty());
  }
  CHECK(bench.flitch("--help").out.find("ledger") != std::string::npos);
  CHECK(bench.flitch("--version").out.rfind("flitch ", 0) == 0);
}

TEST_CASE("an interrupt ends the search, and the best plan so far is kept") {
  const Bench bench;
  stockUp(bench);
  bench.flitch("book create");
  bench.flitch("receive tally.csv --supplier Yard");
  bench.flitch("job add Shelf parts.csv");
  const auto start = std::chrono::steady_clock::now();
  const Ran ran = bench.shell(
      "flitch plan Shelf --seconds 100 & pid=$!\nsleep 1\nkill -INT $pid 2>/dev/null\nwait $pid");
  CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(60));
  CHECK(ran.exitCode == 0);
  CHECK(ran.out.find("T0001-X") != std::string::npos);
  CHECK(bench.flitch("job show Shelf").out.find("Newest plan") != std::string::npos);
}
