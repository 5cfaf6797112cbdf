#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <set>

#include "inventory/planning/planner.h"
#include "inventory/records/recipe.h"
#include "tests/planning/random_shop.h"

using namespace flitch;
using namespace flitch::planning;
using bench::brief;
using bench::in;
using bench::listed;
using bench::part;
using bench::plank;

namespace {

Board ofLog(std::int64_t id, const std::string& log, Length length, std::int64_t cost) {
  Board board = plank(id, length, in(4, 48), in(4, 48), Money::units(cost));
  board.log = log;
  return board;
}

/// A panel 30 x 12: to fill 12 1/2, three staves of 4.167 + 1/8 joint, sawn 4 3/8; 31 in long. A
/// board of 35 in gives one, one of 100 in three. Log a has two cheap boards, b one, c three dear.
PlanRequest panel(WoodFrom from) {
  PlanRequest request;
  request.shop = startingProfile();
  request.shop.planerWidth = in(20);
  request.job.name = "box";
  request.job.parts = {part(1, 1, in(30), in(12))};
  Part& p = request.job.parts[0];
  p.thickness = in(0, 48);
  p.recipe = "glued";
  p.stavesFrom = in(4);
  p.stavesTo = in(4, 32);
  p.woodFrom = from;
  request.boards = {ofLog(1, "a", in(35), 10), ofLog(2, "a", in(35), 10), ofLog(3, "b", in(35), 10),
                    ofLog(4, "c", in(35), 14), ofLog(5, "c", in(35), 14), ofLog(6, "c", in(35), 14),
                    ofLog(7, "", in(100), 70)};
  return request;
}

std::vector<std::int64_t> opened(const CutPlan& plan) {
  std::vector<std::int64_t> boards;
  for (const Cutting& c : plan.cuttings) boards.push_back(c.board.value);
  return boards;
}

bool mixed(const CutPlan& plan, const PlanRequest& request) {
  const std::vector<Fault> faults = check(plan, request);
  return std::any_of(faults.begin(), faults.end(),
                     [](const Fault& f) { return f.kind == FaultKind::mixedWood; });
}

}  // namespace

TEST_CASE("a panel of any boards, of one log and of one board, worked by hand") {
  const PlanResult any = makePlan(panel(WoodFrom::anyBoards), brief());
  CHECK(opened(any.plan) == std::vector<std::int64_t>{1, 2, 3});
  const PlanRequest ofOneLog = panel(WoodFrom::oneLog);
  const PlanResult log = makePlan(ofOneLog, brief());
  CHECK(opened(log.plan) == std::vector<std::int64_t>{4, 5, 6});
  // Three boards pulled, squared and cut alike: all it costs more is 3 x $4 of wood.
  CHECK(log.plan.total() - any.plan.total() == Money::units(12));
  CHECK(log.plan.bound == log.plan.total());
  CHECK(mixed(any.plan, ofOneLog));
  const PlanResult board = makePlan(panel(WoodFrom::oneBoard), brief());
  CHECK(opened(board.plan) == std::vector<std::int64_t>{7});
  CHECK(mixed(log.plan, panel(WoodFrom::oneBoard)));
}

TEST_CASE("logs of the same name in two deliveries are two, an offcut goes with either") {
  PlanRequest request = panel(WoodFrom::oneLog);
  for (Board& b : request.boards) b.delivery = {1};
  request.boards[5].delivery = {2};
  CHECK(opened(makePlan(request, brief()).plan) == std::vector<std::int64_t>{7});
  request.boards[5].delivery = {};
  CHECK(opened(makePlan(request, brief()).plan) == std::vector<std::int64_t>{4, 5, 6});
}

TEST_CASE("where no log is enough the panel is short, and why is said") {
  PlanRequest request = panel(WoodFrom::oneLog);
  request.boards.pop_back();
  request.boards.pop_back();
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.cuttings.empty());
  REQUIRE(result.plan.shorts.size() == 1);
  CHECK(result.plan.shorts[0].reason == "not all of it can come from one log");
}

TEST_CASE("a locked stave decides the log of its panel") {
  PlanRequest request = panel(WoodFrom::oneLog);
  request.boards.push_back(ofLog(8, "d", in(35), 40));
  request.boards.push_back(ofLog(9, "d", in(35), 40));
  request.boards.push_back(ofLog(10, "d", in(35), 40));
  PlanRequest dear = request;
  dear.choices.keptOut = {{4}, {5}, {6}, {7}};
  const PlanResult liked = makePlan(dear, brief());
  REQUIRE(opened(liked.plan) == std::vector<std::int64_t>{8, 9, 10});
  request.choices.locks = {{liked.plan.cuttings[0], true}};
  const PlanResult rest = makePlan(request, brief());
  CHECK(rest.plan.shorts.empty());
  CHECK(opened(rest.plan) == std::vector<std::int64_t>{8, 9, 10});
}

TEST_CASE("laminae and loose boards of one log") {
  PlanRequest request = panel(WoodFrom::oneLog);
  Part& p = request.job.parts[0];
  SECTION("three laminae") {
    p.recipe = "laminated";
    p.width = in(3);
    p.thickness = in(2);
  }
  SECTION("loose boards") { p.recipe = "random widths"; }
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  CHECK(opened(result.plan) == std::vector<std::int64_t>{4, 5, 6});
}

TEST_CASE("made-up shops: each panel of one log or one board where it is asked for") {
  std::size_t several = 0;
  for (unsigned seed = 700; seed < 730; ++seed) {
    bench::RandomShop shop(seed);
    PlanRequest request = shop.request(4 + shop.dice(6), 1 + shop.dice(4));
    request.made.clear();
    for (Board& b : request.boards) b.log = std::string(1, static_cast<char>('a' + shop.dice(3)));
    for (Part& p : request.job.parts) p.woodFrom = static_cast<WoodFrom>(shop.dice(3));
    INFO("seed " << seed);
    if (frame(request).problem.needs.empty()) continue;
    const PlanResult result = makePlan(request, bench::first());
    CHECK(listed(check(result.plan, request)).empty());
    // Told again from the cuttings, apart from the checker.
    std::map<std::pair<int, int>, std::set<std::string>> logs;
    for (const Cutting& c : result.plan.cuttings) {
      const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                      [&](const Board& b) { return b.id == c.board; });
      for (const Layup& l : c.layups) {
        const int line = c.pieces[static_cast<std::size_t>(l.piece)].line;
        const Part& p = request.job.parts[static_cast<std::size_t>(line) - 1];
        if (p.woodFrom == WoodFrom::anyBoards) continue;
        const bool one = p.woodFrom == WoodFrom::oneBoard;
        logs[{line, l.copy}].insert(one ? std::to_string(c.board.value) : board->log);
        ++several;
      }
    }
    for (const auto& [copy, sources] : logs) CHECK(sources.size() == 1);
  }
  CHECK(several > 10);
}
