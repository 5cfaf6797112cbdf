// Parts that come from one log, one board or a row of sisters together.
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

using Ids = std::vector<std::int64_t>;

Board ofLog(std::int64_t id, const std::string& log, int place, Length length, std::int64_t cost) {
  Board board = plank(id, length, in(4, 48), in(4, 48), Money::units(cost));
  board.log = log;
  board.placeInLog = place;
  return board;
}

/// Two stiles and a rail, 30 x 4: blanks of 31 in, one out of a board of 35 in, three out of one of
/// 100 in. Log a has two cheap boards, b one, c three dear; a single board is dearer than all.
PlanRequest frameOf(WoodFrom from) {
  PlanRequest request;
  request.shop = startingProfile();
  request.job.name = "door";
  request.job.parts = {part(1, 2, in(30), in(4)), part(2, 1, in(30), in(4))};
  for (Part& p : request.job.parts) {
    p.thickness = in(0, 48);
    p.recipe = "solid";
    p.woodFrom = from;
    if (from != WoodFrom::anyBoards) p.group = "frame";
  }
  request.boards = {ofLog(1, "a", 1, in(35), 10), ofLog(2, "a", 2, in(35), 10),
                    ofLog(3, "b", 1, in(35), 10), ofLog(4, "c", 1, in(35), 14),
                    ofLog(5, "c", 2, in(35), 14), ofLog(6, "c", 4, in(35), 14),
                    ofLog(7, "", 0, in(100), 70)};
  return request;
}

Ids opened(const CutPlan& plan) {
  Ids boards;
  for (const Cutting& c : plan.cuttings) boards.push_back(c.board.value);
  return boards;
}

bool mixed(const CutPlan& plan, const PlanRequest& request) {
  const std::vector<Fault> faults = check(plan, request);
  return std::any_of(faults.begin(), faults.end(),
                     [](const Fault& f) { return f.kind == FaultKind::mixedWood; });
}

/// To the cent: the prices that prove it are whole numbers.
bool proven(const CutPlan& plan) { return plan.total() - plan.bound < Money::tenThousandths(100); }

bool said(const PlanResult& result, const std::string& sentence) {
  return std::find(result.notes.begin(), result.notes.end(), sentence) != result.notes.end();
}

}  // namespace

TEST_CASE("sets of boards that go together") {
  const std::vector<Board> boards = frameOf(WoodFrom::anyBoards).boards;
  const auto sets = [&](WoodFrom from) { return sourcesOf(boards, from); };
  using Sets = std::set<std::set<BoardId>>;
  CHECK(sets(WoodFrom::anyBoards) == Sets{{{1}, {2}, {3}, {4}, {5}, {6}, {7}}});
  CHECK(sets(WoodFrom::oneBoard).size() == 7);
  CHECK(sets(WoodFrom::oneLog) == Sets{{{1}, {2}}, {{3}}, {{4}, {5}, {6}}, {{7}}});
  CHECK(sets(WoodFrom::sisters) == Sets{{{1}, {2}}, {{3}}, {{4}, {5}}, {{6}}, {{7}}});

  // Two deliveries have a log a each; an offcut that knows the name alone goes with either.
  std::vector<Board> two = {boards[0], boards[1], boards[1], boards[1]};
  for (std::size_t b = 0; b < two.size(); ++b) two[b].id = {static_cast<std::int64_t>(b) + 1};
  two[0].delivery = {1};
  two[1].delivery = {2};
  two[3].delivery = {2};
  CHECK(sourcesOf(two, WoodFrom::oneLog) == Sets{{{1}, {3}}, {{2}, {3}, {4}}});
  // Boards of one place in a log are neighbours too; one of no place goes with none.
  CHECK(sourcesOf(two, WoodFrom::sisters) == Sets{{{1}, {3}}, {{2}, {3}, {4}}});
  two[2].placeInLog = 0;
  CHECK(sourcesOf(two, WoodFrom::sisters) == Sets{{{1}}, {{2}, {4}}, {{3}}});
}

