// What went otherwise at the saw, as it is pencilled beside a board: read, told, and recorded.
#include "inventory/desk/saw_paper.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/proof.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::Life;

namespace {

/// A plan of one board, its line read and entered.
struct Pencil : Life {
  PlanRequest request;
  exchange::ReadingRules rules = readingRules(shop.book);
  Cutting cutting = sample::cuttingOf(board.id);
  Board marked = now(board.id);

  Pencil() {
    request.job = shop.now().job(job).value();
    request.shop = shop.now().shop();
  }
  [[nodiscard]] PaperLine read(const std::string& text) const {
    return readPaper(text, cutting, rules);
  }
  [[nodiscard]] std::string reading(const std::string& text) const {
    return readingOf(read(text), {cutting, marked, request, plan.plan.tick});
  }
  [[nodiscard]] std::string readCode(const std::string& text) const {
    return code([&] { static_cast<void>(reading(text)); });
  }
  Sawn enter(const std::string& text) {
    const PaperLine line = read(text);
    return saw(shop.book, job, {turnOf(shop.now(), board.id, line, false, Unit::inches)}, shop.hand,
               {line.lost, ""});
  }
  [[nodiscard]] bool sound() const { return shop.faults().empty() && prove(shop.book).empty(); }
};

}  // namespace

TEST_CASE("a line says what went otherwise, item by item, in any order and case") {
  const Pencil pencil;
  const PaperLine nothing = pencil.read("  ");
  CHECK(nothing.sawn);
  CHECK_FALSE(nothing.cutOtherwise());
  CHECK_FALSE(pencil.read("No").sawn);
  CHECK(pencil.read("a1 Lost").lost == std::vector<std::string>{"A1"});
  CHECK(pencil.read("a1, A1 lost").lost == std::vector<std::string>{"A1"});

  const PaperLine all = pencil.read("keep 14 x 4; A1 short 59 1/2, used t0007, knot 3-5 x 1-2 1/2");
  REQUIRE(all.otherwise.offcuts);
  REQUIRE(all.otherwise.offcuts->size() == 1);
  CHECK((*all.otherwise.offcuts)[0].length == in(14));
  CHECK((*all.otherwise.offcuts)[0].width == in(4));
  REQUIRE(all.otherwise.cutShort.size() == 1);
  CHECK(all.otherwise.cutShort[0].mark == "A1");
  CHECK(all.otherwise.cutShort[0].length == in(59, 32));
  CHECK(all.used == "T0007");
  REQUIRE(all.found.size() == 1);
  CHECK(all.found[0].kind == "unsound knot");
  CHECK(all.found[0].xFrom == in(3));
  CHECK(all.found[0].xTo == in(5));
  CHECK(all.found[0].yFrom == in(1));
  CHECK(all.found[0].yTo == in(2, 32));
  CHECK(pencil.read("check 60-end").found[0].kind == "check");
  CHECK(pencil.read("keep none").otherwise.offcuts->empty());
  // The one offcut planned is 8 in wide.
  CHECK((*pencil.read("keep 14").otherwise.offcuts)[0].width == in(8));
}

TEST_CASE("a line that cannot be read names what is wrong and what would be taken") {
  const Pencil pencil;
  for (const char* bad : {"lost", "A1", "keep", "keep long", "used", "used T1 T2", "no, A1 lost",
                          "A1 short", "A1 short x", "5 feet", "keep 14 x", "knot 44-40"}) {
    INFO(bad);
    CHECK(pencil.readCode(bad) == "bad-line");
  }
  CHECK(pencil.readCode("Z9 lost") == "no-such-blank");
  CHECK(pencil.readCode("A2 short 12") == "no-such-blank");
  CHECK(pencil.readCode("A1 short 70") == "not-short");
  CHECK(pencil.readCode("keep 50 x 4") == "no-room");
  CHECK(pencil.readCode("knot 95-97") == "off-the-board");
  CHECK(pencil.code([&] {
    static_cast<void>(turnOf(pencil.shop.now(), pencil.board.id, pencil.read("used T0099-9"), false,
                             Unit::inches));
  }) != "");
}

