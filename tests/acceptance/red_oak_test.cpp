#include "tests/acceptance/red_oak.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;
using flitch::acceptance::readRedOak;
using flitch::acceptance::Typed;
using Json = nlohmann::json;

namespace {

/// Twenty kinds of part, from slats to long rails, with every demand of a new book.
std::string twentyParts() {
  std::string parts = "part,count,length,width,thickness,species,face_a,face_b,edges\n";
  const char* const demands[] = {"clear", "sound", "hidden", "heart only"};
  const int lengths[] = {14, 18, 22, 26, 30, 36, 42, 48, 56, 66};
  const char* const widths[] = {"1 1/2", "2 1/4", "3", "3 3/4"};
  for (int i = 0; i < 20; ++i) {
    parts += "kind " + std::to_string(i + 1) + "," + std::to_string(1 + i % 3) + "," +
             std::to_string(lengths[i % 10]) + "," + widths[(i / 2) % 4] + ",13/16,red oak," +
             demands[i % 4] + "," + (i % 2 == 0 ? "sound" : "hidden") + "," +
             (i % 5 == 0 ? "front clear" : "sound") + "\n";
  }
  return parts;
}

}  // namespace

TEST_CASE("a hundred real boards are received, marked and planned", "[slow]") {
  const Typed typed = readRedOak(
      std::string(FLITCHBOOK_SOURCE) + "/tests/bench/data/red_oak_boards_1998/boards.txt", 120);
  REQUIRE(typed.boards >= 100);
  REQUIRE(typed.markCount > 500);
  const Bench bench;
  bench.write("tally.csv", typed.tally);
  bench.write("marks.csv", typed.marks);
  bench.write("parts.csv", twentyParts());
  bench.flitch("book create");
  bench.flitch("receive tally.csv --supplier Mill --on 1998-06-01");
  bench.flitch("mark marks.csv");
  bench.flitch("job add Bill parts.csv");
  const Json rack = Json::parse(bench.flitch("rack --json").out)["boards"];
  CHECK(static_cast<int>(rack.size()) == typed.boards);
  std::size_t marks = 0;
  for (const Json& board : rack) marks += board["marks"].size();
  CHECK(static_cast<int>(marks) == typed.markCount);

  // No plan reaches the book unless the checker finds nothing in it.
  const Ran ran = bench.shell("flitch plan Bill --seconds 5 --json");
  INFO(ran.err);
  REQUIRE((ran.exitCode == 0 || ran.exitCode == 3));
  const Json plan = Json::parse(ran.out)["plan"];
  std::set<int> lines;
  std::size_t blanks = 0;
  for (const Json& cutting : plan["cuttings"]) {
    for (const Json& piece : cutting["pieces"]) {
      if (piece["kind"] != "blank") continue;
      lines.insert(piece["line"].get<int>());
      ++blanks;
    }
  }
  std::int64_t missing = 0;
  for (const Json& part : plan["shorts"]) missing += part["copies"].get<std::int64_t>();
  CHECK(blanks + static_cast<std::size_t>(missing) == 39);  // 7 x 1 + 7 x 2 + 6 x 3
  CHECK(lines.size() >= 15);
  CHECK(bench.flitch("book check").out.find("is sound") != std::string::npos);

  const Json sawn = Json::parse(bench.flitch("saw --job Bill --as-planned --json").out);
  CHECK(sawn["wood_cost_tenthousandths"] == plan["wood_cost_tenthousandths"]);
  CHECK(bench.flitch("book check").out.find("is sound") != std::string::npos);
}
