// Surprises at the saw: what is recorded balances, and what is left is planned again around it.
#include "inventory/desk/replan.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/as_sawn.h"
#include "inventory/desk/proof.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/saw_paper.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::part;
using sample::plank;

namespace {

/// Two planks of 96 x 3 1/4 in and three shorts of 34 in. A is 61 in long as sawn, B 31 in: one
/// plank gives A and one B, the other two or three B.
struct Bench {
  sample::Shop shop;
  std::vector<Board> boards;
  JobId job;

  Bench() {
    std::vector<TallyLine> lines(2, plank(in(96), in(3, 16)));
    lines.resize(5, plank(in(34), in(3, 16)));
    for (std::size_t i = 2; i < 5; ++i) lines[i].price = Money::units(60);
    boards = shop.receive(lines).boards;
    Job made;
    made.name = "shelf";
    made.parts = {part(1, 1, in(60), in(2, 32)), part(2, 3, in(30), in(2, 32))};
    job = addJob(shop.book, made, shop.hand);
    plan();
  }
  void plan() {
    optimizer::Limits limits;
    limits.seconds = 0.5;
    keep(shop.book, planning::makePlan(request(shop.book, job, {}), limits), true, shop.hand);
  }
  [[nodiscard]] CutPlan newest() const { return shop.now().newestPlan(job)->plan; }
  [[nodiscard]] const Cutting& cuttingWith(const CutPlan& plan, int line) const {
    return *std::find_if(plan.cuttings.begin(), plan.cuttings.end(), [line](const Cutting& c) {
      return std::any_of(c.pieces.begin(), c.pieces.end(), [line](const Piece& p) {
        return p.kind == PieceKind::blank && p.line == line;
      });
    });
  }
  Replanned again() {
    Replanned made = replanned(shop.book, job, 0.9);
    keep(shop.book, made.result, made.reserved, shop.hand);
    return made;
  }
  void mark(BoardId id, Length from, Length to) {
    Board board = shop.now().board(id).value();
    board.defects.push_back(
        {"unsound knot", DefectFace::through, {from, Length(), to - from, in(4)}});
    board.defects.back().where.dy = boundsOf(board).dy;
    survey(shop.book, board, shop.hand);
  }
  [[nodiscard]] bool sound() const { return shop.faults().empty() && prove(shop.book).empty(); }
  template <class Work>
  std::string code(Work work) {
    try {
      work();
      return "";
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
  }
  /// What was cut short, and the offcuts kept where they are not as planned.
  struct Said {
    std::vector<CutShort> cutShort;
    std::optional<std::vector<OffcutSize>> offcuts;
  };
  Sawn saw(BoardId planned, const Said& said) {
    Deviation deviation;
    deviation.cutShort = said.cutShort;
    deviation.offcuts = said.offcuts;
    return desk::saw(shop.book, job, {{planned, {}, deviation, {}}}, shop.hand);
  }
};

std::size_t offcutsIn(const Cutting& cutting) {
  return static_cast<std::size_t>(
      std::count_if(cutting.pieces.begin(), cutting.pieces.end(),
                    [](const Piece& p) { return p.kind == PieceKind::offcut; }));
}

}  // namespace

TEST_CASE("a job in which nothing happened is planned again as it was") {
  Bench bench;
  const CutPlan before = bench.newest();
  REQUIRE(before.shorts.empty());
  REQUIRE(before.cuttings.size() == 2);
  const Replanned same = bench.again();
  CHECK(same.count(Fate::stays) == 2);
  CHECK(same.changes.size() == 2);
  CHECK(same.freed == 0);
  CHECK(bench.newest().cuttings == before.cuttings);
  CHECK(changesText(same) == "2 boards stay as planned.");
}

TEST_CASE("a knot in waste changes nothing and the board can be sawn") {
  Bench bench;
  const CutPlan before = bench.newest();
  bench.mark(before.cuttings[0].board, in(0), in(0, 32));
  CHECK(bench.code([&] {
    sawAsPlanned(bench.shop.book, bench.job, {before.cuttings[0].board}, bench.shop.hand);
  }) == "stale");
  CHECK(bench.again().count(Fate::stays) == 2);
  CHECK(bench.newest().cuttings == before.cuttings);
  sawAsPlanned(bench.shop.book, bench.job, {}, bench.shop.hand);
  CHECK(bench.sound());
}

TEST_CASE("a knot where only another plank can take the part frees that one and no more") {
  Bench bench;
  const CutPlan before = bench.newest();
  const BoardId knotty = bench.cuttingWith(before, 1).board;
  bench.mark(knotty, in(46), in(48));
  const Replanned again = bench.again();
  CHECK(again.result.plan.shorts.empty());
  CHECK(again.freed == 1);
  CHECK(again.seconds < 1);
  CHECK(bench.cuttingWith(again.result.plan, 1).board != knotty);
  // Boards named as they change, row by row.
  const Table table = changesTable(again);
  CHECK(table.rows.size() ==
        again.changes.size() - static_cast<std::size_t>(again.count(Fate::stays)));
  CHECK(bench.sound());
}

TEST_CASE("a blank lost at the saw is planned on free wood, sawn boards and the rest untouched") {
  Bench bench;
  const CutPlan before = bench.newest();
  const Cutting& cutting = bench.cuttingWith(before, 2);
  const BoardId first = cutting.board;
  sawAsPlanned(bench.shop.book, bench.job, {first}, bench.shop.hand,
               {{marksOf(cutting).back()}, "a shake"});
  const Replanned again = bench.again();
  CHECK(again.result.plan.shorts.empty());
  CHECK(again.count(Fate::otherwise) == 0);
  CHECK(again.count(Fate::added) + again.count(Fate::stays) ==
        static_cast<int>(again.changes.size()));
  for (const Cutting& other : again.result.plan.cuttings) CHECK(other.board != first);
  CHECK(bench.sound());
}

TEST_CASE("what the maker locked by eye is never freed") {
  Bench bench;
  const CutPlan before = bench.newest();
  const BoardId knotty = bench.cuttingWith(before, 1).board;
  PlanRequest request = desk::request(bench.shop.book, bench.job, {});
  for (const Cutting& cutting : before.cuttings) {
    if (cutting.board != knotty) request.choices.locks.push_back({cutting});
  }
  optimizer::Limits limits;
  limits.seconds = 0.3;
  keep(bench.shop.book, planning::makePlan(request, limits), false, bench.shop.hand);
  bench.mark(knotty, in(46), in(48));
  const Replanned again = bench.again();
  CHECK(again.freed == 0);
  REQUIRE(again.result.plan.shorts.size() == 1);
  CHECK(again.result.plan.shorts[0].line == 1);
  CHECK(bench.newest().choices.locks == again.result.plan.choices.locks);
}

TEST_CASE("a blank cut short balances, is wanted again, and its wood is an offcut") {
  Bench bench;
  const BoardId board = bench.cuttingWith(bench.newest(), 1).board;
  CHECK(bench.code([&] { bench.saw(board, {{{"A1", in(61)}}, {}}); }) == "not-short");
  CHECK(bench.code([&] { bench.saw(board, {{{"C1", in(20)}}, {}}); }) == "no-such-blank");
  const std::size_t planned = offcutsIn(bench.cuttingWith(bench.newest(), 1));
  const Sawn sawn = bench.saw(board, {{{"A1", in(59, 32)}}, {}});
  CHECK(bench.shop.now().made(bench.job).count(1) == 0);
  // A is 2 3/4 in wide as sawn, less than the 3 in the shop keeps.
  CHECK(sawn.offcuts.size() == planned);
  CHECK(bench.sound());
  const Replanned again = bench.again();
  CHECK(again.result.plan.shorts.empty());
  CHECK(bench.sound());
  undo(bench.shop.book, bench.shop.hand);
  undo(bench.shop.book, bench.shop.hand);
  CHECK(bench.shop.now().board(board)->onRack());
  CHECK(bench.sound());
}

TEST_CASE("an offcut of another size lies inside the remainder or is refused") {
  Bench other;
  const CutPlan plan = other.newest();
  const auto wide = std::find_if(plan.cuttings.begin(), plan.cuttings.end(),
                                 [](const Cutting& c) { return offcutsIn(c) > 0; });
  REQUIRE(wide != plan.cuttings.end());
  const auto offcut = std::find_if(wide->pieces.begin(), wide->pieces.end(),
                                   [](const Piece& p) { return p.kind == PieceKind::offcut; });
  const Rect at = offcut->at;
  CHECK(other.code([&] { other.saw(wide->board, {{}, {{{at.dx + in(8), at.dy}}}}); }) == "no-room");
  SECTION("shorter and narrower") {
    const Sawn sawn = other.saw(wide->board, {{}, {{{at.dx - in(2, 3), at.dy - in(0, 1)}}}});
    REQUIRE(sawn.offcuts.size() == 1);
    CHECK(boundsOf(sawn.offcuts[0]).dx == at.dx - in(2, 3));
    CHECK(boundsOf(sawn.offcuts[0]).dy == at.dy - in(0, 1));
  }
  SECTION("none kept") {
    CHECK(other.saw(wide->board, {{}, std::vector<OffcutSize>{}}).offcuts.empty());
  }
  CHECK(other.sound());
}

TEST_CASE("another board sawn in place of the planned one") {
  Bench bench;
  const CutPlan plan = bench.newest();
  const BoardId planned = bench.cuttingWith(plan, 1).board;
  const std::vector<TallyLine> lines{plank(in(120), in(5))};
  const BoardId taken = bench.shop.receive(lines).boards[0].id;
  const auto instead = [&](BoardId board) {
    desk::saw(bench.shop.book, bench.job, {{planned, board, {}, {}}}, bench.shop.hand);
  };
  CHECK(bench.code([&] { instead(bench.boards[4].id); }) == "too-small");
  instead(taken);
  CHECK(bench.shop.now().made(bench.job).at(1) == std::set<int>{1});
  CHECK(bench.shop.now().board(planned)->onRack());
  CHECK_FALSE(bench.shop.now().board(taken)->onRack());
  CHECK(bench.code([&] { sawAsPlanned(bench.shop.book, bench.job, {planned}, bench.shop.hand); }) ==
        "made-already");
  const Replanned again = bench.again();
  CHECK(again.result.plan.shorts.empty());
  CHECK(std::none_of(again.result.plan.cuttings.begin(), again.result.plan.cuttings.end(),
                     [&](const Cutting& c) { return c.board == planned; }));
  CHECK(bench.sound());
}

TEST_CASE("a panel of which any staves are sawn lets the rest stand as it was planned") {
  // A panel 10 in wide from four planks too narrow for it: a stave of each, and the trim on one.
  sample::Shop shop;
  shop.receive(std::vector<TallyLine>(4, plank(in(44), in(3, 32))));
  Job made;
  made.name = "top";
  made.parts = {part(1, 1, in(40), in(10))};
  made.parts[0].recipe = "glued";
  const JobId job = addJob(shop.book, made, shop.hand);
  optimizer::Limits limits;
  limits.seconds = 0.5;
  const planning::PlanResult whole = planning::makePlan(request(shop.book, job, {}), limits);
  REQUIRE(whole.plan.shorts.empty());
  REQUIRE(whole.plan.cuttings.size() > 2);
  keep(shop.book, whole, true, shop.hand);
  for (const Cutting& first : whole.plan.cuttings) {
    sawAsPlanned(shop.book, job, {first.board}, shop.hand);
    const Replanned rest = replanned(shop.book, job, 0.9);
    CHECK(rest.result.plan.shorts.empty());
    CHECK(rest.count(Fate::stays) == static_cast<int>(whole.plan.cuttings.size()) - 1);
    undo(shop.book, shop.hand);
  }
}

TEST_CASE("what was spoiled is made again from sisters of its board, as long as a wish pays") {
  // Boards of 34 in that give one part each: two cheap ones, the second of log Q1, are planned;
  // then there is one of no log, and a sister, dearer than that by less than a wish, or by more.
  const bool dear = GENERATE(false, true);
  sample::Shop shop;
  std::vector<TallyLine> lines(4, plank(in(34), in(3, 16)));
  lines[0].price = Money::units(15);
  lines[1].price = Money::units(20);
  lines[2].price = Money::units(24);
  lines[3].price = Money::units(dear ? 29 : 26);
  lines[1].log = lines[3].log = "Q1";
  const std::vector<Board> boards = shop.receive(lines).boards;
  Job shelf;
  shelf.name = "shelf";
  shelf.parts = {part(1, 2, in(30), in(2, 32))};
  const JobId job = addJob(shop.book, shelf, shop.hand);
  optimizer::Limits limits;
  limits.seconds = 0.5;
  keep(shop.book, planning::makePlan(request(shop.book, job, {}), limits), false, shop.hand);
  const Sawn sawn = sawAsPlanned(shop.book, job, {boards[1].id}, shop.hand);
  CHECK(replanned(shop.book, job, 0.5).sisters.empty());

  const std::string mark = marksOf(sawn.cuttings[0])[0];
  spoil(shop.book, job, {mark}, "tear-out", shop.hand);
  const Replanned again = replanned(shop.book, job, 0.9);
  CHECK(again.sisters == std::vector{boards[3].tagText()});
  const BoardId taken = boards[dear ? 2 : 3].id;
  REQUIRE(again.moved.size() == 1);
  CHECK(again.moved[0] == std::pair{mark, shop.now().board(taken)->tagText()});
  CHECK(again.count(Fate::stays) == 1);
  REQUIRE(again.result.plan.choices.wishes.size() == 1);
  CHECK(again.result.plan.choices.wishes[0].byItself);
  CHECK(again.result.sentence.find("What you settled") == std::string::npos);
  CHECK(aroundText(again).find("its sisters come first: " + boards[3].tagText() + ".") !=
        std::string::npos);

  // Planned anew after that the wish is said once; once it is made again it is gone.
  keep(shop.book, again.result, again.reserved, shop.hand);
  CHECK(replanned(shop.book, job, 0.9).result.plan.choices.wishes.size() == 1);
  sawAsPlanned(shop.book, job, {taken}, shop.hand);
  const Replanned past = replanned(shop.book, job, 0.5);
  CHECK(past.sisters.empty());
  CHECK(past.result.plan.choices.wishes.empty());
  CHECK(shop.faults().empty());
}