TEST_CASE("a frame of any boards, one log, one board and sisters, worked by hand") {
  const PlanResult any = makePlan(frameOf(WoodFrom::anyBoards), brief());
  CHECK(opened(any.plan) == Ids{1, 2, 3});
  const PlanRequest ofOneLog = frameOf(WoodFrom::oneLog);
  const PlanResult log = makePlan(ofOneLog, brief());
  CHECK(opened(log.plan) == Ids{4, 5, 6});
  // Three boards pulled, squared and cut alike: all it costs more is 3 x $4 of wood.
  CHECK(log.plan.total() - any.plan.total() == Money::units(12));
  CHECK(proven(log.plan));
  CHECK(log.plan.shorts.empty());
  CHECK(listed(check(log.plan, ofOneLog)).empty());
  CHECK(mixed(any.plan, ofOneLog));
  CHECK(opened(makePlan(frameOf(WoodFrom::oneBoard), brief()).plan) == Ids{7});

  // Board 6 is no neighbour of 4 and 5, until the one between them is bought back.
  PlanRequest sisters = frameOf(WoodFrom::sisters);
  CHECK(mixed(log.plan, sisters));
  CHECK(opened(makePlan(sisters, brief()).plan) == Ids{7});
  sisters.boards[5].placeInLog = 3;
  const PlanResult row = makePlan(sisters, brief());
  CHECK(opened(row.plan) == Ids{4, 5, 6});
  CHECK_FALSE(mixed(log.plan, sisters));
  CHECK(proven(row.plan));
}

TEST_CASE("a group that no log holds is short as a whole, and why is said") {
  PlanRequest request = frameOf(WoodFrom::oneLog);
  request.boards.resize(5);
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.cuttings.empty());
  REQUIRE(result.plan.shorts.size() == 2);
  CHECK(result.plan.shorts[0].copies == 2);
  CHECK(result.plan.shorts[1].copies == 1);
  CHECK(result.plan.shorts[0].reason == "not all of the group frame can come from one log");
  CHECK(proven(result.plan));
  CHECK(listed(check(result.plan, request)).empty());
}

TEST_CASE("a group beside parts of no group, with spares, set-up pieces and glued panels") {
  PlanRequest request = frameOf(WoodFrom::oneLog);
  request.job.parts[1].setUps = 1;  // of any wood
  request.job.parts.push_back(part(3, 1, in(30), in(8)));
  Part& panel = request.job.parts[2];
  panel.thickness = in(0, 48);
  panel.recipe = "glued";
  panel.stavesFrom = in(4);
  panel.stavesTo = in(4, 48);
  panel.woodFrom = WoodFrom::oneLog;
  panel.group = "frame";
  // Three blanks, and of the panel's 8 1/2 in two staves of 4 1/4 + 1/8: five boards.
  for (const std::int64_t id : {8, 9}) request.boards.push_back(ofLog(id, "c", 5, in(35), 14));
  request.shop.planerWidth = in(20);
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  CHECK(listed(check(result.plan, request)).empty());
  const Ids boards = opened(result.plan);
  REQUIRE(boards.size() == 6);
  CHECK(boards[0] <= 3);  // the set-up piece, of the cheapest
  CHECK(Ids(boards.begin() + 1, boards.end()) == Ids{4, 5, 6, 8, 9});
  CHECK(proven(result.plan));
  // Its set-up piece is told apart, and locked with the rest it stands in nobody's way.
  CHECK(said(result,
             "Group frame (A, B, C): all from one log, T0004-R, T0005-P, T0006-N, T0008-J, "
             "T0009-H."));
  PlanRequest locked = request;
  for (const Cutting& cutting : result.plan.cuttings)
    locked.choices.locks.push_back({cutting, true});
  const PlanResult again = makePlan(locked, brief());
  CHECK(again.plan.shorts.empty());
  CHECK(opened(again.plan) == boards);
}

TEST_CASE("of a group several recipes are weighed") {
  PlanRequest request = frameOf(WoodFrom::oneLog);
  for (Part& p : request.job.parts) p.recipe = "glued|solid";
  const PlanResult result = makePlan(request, brief());
  CHECK(opened(result.plan) == Ids{4, 5, 6});
  CHECK(proven(result.plan));
}

