// The demo's map chest from the deliveries to its last cut, as a maker runs it: boards fetched by
// their codes, sawn one by one, some otherwise than planned, one part spoiled since.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>

#include "tests/acceptance/program.h"

using flitch::acceptance::Bench;
using flitch::acceptance::Ran;
using Json = nlohmann::json;

namespace {

class DemoRun {
 public:
  explicit DemoRun(const Bench& bench) : bench_(bench) {}

  /// Parts may be short on the way: exit codes 0 and 3.
  Json ask(const std::string& arguments) {
    const Ran ran = bench_.shell("flitch " + arguments + " --json");
    INFO(arguments << "\n" << ran.err);
    REQUIRE((ran.exitCode == 0 || ran.exitCode == 3));
    return Json::parse(ran.out);
  }

  void makeBook() {
    ask("book create --name Wendlehaven");
    const std::string demo = std::string(FLITCHBOOK_SOURCE) + "/tools/demo/";
    for (const auto& [file, supplier] : {std::pair{"1-opening.csv", "Opening stock"},
                                         std::pair{"2-quillmere.csv", "Quillmere Sawyers"},
                                         std::pair{"3-hobbs-reach.csv", "Hobbs Reach Timber"},
                                         std::pair{"4-vannerlo.csv", "Vannerlo Hardwoods"}}) {
      const Json received =
          ask("receive '" + demo + file + "' --supplier '" + supplier + "' --on 2026-05-31");
      paid += received.at("paid_tenthousandths").get<std::int64_t>();
    }
    ask("mark '" + demo + "marks.csv'");
    ask("job add 'Map chest' '" + demo + "map-chest.csv'");
    ask("bin 'Cherry shorts' --species cherry");
    ask("bin 'Ash shorts' --species ash");
    ask("bin 'Oak shorts' --species 'white oak'");
  }

  [[nodiscard]] Json toFetch() { return ask("saw --pull 'Map chest'").at("pull").at("rows"); }

  /// Records a board; `how` stands behind its tag.
  Json saw(const std::string& tag, const std::string& how) {
    Json sawn = ask("saw " + tag + " " + how);
    woodCost += sawn.at("wood_cost_tenthousandths").get<std::int64_t>();
    for (const Json& offcut : sawn.at("offcuts")) offcuts.insert(offcut.at("tag"));
    ++boards;
    return sawn;
  }

  const Bench& bench_;
  std::int64_t paid = 0, woodCost = 0;
  int boards = 0;
  std::set<std::string> offcuts;
};

Json rowOf(const Json& report, const std::string& key, const std::string& value) {
  for (const Json& row : report.at("rows")) {
    if (row.at(key) == value) return row;
  }
  return Json::object();
}

}  // namespace

TEST_CASE("the demo job from delivery to its last cut, with surprises on the way") {
  const Bench bench;
  DemoRun run(bench);
  run.makeBook();
  run.ask("plan 'Map chest' --seconds 2 --reserve");

  // Fetched by code; one that is not wanted is refused with the bay of one that is.
  Json list = run.toFetch();
  REQUIRE(list.size() > 6);
  std::string codes;
  std::set<std::string> wanted;
  for (const Json& row : list) {
    codes += " --scanned " + row.at("tag").get<std::string>();
    wanted.insert(row.at("tag"));
  }
  for (const Json& board : run.ask("rack").at("boards")) {
    if (wanted.count(board.at("tag")) > 0) continue;
    const Ran wrong = bench.shell("flitch saw --pull 'Map chest' --scanned " +
                                  board.at("tag").get<std::string>());
    CHECK(wrong.exitCode == 1);
    CHECK(wrong.err.find("is not wanted for Map chest") != std::string::npos);
    CHECK(wrong.err.find("bay ") != std::string::npos);
    break;
  }
  CHECK(run.ask("saw --pull 'Map chest'" + codes).at("left") == 0);

  // A knot before the first cut: nothing sawn is touched, few others are.
  const Json around = run.ask("saw " + list[0].at("tag").get<std::string>() + " --knot 30-33");
  CHECK(around.at("boards_that_stay").get<std::size_t>() + 4 >= list.size());

  std::string spoiled;
  int step = 0;
  constexpr int most = 100;
  for (list = run.toFetch(); !list.empty() && step < most; list = run.toFetch(), ++step) {
    const std::string tag = list[0].at("tag");
    INFO("board " << step << ", " << tag);
    // A board that changed, or whose blanks are made, waits for the plan around it.
    if (!list[0].at("trouble").get<std::string>().empty()) {
      run.ask("saw --job 'Map chest' --replan");
      continue;
    }
    switch (step) {
      case 0: {
        const Json sawn = run.saw(tag, "--as-planned --bin");
        const std::string blanks = sawn.at("sawn").at("rows")[0].at("blanks");
        spoiled = blanks.substr(0, blanks.find(' '));
        break;
      }
      case 1: run.saw(tag, "--otherwise 'keep none'"); break;
      case 2: run.saw(tag, "--otherwise 'bin, knot 20-22'"); break;
      case 3:
        run.saw(tag, "--as-planned");
        run.ask("saw --job 'Map chest' --spoiled " + spoiled + " --why 'tear-out at the planer'");
        run.ask("saw --job 'Map chest' --replan");
        break;
      default: run.saw(tag, "--as-planned"); break;
    }
  }
  CHECK(run.toFetch().empty());
  CHECK(run.boards > 6);

  // What was paid lies on the rack or went into the job, to the last unit.
  const Json stock = run.ask("ledger stock").at("report").at("totals");
  CHECK(run.paid == stock.at("value_tenthousandths").get<std::int64_t>() + run.woodCost);
  // The boards sawn are where their wood went, cause by cause.
  const Json waste = run.ask("ledger waste").at("report");
  std::int64_t volume = 0, cost = 0, feet = 0;
  for (const Json& row : waste.at("rows")) {
    volume += row.at("volume_mm3").get<std::int64_t>();
    cost += row.at("cost_tenthousandths").get<std::int64_t>();
    feet += row.at("board_feet_thousandths").get<std::int64_t>();
  }
  CHECK(volume == waste.at("totals").at("volume_mm3"));
  CHECK(cost == waste.at("totals").at("cost_tenthousandths"));
  CHECK(feet == waste.at("totals").at("board_feet_thousandths"));
  CHECK(rowOf(waste, "cause", "spoiled").at("volume_mm3").get<std::int64_t>() > 0);
  const std::int64_t kept =
      rowOf(waste, "cause", "offcuts").at("cost_tenthousandths").get<std::int64_t>();
  CHECK(cost - kept == run.woodCost);
  CHECK(run.ask("ledger yield --by board --job 'Map chest'").at("report").at("rows").size() > 6);
  CHECK(run.ask("ledger passport 'Map chest' " + spoiled).contains("report"));
  CHECK(bench.flitch("book check").out.find("The book is sound") == 0);

  // The last cut is taken back, and what it gave with it.
  run.ask("undo");
  CHECK(run.toFetch().size() == 1);
  CHECK(bench.flitch("book check").out.find("The book is sound") == 0);
}
