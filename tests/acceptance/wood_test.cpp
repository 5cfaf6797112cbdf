#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using Json = nlohmann::json;

// Wood Handbook FPL-GTR-190 ch. 13, eq. 13-2 (row MV01): white fir 9.15 in wide moves 0.067 in
// from 8 to 11 %.
TEST_CASE("flitch wood move gives the handbook's example (MV01) and the room it asks for") {
  const Bench bench;
  bench.flitch("book create");
  const std::string said = bench.flitch("wood move 'white fir' 9.15").out;
  INFO(said);
  CHECK(said.find("swells 0.067 in at 11 %, shrinks 0.045 in at 6 %.") != std::string::npos);
  // Half of each to an edge, up to the next 1/32 in: 0.034 and 0.022.
  CHECK(said.find("at each edge: a gap of 1/16 in, covered by more than 1/32 in, a slot 3/32 in") !=
        std::string::npos);
  const Json document = Json::parse(bench.flitch("wood move 'white fir' 9.15 --json").out);
  CHECK(document["at_wettest_nm"].get<double>() / 25.4e6 == Approx(0.067).margin(0.0005));
  CHECK(document["slot_nm"] == 6 * 396'875);
  const std::string edge = bench.flitch("wood move 'white fir' 9.15 --fixing edge").out;
  CHECK(edge.find("at the other: a gap of 3/32 in") != std::string::npos);
  // Outside 6 to 14 % by the shrinkage formula, and said so.
  CHECK(bench.flitch("wood move beech 10 --made 18 --driest 8").err.find("shrinkage formula") !=
        std::string::npos);
}

TEST_CASE("flitch wood move names what it cannot take and leaves the book") {
  const Bench bench;
  bench.flitch("book create");
  const std::string before = bench.bookBytes();
  CHECK(bench.flitch("wood move greenwood 9", 1).err.find("no figures for `greenwood`") !=
        std::string::npos);
  CHECK(bench.flitch("wood move cherry wide", 1).err.find("width: ") != std::string::npos);
  CHECK(bench.flitch("wood move cherry 0", 1).err.find("`0` is no width") != std::string::npos);
  CHECK(bench.flitch("wood move cherry 9 --driest 12", 1).err.find("wetter than the wettest") !=
        std::string::npos);
  CHECK_FALSE(bench.flitch("wood move cherry 9 --made 31", 2).err.empty());
  CHECK_FALSE(bench.flitch("wood move cherry 9 --sawn bent", 2).err.empty());
  CHECK(bench.bookBytes() == before);
}