TEST_CASE("a group is told with its boards, and locks decide where it comes from") {
  PlanRequest request = frameOf(WoodFrom::oneLog);
  for (const std::int64_t id : {8, 9, 10})
    request.boards.push_back(ofLog(id, "d", static_cast<int>(id), in(35), 40));
  PlanRequest dear = request;
  dear.choices.keptOut = {{4}, {5}, {6}, {7}};
  const PlanResult liked = makePlan(dear, brief());
  REQUIRE(opened(liked.plan) == Ids{8, 9, 10});
  CHECK(said(liked, "Group frame (A, B): all from one log, T0008-J, T0009-H, T0010-V."));
  request.choices.locks = {{liked.plan.cuttings[0], true}};
  const PlanResult rest = makePlan(request, brief());
  CHECK(rest.plan.shorts.empty());
  CHECK(opened(rest.plan) == Ids{8, 9, 10});

  // Blanks of it locked on boards of two logs can be no group.
  const PlanResult other = makePlan(frameOf(WoodFrom::oneLog), brief());
  request.choices.locks.push_back({other.plan.cuttings[0], true});
  CHECK_THROWS_AS(makePlan(request, brief()), Refusal);
}

TEST_CASE("a blank of a group laid by hand decides where the rest comes from") {
  PlanRequest request = frameOf(WoodFrom::oneLog);
  request.boards.push_back(ofLog(8, "a", 3, in(100), 90));
  LaidByHand laid;
  laid.line = 1;
  laid.board = {1};
  const PlanResult any = makePlan(frameOf(WoodFrom::anyBoards), brief());
  for (const Piece& piece : any.plan.cuttings[0].pieces)
    if (piece.kind == PieceKind::blank) laid.at = piece.at;
  request.choices.laid = {laid};
  const PlanResult result = makePlan(request, brief());
  CHECK(result.plan.shorts.empty());
  CHECK(listed(check(result.plan, request)).empty());
  const Ids boards = opened(result.plan);
  CHECK(std::find(boards.begin(), boards.end(), 1) != boards.end());
  CHECK(std::all_of(boards.begin(), boards.end(), [](auto id) { return id <= 2 || id == 8; }));
}

TEST_CASE("made-up shops: groups hold, and no bound is above a plan") {
  std::size_t several = 0, whole = 0;
  for (unsigned seed = 4100; seed < 4114; ++seed) {
    bench::RandomShop shop(seed);
    PlanRequest request = shop.everyRecipe(8 + shop.dice(8), 2 + shop.dice(3));
    for (Board& b : request.boards) {
      b.log = std::string(1, static_cast<char>('a' + shop.dice(2)));
      b.placeInLog = shop.dice(4);
    }
    const auto from = static_cast<WoodFrom>(1 + shop.dice(3));
    for (Part& p : request.job.parts) {
      p.copies = 1 + shop.dice(4);
      p.species = {"cherry"};
      if (shop.dice(3) == 0) continue;
      p.group = "made up";
      p.woodFrom = from;
    }
    INFO("seed " << seed);
    const PlanResult result = makePlan(request, bench::first());
    CHECK(listed(check(result.plan, request)).empty());
    CHECK(result.plan.bound <= result.plan.total());
    // Told again from the cuttings, apart from the checker.
    std::set<std::int64_t> boards;
    std::set<std::string> logs;
    std::set<int> places;
    for (const Cutting& c : result.plan.cuttings) {
      const auto board = std::find_if(request.boards.begin(), request.boards.end(),
                                      [&](const Board& b) { return b.id == c.board; });
      for (const Piece& piece : c.pieces) {
        if (piece.kind != PieceKind::blank) continue;
        const Part& p = request.job.parts[static_cast<std::size_t>(piece.line) - 1];
        if (p.group.empty() || p.setUps > 0) continue;
        boards.insert(c.board.value);
        logs.insert(board->log);
        places.insert(board->placeInLog);
      }
    }
    if (boards.empty()) continue;
    ++whole;
    if (boards.size() > 1) ++several;
    CHECK((boards.size() == 1 || from != WoodFrom::oneBoard));
    CHECK(logs.size() == 1);
    if (from == WoodFrom::sisters && boards.size() > 1) CHECK(*places.begin() > 0);
    // All of it or none.
    for (const ShortPart& s : result.plan.shorts) {
      const Part& p = request.job.parts[static_cast<std::size_t>(s.line) - 1];
      CHECK((p.group.empty() || p.setUps > 0));
    }
  }
  CHECK(whole > 2);
  CHECK(several > 0);
}
