#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;
using Json = nlohmann::json;

// Wood Handbook FPL-GTR-190 ch. 13, eq. 13-2 (row MV01): white fir 9.15 in wide moves 0.067 in
// from 8 to 11 %.
TEST_CASE("flitch wood move gives the handbook's example (MV01) and the room it asks for") {
  const Bench bench;
  bench.flitch("book create");
  const std::string season = " --driest 6 --wettest 11";
  const std::string said = bench.flitch("wood move 'white fir' 9.15" + season).out;
  INFO(said);
  CHECK(
      said.find(
          "swells 0.067 in (0.058 to 0.067) at 11 %, shrinks 0.045 in (0.039 to 0.045) at 6 %.") !=
      std::string::npos);
  // Half of each to an edge, up to the next 1/32 in: 0.034 and 0.022.
  CHECK(said.find("at each edge: a gap of 1/16 in, covered by more than 1/32 in, a slot 3/32 in") !=
        std::string::npos);
  const Json document = Json::parse(bench.flitch("wood move 'white fir' 9.15 --json" + season).out);
  CHECK(document["at_wettest_nm"].get<double>() / 25.4e6 == Approx(0.067).margin(0.0005));
  CHECK(document["slot_nm"] == 6 * 396'875);
  const std::string edge = bench.flitch("wood move 'white fir' 9.15 --fixing edge" + season).out;
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

TEST_CASE("flitch wood move takes the shop's winter and summer where nothing else is said") {
  const Bench bench;
  bench.flitch("book create");
  CHECK(bench.flitch("wood move cherry 24").out.find("at 10.9 %") != std::string::npos);
  bench.flitch("shop summer-air '80F 75%'");
  bench.flitch("shop made-moisture '7 %'");
  const std::string said = bench.flitch("wood move cherry 24").out;
  CHECK(said.find("made at 7 %") != std::string::npos);
  // Outside 6 to 14 % by the shrinkage formula.
  CHECK(said.find("at 14.2 %") != std::string::npos);
}

// Wood Handbook FPL-GTR-282 Table 4-2 (T): 70 F, 50 % is 9.2 %; 20 C, 65 % is 12.00 (R).
TEST_CASE("flitch wood air gives the printed table's moisture, in F or C") {
  const Bench bench;
  bench.flitch("book create");
  CHECK(bench.flitch("wood air 70 50").out.find("about 9.2 % moisture") != std::string::npos);
  CHECK(bench.flitch("wood air 20C 65").out.find("about 12 % moisture") != std::string::npos);
  const Json document = Json::parse(bench.flitch("wood air 70F 75 --json").out);
  CHECK(document["moisture_permille"] == 144);
  CHECK(document["inside_table"] == true);
  CHECK(bench.flitch("wood air 20F 50").err.find("Outside the printed table") != std::string::npos);
  CHECK(bench.flitch("wood air warm 50", 1).err.find("temperature: `warm`") != std::string::npos);
  CHECK_FALSE(bench.flitch("wood air 70 150", 2).err.empty());
}

TEST_CASE("flitch wood weight weighs a panel and a board, and cautions at 50 and 80 lb") {
  const Bench bench;
  bench.flitch("book create");
  // A board foot of red oak weighs 3.67 lb at 12 % (row DN05, computed by eq. 4-14).
  const Json foot = Json::parse(bench.flitch("wood weight 'red oak' 1 12 12 --json").out);
  CHECK(foot["grams"].get<double>() / 453.59237 == Approx(3.67).margin(0.005));
  CHECK(bench.flitch("wood weight 'red oak' 1 24 60").out.find("about 37 lb.") !=
        std::string::npos);
  CHECK(bench.flitch("wood weight 'red oak' 1 36 60").out.find("about 55 lb: mind how you lift") !=
        std::string::npos);
  CHECK(bench.flitch("wood weight 'red oak' 2 36 60").out.find("two people") != std::string::npos);
  bench.write("tally.csv",
              "species,quarters,length,width,thickness,price_per_bf,moisture\n"
              "red oak,4/4,8,12,1,5,9.5\nstonewood,4/4,8,12,1,5,\n");
  CHECK_FALSE(bench.flitch("wood species add stonewood --source x --gravity 0.9").out.empty());
  bench.flitch("receive tally.csv --supplier Yard");
  CHECK(bench.flitch("wood weight --board T0001-X").out.find("at 9.5 %: about 29 lb.") !=
        std::string::npos);
  CHECK(bench.flitch("wood weight --board T0002-V").out.find("about 42 lb.") != std::string::npos);
  CHECK_FALSE(bench.flitch("wood weight cherry 1 12", 2).err.empty());
  CHECK_FALSE(bench.flitch("wood weight", 2).err.empty());
  CHECK(bench.flitch("wood weight cherry 1 12 0", 1).err.find("no length") != std::string::npos);
}

// Rows BM02 (8 by surface measure, 8.33 by volume: AHEC, Measurement page) and BM07 (export pair).
TEST_CASE("flitch wood measure counts by each published way and says what thickness to expect") {
  const Bench bench;
  bench.flitch("book create");
  const Ran ran = bench.flitch("wood measure 8/4 '6 1/4' 8");
  CHECK(ran.out.find("surface measure             8.0") != std::string::npos);
  CHECK(ran.out.find("volume                      8.3") != std::string::npos);
  CHECK(ran.out.find("two sides: 1 3/4 in, on one: 1 13/16 in") != std::string::npos);
  const Json export_ = Json::parse(bench.flitch("wood measure 4/4 '5 1/4' 8-6 --json").out);
  CHECK(export_["bundle_inches"] == 5);
  CHECK(export_["bundle_feet"] == 8);
  CHECK(export_["exact_half"] == true);  // 3.5 square feet
  CHECK(export_["kiln_dried_nm"] == 60 * 396'875);
  CHECK(bench.flitch("wood measure 4/4 '8 1/2' 12").out.find("9 or 8 square feet") !=
        std::string::npos);
  // Measured a third from the narrow end: 7 in (from memory).
  CHECK(bench.flitch("wood measure 4/4 6 12 --to 9").out.find("7 × 4/4") != std::string::npos);
  CHECK(bench.flitch("wood measure 4/4 6 nine", 1).err.find("length: ") != std::string::npos);
  CHECK(bench.flitch("wood measure 99/4 6 9", 1).err.find("nominal: ") != std::string::npos);
  CHECK(bench.flitch("wood measure 4/4 6 61", 1).err.find("no board is so large") !=
        std::string::npos);
}

TEST_CASE("flitch wood ready holds a board's newest reading against the rooms") {
  const Bench bench;
  bench.flitch("book create");
  bench.write("tally.csv",
              "species,quarters,length,width,price_per_bf,moisture\n"
              "ash,4/4,8,6,5,9.5\nash,4/4,8,6,5,14\nash,4/4,8,6,5,\n");
  bench.flitch("receive tally.csv --supplier Yard --on 2026-05-31");
  CHECK(bench.flitch("wood ready T0001-X")
            .out.find("9.5 % on 2026-05-31: ready for 6.2 to 10.9 %.") != std::string::npos);
  CHECK(bench.flitch("wood ready T0002-V").out.find("too wet for") != std::string::npos);
  CHECK(bench.flitch("wood ready T0002-V --summer '80F 80'").out.find("ready for") !=
        std::string::npos);
  CHECK(bench.flitch("wood ready T0003-T").out.find("no reading yet") != std::string::npos);
  const Json wet = Json::parse(bench.flitch("wood ready T0002-V --json").out);
  CHECK(wet["ready"] == false);
  CHECK(wet["moisture_permille"] == 140);
  CHECK(bench.flitch("wood ready T0001-X --winter cold", 1).err.find("winter: `cold`") !=
        std::string::npos);
  CHECK_FALSE(bench.flitch("wood ready T0009-H", 1).err.empty());
}

// FAS at SM 4: one cutting of 40 units (NHLA grading chart, rows of grade_rules.csv).
TEST_CASE("flitch wood grade lists the cuttings behind the estimate and what bars better grades") {
  const Bench bench;
  bench.flitch("book create");
  bench.write("tally.csv",
              "species,quarters,length,width,price_per_bf,grade,looked\n"
              "red oak,4/4,8,6,5,FAS,rough\nred oak,4/4,8,6,5,FAS,no\n"
              "cherry,4/4,8,6,5,FAS,rough\n");
  bench.flitch("receive tally.csv --supplier Yard");
  bench.flitch("mark --board T0001-X --at 'U 46-50'");
  const Ran ran = bench.flitch("wood grade T0001-X");
  CHECK(ran.out.find("looks like about No. 1 Common; paid as FAS.") != std::string::npos);
  CHECK(ran.out.find("a licensed inspector decides") != std::string::npos);
  const Json document = Json::parse(bench.flitch("wood grade T0001-X --json").out);
  CHECK(document["estimate"] == "No. 1 Common");
  CHECK(document["exact"] == true);
  // SM 4: 32 units in one cutting, or 36 in two; there are 23 each side.
  CHECK(document["units_needed"] == "36");
  CHECK(document["units_found"] == "46");
  REQUIRE(document["cuttings"]["rows"].size() == 2);
  CHECK(document["cuttings"]["rows"][0]["length_nm"] == 46 * 25'400'000);
  CHECK(document["misses"]["rows"][0]["grade"] == "FAS");
  CHECK(bench.flitch("wood grade T0002-V").out.find("look at both faces first") !=
        std::string::npos);
  CHECK(bench.flitch("wood grade T0003-T").out.find("exceptions for cherry") != std::string::npos);
}

TEST_CASE("flitch wood species lists figures with their sources and takes the maker's own") {
  const Bench bench;
  bench.flitch("book create");
  const std::string cherry = bench.flitch("wood species cherry").out;
  CHECK(cherry.find("0.00248") != std::string::npos);
  CHECK(cherry.find("FPL-GTR-190 (2010) Table 13-5") != std::string::npos);
  CHECK(bench.flitch("wood species 'silver maple'").out.find("from memory") != std::string::npos);
  const std::string add =
      "wood species add 'Service tree' --botanical 'Sorbus domestica' "
      "--gravity 0.77 --tangential-shrinkage '9 %' --source 'own scales'";
  CHECK(bench.flitch(add).out.find("Added service tree") != std::string::npos);
  const Json all = Json::parse(bench.flitch("wood species --json").out);
  CHECK(all["species"]["rows"].size() == 129);
  const Json one = Json::parse(bench.flitch("wood species 'service tree' --json").out);
  CHECK(one["own"] == true);
  CHECK(one["figures"]["rows"][0]["value"] == "0.77");
  CHECK(one["figures"]["rows"][0]["source"] == "own scales");
  CHECK(bench.flitch("undo").out.find("species added") != std::string::npos);
  CHECK(bench.flitch("wood species 'service tree'", 1).err.find("no figures") != std::string::npos);
  const std::string before = bench.bookBytes();
  CHECK(bench.flitch("wood species add x --source y --gravity 5", 1).err.find("gravity: `5`") !=
        std::string::npos);
  CHECK(bench.flitch("wood species add x --source y", 1).err.find("at least one figure") !=
        std::string::npos);
  CHECK_FALSE(bench.flitch("wood species add x --gravity 0.5", 2).err.empty());
  CHECK(bench.bookBytes() == before);
}

// 6 in x 8 ft is FAS when clear, 5 in wide is not (6 in x 8 ft at least, 1/4 in scant once dry:
// rows of grade_rules.csv and thickness_rules.csv).
TEST_CASE("boards short of the grade paid are told at receiving, after marking and from the rack") {
  const Bench bench;
  bench.flitch("book create");
  bench.write("tally.csv",
              "species,quarters,length,width,price_per_bf,grade,looked\n"
              "red oak,4/4,8,6,5,FAS,rough\nred oak,4/4,8,5,5,FAS,rough\n"
              "red oak,4/4,8,6,3,1C,rough\nred oak,4/4,8,6,5,FAS,no\n");
  const Ran received = bench.flitch("receive tally.csv --supplier Yard");
  INFO(received.out);
  CHECK(received.out.find("Short of the grade paid") != std::string::npos);
  CHECK(received.out.find("Selects") != std::string::npos);
  CHECK(received.out.find("a licensed inspector decides") != std::string::npos);
  bench.write("marks.csv", "tag,kind,x_from,x_to\nT0001-X,unsound knot,46,50\n");
  const Json marked = Json::parse(bench.flitch("mark marks.csv --json").out);
  REQUIRE(marked["short_of_grade"]["rows"].size() == 1);
  // 4 board feet at $5 for FAS, at the book's own $3 for No. 1 Common.
  CHECK(marked["at_stake_tenthousandths"] == 80'000);
  const Json rack = Json::parse(bench.flitch("rack 'red oak' --short-of-grade --json").out);
  CHECK(rack["short_of_grade"]["rows"].size() == 2);
  CHECK(rack["short_of_grade"]["rows"][0]["looks_like"] == "No. 1 Common");
  CHECK(rack["short_of_grade"]["rows"][0]["by"] == "price in the book");
  CHECK(rack["undecided"] == 0);
  bench.flitch("rack --short-of-grade --csv short.csv");
  CHECK(bench.read("short.csv").find("T0001-X,red oak,4/4") != std::string::npos);
  CHECK(bench.flitch("rack cherry --short-of-grade").out.find("No board") == 0);
  CHECK_FALSE(bench.flitch("rack --short-of-grade --grade", 2).err.empty());
}

// Row MV06 (computed): black cherry 12 in, 6 to 10 % is 0.119 in; from 8 to 12 % the same.
TEST_CASE("flitch job show says how far wide parts move over the year, and what all weighs") {
  const Bench bench;
  bench.flitch("book create");
  bench.write("parts.csv",
              "part,count,length,width,thickness,species\ntop,1,40,12,1,cherry\n"
              "leg,4,28,2,2,cherry\n");
  bench.flitch("job add Table parts.csv");
  const Json job = Json::parse(bench.flitch("job show Table --json").out);
  REQUIRE(job["movement"]["rows"].size() == 1);
  const auto& top = job["movement"]["rows"][0];
  CHECK(top["part"] == "top");
  // 12 x 0.00248 a point, from 8 to 10.9 %.
  CHECK(top["summer_nm"].get<double>() / 25.4e6 == Approx(12 * 0.00248 * 2.9).margin(0.002));
  CHECK(top["winter_nm"].get<double>() < 0);
  // 928 cubic inches of cherry at 8 %.
  CHECK(job["finished_grams"].get<double>() / 1000 == Approx(928 * 16.387e-6 * 550).epsilon(0.02));
  CHECK(bench.flitch("job show Table").out.find("Finished it weighs about 18 lb at 8 %.") !=
        std::string::npos);
}
