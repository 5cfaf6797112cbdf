#include <catch2/catch.hpp>
#include <cmath>
#include <nlohmann/json.hpp>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using Json = nlohmann::json;

namespace {

constexpr double cubicInch = 16387.064;  // mm³, exactly

/// Row of a report by the first cell of the row.
Json rowOf(const Json& report, const std::string& key, const std::string& value) {
  for (const Json& row : report.at("rows")) {
    if (row.at(key) == value) return row;
  }
  FAIL("no row " << value);
  return {};
}

Json ask(const Bench& bench, const std::string& arguments) {
  return Json::parse(bench.flitch(arguments + " --json").out);
}

}  // namespace

// One board's whole life, its figures worked by hand. Inches; the board is 1 in thick, so a square
// inch of it is a cubic inch.
//   board      96 x 8                                                    768
//   billed     surface measure 8 in x 8 ft / 12 = 5.33: 5 bf at $6       $30
//   measured   96 x 8 / 144                                              5.333 bf
//   end trim   1 in off both ends, 2 x 8                                 16
//   blank      60 + 1 by 6 + 1/4: 61 x 6 1/4                             381.25
//   part       60 x 6 x 7/8                                              315
//   machining  381.25 - 315                                              66.25
//   The unsound knot near the tag end bars an offcut there and lets the blank pass beside it, so
//   the blank lies at the tag end and the offcut at the far end: 94 - 61 - 1/8 = 32 7/8 by 8.
//   offcut     32 7/8 x 8                                                263
//   kerf       61 x 1/8 twice (reference edge, rip) and 1/8 x 8          16.25
//   knot       2 x 1, on what is thrown away                             2
//   unusable   61 x (8 - 6 1/4 - 1/4) - 2                                89.5
//   together   315 + 66.25 + 16.25 + 16 + 2 + 89.5 + 263                 768
//   The offcut is counted without its reference edge, 32 7/8 x 7 7/8, and keeps 40 % of its share:
//   0.4 x $30 x 258.890625 / 768 = $4.04516..., cut off: $4.0451. The job takes $25.9549, which
//   falls on the other 505 in³ by volume.
TEST_CASE("one board's whole life, by the figures worked by hand", "[life]") {
  const Bench bench;
  bench.write("tally.csv",
              "species,quarters,length,width,thickness,price_per_bf,bay,looked\n"
              "cherry,4/4,8,8,1,6,B3,planed\n");
  bench.write("marks.csv",
              "tag,kind,face,x_from,x_to,y_from,y_to\nT0001-X,unsound knot,through,10,12,7,8\n");
  bench.write("parts.csv", "part,count,length,width,thickness,species\nshelf,1,60,6,7/8,cherry\n");

  ask(bench, "book create");
  const Json received = ask(bench, "receive tally.csv --supplier Yard --ref Q-1");
  CHECK(received["billed_thousandths"] == 5000);
  CHECK(received["measured_thousandths"] == 5333);
  CHECK(received["paid_tenthousandths"] == 300'000);
  CHECK(received["boards"][0]["tag"] == "T0001-X");
  const std::int64_t wood = received["boards"][0]["wood_mm3"];
  CHECK(wood == 12'585'265);  // 768 x 16 387.064 = 12 585 265.15

  CHECK(ask(bench, "mark marks.csv")["marks"] == 1);
  CHECK(ask(bench, "rack b3 unsound")["boards"].empty());
  CHECK(ask(bench, "rack b3 cherry")["boards"][0]["marks"].size() == 1);
  ask(bench, "job add Shelf parts.csv");

  const Json plan = ask(bench, "plan Shelf --seconds 2 --reserve");
  CHECK(plan["plan"]["wood_cost_tenthousandths"] == 259'549);
  CHECK(plan["plan"]["offcut_worth_tenthousandths"] == 40'451);
  CHECK(plan["plan"]["shorts"].empty());
  CHECK(plan["saved_on_hand_rule_tenthousandths"].get<std::int64_t>() >= 0);
  // End squared, offcut off, blank off, edge jointed; the fourth cut rips the blank free.
  const Json labels = ask(bench, "tag --job Shelf --pdf parts.pdf");
  CHECK(labels["pages"] == 1);
  REQUIRE(labels["labels"]["rows"].size() == 1);
  const Json label = labels["labels"]["rows"][0];
  CHECK(label["part"] == "shelf");
  CHECK(label["rough"] == "61 × 6 1/4 rough");
  CHECK(label["finished"] == "60 × 6 × 7/8");
  CHECK(label["next"] == "next: plane to 7/8");
  CHECK(label["from"] == "T0001-X cut 4");
  CHECK(plan["saved_on_careful_hand_tenthousandths"].get<std::int64_t>() >= 0);
  CHECK(ask(bench, "rack held")["boards"].size() == 1);

  CHECK(ask(bench, "tag T0001-X --pdf tag.pdf")["pages"] == 1);
  CHECK(bench.read("tag.pdf").rfind("%PDF", 0) == 0);

  // A number as written by hand is shown first, and taken when it is meant.
  CHECK(bench.flitch("saw T0001 --as-planned", 1).err ==
        "\"T0001\" has no check character; it would be T0001-X, cherry 4/4, 8' × 8, bay B3. "
        "Accepted: T0001-X, or the same with --sure.\n");
  const Json sawn = ask(bench, "saw T0001 --sure --as-planned --pdf offcut.pdf");
  CHECK(sawn["wood_cost_tenthousandths"] == 259'549);
  REQUIRE(sawn["offcuts"].size() == 1);
  const Json left = sawn["offcuts"][0];
  CHECK(left["tag"] == "T0002-V");
  CHECK(left["length_nm"] == 835'025'000);        // 32 7/8 in
  CHECK(left["width_at_tag_nm"] == 203'200'000);  // 8 in
  CHECK(left["cost_tenthousandths"] == 40'451);
  CHECK(left["measured_thousandths"] == 1826);  // 5.333 x 263 / 768
  CHECK(left["marks"].empty());
  CHECK(bench.read("offcut.pdf").rfind("%PDF", 0) == 0);

  const Json waste = ask(bench, "ledger waste --job Shelf")["report"];
  struct Cause {
    const char* name;
    double cubicInches;
  };
  std::int64_t volume = 0;
  std::int64_t money = 0;
  std::int64_t feet = 0;
  for (const Cause& cause :
       {Cause{"parts", 315}, Cause{"offcuts", 263}, Cause{"kerf", 16.25}, Cause{"end trim", 16},
        Cause{"defects", 2}, Cause{"machining", 66.25}, Cause{"unusable", 89.5}}) {
    INFO(cause.name);
    const Json row = rowOf(waste, "cause", cause.name);
    const std::int64_t taken = row["volume_mm3"];
    CHECK(std::abs(static_cast<double>(taken) - cause.cubicInches * cubicInch) <= 1.5);
    const std::int64_t cost = row["cost_tenthousandths"];
    const double expected =
        std::string(cause.name) == "offcuts" ? 40'451 : 259'549 * cause.cubicInches / 505;
    CHECK(std::abs(static_cast<double>(cost) - expected) <= 1);
    volume += taken;
    money += cost;
    feet += row["board_feet_thousandths"].get<std::int64_t>();
  }
  CHECK(volume == wood);
  CHECK(money == 300'000);
  CHECK(feet == 5333);
  CHECK(waste["totals"]["volume_mm3"] == wood);
  CHECK(waste["totals"]["cost_tenthousandths"] == 300'000);

  CHECK(rowOf(ask(bench, "ledger offcuts")["report"], "tag", "T0002-V")["parent"] == "T0001-X");
  CHECK(ask(bench, "ledger stock")["report"]["totals"]["value_tenthousandths"] == 40'451);
  CHECK(ask(bench, "book check")["sound"] == true);

  CHECK(ask(bench, "undo")["what"] == "sawn, 1 board of Shelf");
  const Json back = ask(bench, "rack")["boards"];
  REQUIRE(back.size() == 1);
  CHECK(back[0]["tag"] == "T0001-X");
  CHECK(back[0]["cost_tenthousandths"] == 300'000);
  CHECK(back[0]["wood_mm3"] == wood);
  CHECK(back[0]["reserved_for"] == "Shelf");
  CHECK(ask(bench, "ledger waste")["report"]["totals"]["volume_mm3"] == 0);
  CHECK(ask(bench, "book check")["sound"] == true);
}

TEST_CASE("the rack says what grade its boards look like, and why not") {
  const Bench bench;
  bench.write("tally.csv",
              "species,quarters,length,width,thickness,price_per_bf,grade,looked\n"
              "red oak,4/4,8,6,1,6,FAS,planed\n"
              "cherry,4/4,8,6,1,6,FAS,planed\n");
  ask(bench, "book create");
  ask(bench, "receive tally.csv --supplier Yard --ref Q-1");
  const std::string said = bench.flitch("rack --grade").out;
  CHECK(said.find("looks like about FAS; paid as FAS") != std::string::npos);
  CHECK(said.find("no estimate: the grading rules make exceptions for cherry") !=
        std::string::npos);
  CHECK(said.find("a licensed inspector decides") != std::string::npos);
  CHECK(bench.flitch("rack").out.find("looks like") == std::string::npos);
}