TEST_CASE("how a line was understood says what it changes") {
  const Pencil pencil;
  CHECK(pencil.reading("") == "");
  CHECK(pencil.reading("no") == "not sawn yet, stays planned");
  CHECK(pencil.reading("A1 lost") == "A1 is wanted again");
  CHECK(pencil.reading("keep 14") == "keeps 14 × 8");
  CHECK(pencil.reading("keep none, A1 lost") == "A1 is wanted again; keeps no offcut");
  // The fresh end is at 95 in: 40 to 44 from it is 51 to 55 from the tag, in A1, which shows clear.
  CHECK(pencil.reading("knot 40-44") == "unsound knot 40–44: A1 is wanted again");
  CHECK(pencil.reading("knot 3-5") == "unsound knot 3–5: in no blank that it bars");
  // Across from the near edge: A1 ends at 6 3/8, the knot with its margin begins at 7.
  CHECK(pencil.reading("knot 40-44 x 7-8") == "unsound knot 40–44 × 7–8: in no blank that it bars");
  CHECK(pencil.reading("A1 short 40") ==
        "A1, 40 in long, is large enough for no other part of Shelf");
}

TEST_CASE("a knot found in a blank is marked, its blank wanted again, in the entry of the sawing") {
  Pencil pencil;
  const EntryId last = pencil.shop.now().lastEntry();
  const Sawn sawn = pencil.enter("knot 40-44");
  CHECK(sawn.entry.value == last.value + 1);
  CHECK(sawn.spoilt == std::vector<std::string>{"A1"});
  CHECK(pencil.shop.now().made(pencil.job).empty());
  REQUIRE(pencil.shop.now().spoiled(pencil.job).size() == 1);
  CHECK(pencil.shop.now().spoiled(pencil.job)[0].reason == "unsound knot");
  CHECK(sawn.woodCost == pencil.plan.plan.woodCost);
  const std::vector<Defect> marks = pencil.now(pencil.board.id).defects;
  REQUIRE(marks.size() == 2);
  CHECK(marks[1].where == Rect{in(51), in(0), in(4), in(8)});
  CHECK(pencil.sound());
  undo(pencil.shop.book, pencil.shop.hand);
  CHECK(pencil.now(pencil.board.id).onRack());
  CHECK(pencil.now(pencil.board.id).defects == pencil.marked.defects);
  CHECK(pencil.sound());
}

TEST_CASE("a knot found in an offcut goes on with it") {
  Pencil pencil;
  const Sawn sawn = pencil.enter("check 3-5 x 2-3");
  CHECK(sawn.spoilt.empty());
  REQUIRE(sawn.offcuts.size() == 1);
  // The offcut begins 62 1/8 from the tag end, the check 90.
  REQUIRE(sawn.offcuts[0].defects.size() == 1);
  CHECK(sawn.offcuts[0].defects[0].kind == "check");
  CHECK(sawn.offcuts[0].defects[0].where == Rect{in(27, 56), in(2), in(2), in(1)});
  CHECK(pencil.sound());
}

TEST_CASE("a sitting of several boards is one entry, undone as one") {
  Pencil pencil;
  const BoardId other = pencil.shop.receive({sample::plank(in(96), in(8))}).boards[0].id;
  const std::string tag = text(*pencil.now(other).tag);
  const EntryId last = pencil.shop.now().lastEntry();
  const Sawn sawn = pencil.enter("used " + tag + ", keep 20 x 6");
  CHECK(sawn.boards == std::vector<BoardId>{other});
  CHECK(sawn.entry.value == last.value + 1);
  REQUIRE(sawn.offcuts.size() == 1);
  CHECK(boundsOf(sawn.offcuts[0]).dx == in(20));
  CHECK(boundsOf(sawn.offcuts[0]).dy == in(6));
  CHECK(sawn.offcuts[0].parent == other);
  CHECK(pencil.now(pencil.board.id).onRack());
  CHECK(pencil.shop.now().entry(sawn.entry)->note == tag + ", not as planned");
  CHECK(pencil.sound());
  undo(pencil.shop.book, pencil.shop.hand);
  CHECK(pencil.now(other).onRack());
  CHECK(pencil.sound());
}
