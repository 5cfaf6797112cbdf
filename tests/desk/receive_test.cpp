#include <catch2/catch.hpp>

#include "inventory/desk/reports.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::box;
using sample::in;
using sample::part;
using sample::plank;
using sample::Shop;

namespace {

template <class Work>
std::string refused(const Work& work) {
  try {
    work();
  } catch (const Refusal& refusal) {
    return refusal.what();
  }
  return "";
}

std::string tags(const std::vector<Board>& boards) {
  std::string all;
  for (const Board& board : boards) {
    all += (all.empty() ? "" : " ") + (board.tag ? text(*board.tag) : "none");
  }
  return all;
}

TallyLine tagged(TallyLine line, std::int64_t serial) {
  line.tag = TagCode{TagKind::board, serial};
  return line;
}

exchange::MarkLine markOn(const std::string& tag, Length from, std::optional<Length> to) {
  exchange::MarkLine line;
  line.line = 2;
  line.tag = tag;
  line.kind = "sound knot";
  line.xFrom = from;
  line.xTo = to;
  return line;
}

}  // namespace

TEST_CASE("tags: the book's next, blank ones taken up, those of another roll, none twice") {
  Shop shop;
  const std::vector<TagCode> blank = reserveTags(shop.book, 2, shop.hand);  // T0001, T0002
  CHECK(text(blank[1]) == "T0002-V");
  CHECK(refused([&] { static_cast<void>(boardNamed(shop.now(), "T0002-V")); }) ==
        "\"T0002-V\" is a blank tag: it hangs on no board yet. Accepted: a board's tag.");
  TallyLine three = plank(in(96), in(8));
  three.count = 3;
  // The next free serial is 3, but it stands by hand on a later line of the same tally.
  const Received received = shop.receive({tagged(plank(in(96), in(8)), 2), three,
                                          tagged(plank(in(96), in(8)), 3), plank(in(96), in(8))});
  CHECK(tags(received.boards) == "T0002-V T0004-R T0005-P T0006-N T0003-T T0007-L");
  CHECK(shop.now().tagReserved(blank[0]));
  CHECK(boardNamed(shop.now(), "2").id == received.boards[0].id);

  CHECK(refused([&] {
          shop.receive({tagged(plank(in(96), in(8)), 2), tagged(plank(in(96), in(8)), 50),
                        tagged(plank(in(96), in(8)), 50)});
        }) ==
        "2:tag: T0002-V is on a board already. Accepted: a tag that hangs on no board, or none.\n"
        "4:tag: T0050-F stands twice in the tally. Accepted: a tag that hangs on no board, or "
        "none.");
  CHECK(shop.now().rack().size() == 6);
  CHECK(refused([&] { shop.receive({}); }).find("no boards") != std::string::npos);
  CHECK(shop.faults().empty());
}

TEST_CASE("an exact half of a surface measure goes up, then down, through a delivery") {
  Shop shop;
  // 4 1/2 in x 4 ft / 12 = 1.5 each.
  TallyLine half = plank(in(48), in(4, 32));
  half.count = 3;
  const Received received = shop.receive({half});
  CHECK(received.boards[0].billed == Feet{2'000});
  CHECK(received.boards[1].billed == Feet{1'000});
  CHECK(received.boards[2].billed == Feet{2'000});
  CHECK(received.billed == Feet{5'000});
  CHECK(received.measured == Feet{4'500});
  CHECK(received.paid == Money::units(30));
}

TEST_CASE("a supplier counts as in their last delivery that stands") {
  Shop shop;
  const auto deliver = [&](const std::string& supplier, CountingRule rule) {
    DeliveryDraft draft;
    draft.supplier = supplier;
    draft.receivedOn = "2026-05-31";
    draft.rule = rule;
    draft.lines = {plank(in(96), in(8))};
    receive(shop.book, draft, shop.hand);
  };
  CHECK(countingRule(shop.book, "Yard") == CountingRule::surfaceMeasure);
  deliver("Yard", CountingRule::volume);
  CHECK(countingRule(shop.book, "Yard") == CountingRule::volume);
  CHECK(countingRule(shop.book, "Mill") == CountingRule::surfaceMeasure);
  deliver("Yard", CountingRule::surfaceMeasure);
  CHECK(countingRule(shop.book, "Yard") == CountingRule::surfaceMeasure);
  undo(shop.book, shop.hand);
  CHECK(countingRule(shop.book, "Yard") == CountingRule::volume);
  undo(shop.book, shop.hand);
  CHECK(countingRule(shop.book, "Yard") == CountingRule::surfaceMeasure);
  CHECK(refused([&] { deliver(" ", CountingRule::volume); }) ==
        "A delivery needs a supplier. Accepted: who delivered.");
  CHECK(shop.now().rack().empty());
}

TEST_CASE("what undo would take back is what undo takes back, however far it lies") {
  Shop shop;
  CHECK_FALSE(undoable(shop.now()));
  shop.receive({plank(in(96), in(8))});
  const EntryId first = undoable(shop.now())->id;
  for (int i = 0; i < 60; ++i) {
    reserveTags(shop.book, 1, shop.hand);
    undo(shop.book, shop.hand);
  }
  REQUIRE(undoable(shop.now()));
  CHECK(undoable(shop.now())->id == first);
  CHECK(undo(shop.book, shop.hand).reversed == first);
  CHECK_FALSE(undoable(shop.now()));
}

TEST_CASE("an opening offcut comes from the opening account, a board from bought") {
  Shop shop;
  TallyLine old = plank(in(31), in(5));
  old.kind = BoardKind::offcut;
  old.thickness.reset();
  const Received received = shop.receive({plank(in(96), in(8)), old});
  CHECK(received.boards[1].kind == BoardKind::offcut);
  CHECK_FALSE(received.boards[1].parent);
  CHECK_FALSE(received.boards[1].measured);
  CHECK(received.boards[1].thickness == in(0, 60));  // kiln-dried 4/4: 15/16
  CHECK(shop.faults().empty());
}

TEST_CASE("marks go on with the board's own end and width") {
  Shop shop;
  shop.receive({plank(in(96), in(8)), plank(in(120), in(6))});
  exchange::MarkLine byLine = markOn("", in(60), std::nullopt);
  byLine.tallyLine = 2;
  byLine.face = DefectFace::a;
  const Marked marked =
      mark(shop.book, {markOn("T0001-X", in(12), in(17)), byLine}, "m.csv", shop.hand);
  CHECK(marked.marks == 2);
  CHECK(marked.boards.size() == 2);
  CHECK(
      boardNamed(shop.now(), "1").defects ==
      std::vector<Defect>{{"sound knot", DefectFace::through, box(in(12), in(0), in(17), in(8))}});
  CHECK(boardNamed(shop.now(), "2").defects ==
        std::vector<Defect>{{"sound knot", DefectFace::a, box(in(60), in(0), in(120), in(6))}});
  // A mark never makes a face looked at.
  CHECK(boardNamed(shop.now(), "1").looked == std::array{Looked::planed, Looked::planed});
}

TEST_CASE("a mark over the whole width of a crooked board spans all of its wood") {
  Shop shop;
  TallyLine crooked = plank(in(96), in(6));
  crooked.warp.crook = in(2, 32);  // hollow on the near edge: the wood reaches up to 8 1/2 in
  shop.receive({crooked});
  exchange::MarkLine split = markOn("T0001-X", in(20), in(76));
  split.kind = "split";
  mark(shop.book, {split}, "m.csv", shop.hand);
  const Board board = boardNamed(shop.now(), "1");
  REQUIRE(board.defects.size() == 1);
  CHECK(board.defects[0].where == box(in(20), in(0), in(76), in(8, 32)));

  Job job;
  job.name = "Slats";
  job.parts = {part(1, 12, in(12), in(1))};
  const JobId id = addJob(shop.book, job, shop.hand);
  optimizer::Limits limits;
  limits.seconds = 2;
  const planning::PlanResult result = planning::makePlan(request(shop.book, id, {}), limits);
  int blanks = 0;
  for (const Cutting& cutting : result.plan.cuttings) {
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind != PieceKind::blank) continue;
      ++blanks;
      CHECK((piece.at.right() <= in(20) || piece.at.x >= in(76)));
    }
  }
  CHECK(blanks > 0);
  exchange::MarkLine above = split;
  above.yFrom = in(9);
  CHECK(refused([&] { mark(shop.book, {above}, "m.csv", shop.hand); }) ==
        "m.csv:2:y_from: the split would lie past the far edge: T0001-X is 96 in long and "
        "6 in wide. Accepted: from the line along the near edge, up to 8 1/2.");
}

TEST_CASE("a mark off the board is told in a maker's words, and none of the file is taken") {
  Shop shop;
  shop.receive({plank(in(96), in(8))});
  exchange::MarkLine wide = markOn("T0001-X", in(10), in(12));
  wide.yFrom = in(9);
  exchange::MarkLine high = markOn("T0001-X", in(10), in(12));
  high.yTo = in(9);
  exchange::MarkLine line = markOn("", in(1), in(2));
  line.tallyLine = 5;
  CHECK(
      refused([&] {
        mark(shop.book,
             {markOn("T0001-X", in(1), in(2)), markOn("T0001-X", in(90), in(98)),
              markOn("T0001-X", in(100), in(104)), wide, high, markOn("T0001-Y", in(1), in(2)),
              markOn("T0050-F", in(1), in(2)), line},
             "m.csv", shop.hand);
      }) ==
      "m.csv:2:x_to: the sound knot would reach 2 in past the far end: T0001-X is 96 in long and "
      "8 in wide. Accepted: up to 96, or the word end.\n"
      "m.csv:2:x_from: the sound knot would lie past the far end: T0001-X is 96 in long and 8 in "
      "wide. Accepted: inches from the tag end, up to 96.\n"
      "m.csv:2:y_from: the sound knot would lie past the far edge: T0001-X is 96 in long and 8 "
      "in wide. Accepted: from the line along the near edge, up to 8.\n"
      "m.csv:2:y_to: the sound knot would reach 1 in past the far edge: T0001-X is 96 in long and "
      "8 in wide. Accepted: up to 8, or the word end.\n"
      "m.csv:2:tag: \"T0001-Y\" has a last character that does not fit its number; no board was "
      "opened. Accepted: the tag as printed: read it again.\n"
      "m.csv:2:tag: \"T0050-F\" is not a tag of this book. Accepted: the tag of a board in this "
      "book.\n"
      "m.csv:2:line: the newest delivery has no board 5. Accepted: a tag, or 1 to 1.");
  CHECK(boardNamed(shop.now(), "1").defects.empty());
}

TEST_CASE("a survey of an older reading is stale") {
  Shop shop;
  const Board board = shop.receive({plank(in(96), in(8))}).boards.front();
  Board first = board;
  first.looked = {Looked::rough, Looked::no};
  survey(shop.book, first, shop.hand);
  CHECK(boardNamed(shop.now(), "1").looked == first.looked);
  Board second = board;
  second.note = "from another station";
  CHECK_THROWS_AS(survey(shop.book, second, shop.hand), Stale);
  Board off = boardNamed(shop.now(), "1");
  off.defects.push_back({"check", DefectFace::a, box(in(96), in(0), in(100), in(1))});
  CHECK(refused([&] { survey(shop.book, off, shop.hand); }) ==
        "The check would lie off the board. Accepted: a place on the board.");
}

TEST_CASE("planning sees boards that are free, ready and not kept back") {
  Shop shop;
  TallyLine kept = plank(in(96), in(8));
  kept.keptBack = true;
  TallyLine wet = plank(in(96), in(8));
  wet.moistureTenths = 130;
  wet.moistureState = MoistureState::resting;
  TallyLine ready = plank(in(96), in(8));
  ready.moistureTenths = 80;
  shop.receive({plank(in(96), in(8)), kept, wet, ready});
  Job job;
  job.name = "Shelf";
  job.parts = {part(1, 1, in(60), in(6))};
  const JobId id = addJob(shop.book, job, shop.hand);
  CHECK(tags(request(shop.book, id, {}).boards) == "T0001-X T0004-R");
  CHECK(refused([&] { addJob(shop.book, job, shop.hand); }) != "");
  job.name = "Empty";
  job.parts.clear();
  CHECK(refused([&] { addJob(shop.book, job, shop.hand); }) ==
        "Empty has no parts. Accepted: at least one row under the head.");
}

TEST_CASE("the shop's settings are set one by one and checked") {
  Shop shop;
  const Setting& setting = settings().front();
  const std::string before = setting.get(shop.now().shop(), Unit::inches);
  CHECK(refused([&] {
          setShop(shop.book, "no-such-key", "1", shop.hand);
        }).find(std::string(setting.key)) != std::string::npos);
  CHECK(refused([&] { setShop(shop.book, std::string(setting.key), "much", shop.hand); }) != "");
  CHECK(setting.get(shop.now().shop(), Unit::inches) == before);
  const ProfileId old = shop.now().shop().id;
  setShop(shop.book, std::string(setting.key), before, shop.hand);
  CHECK(shop.now().shop().id != old);
  CHECK(shop.faults().empty());
}

TEST_CASE("the rack answers to words in any order") {
  Shop shop;
  TallyLine cherry = plank(in(120), in(8));
  cherry.bay = "B3";
  cherry.grade = "FAS";
  TallyLine oak = plank(in(96), in(8));
  oak.species = "white oak";
  oak.nominal = Nominal::quarters(8);
  oak.thickness = in(2);
  oak.keptBack = true;
  TallyLine piece = plank(in(31), in(5));
  piece.kind = BoardKind::offcut;
  piece.looked = {Looked::rough, Looked::no};
  piece.note = "from the van";
  TallyLine wet = plank(in(96), in(8));
  wet.moistureTenths = 200;
  wet.moistureState = MoistureState::wet;
  shop.receive({cherry, oak, piece, wet});
  const auto found = [&](const std::string& words) {
    return tags(filterRack(shop.now().rack(), words, Unit::inches));
  };
  CHECK(found("") == "T0001-X T0002-V T0003-T T0004-R");
  CHECK(found("cherry") == "T0001-X T0003-T T0004-R");
  CHECK(found("oak WHITE") == "T0002-V");
  CHECK(found("8/4") == "T0002-V");
  CHECK(found("b3 cherry 4/4 >8' free") == "T0001-X");
  CHECK(found(">8") == "T0001-X T0002-V T0004-R");
  CHECK(found("<8") == "T0003-T");
  CHECK(found("t0003") == "T0003-T");
  CHECK(found("T0003-T") == "T0003-T");
  CHECK(found("offcuts") == "T0003-T");
  CHECK(found("kept") == "T0002-V");
  CHECK(found("unseen") == "T0003-T");
  CHECK(found("wet") == "T0004-R");
  CHECK(found("van") == "T0003-T");
  CHECK(found("yard fas") == "T0001-X");
  CHECK(found("walnut") == "");
  CHECK(refused([&] { found(">long"); }) != "");
  CHECK(refused([&] { found("T0003-X"); }) != "");
  const Table table = rackTable(shop.now().rack());
  CHECK(table.rows.size() == 4);
  CHECK(std::get<Length>(table.rows[0][3]) == in(120));
  CHECK(std::get<std::string>(table.rows[1][12]) == "kept back");
}

TEST_CASE("a mark on an edge without figures across bars that edge alone") {
  Shop shop;
  TallyLine tapered = plank(in(96), in(8));
  tapered.outline.fill(Outline::tapered(in(96), in(8), in(7)));
  shop.receive({plank(in(96), in(8)), tapered});
  const auto wane = [&](const std::string& tag, DefectFace face, std::optional<Length> to) {
    exchange::MarkLine line = markOn(tag, in(0), to);
    line.kind = "wane";
    line.face = face;
    return line;
  };
  mark(shop.book,
       {wane("T0001-X", DefectFace::far, in(96)), wane("T0001-X", DefectFace::near, in(20)),
        wane("T0002-V", DefectFace::far, {})},
       "m.csv", shop.hand);
  const std::vector<Defect> first = boardNamed(shop.now(), "T0001-X").defects;
  REQUIRE(first.size() == 2);
  CHECK(first[0].where == box(in(0), in(7, 32), in(96), in(8)));
  CHECK(first[1].where == box(in(0), in(0), in(20), in(0, 32)));
  // The edge runs from 8 in to 7: half an inch in from it everywhere.
  CHECK(boardNamed(shop.now(), "T0002-V").defects[0].where == box(in(0), in(6, 32), in(96), in(8)));

  Job asked;
  asked.name = "Rail";
  asked.parts = {part(1, 2, in(90), in(3))};
  const JobId job = addJob(shop.book, asked, shop.hand);
  const PlanRequest seen = request(shop.book, job, {});
  const CutPlan plan = planning::makePlan(seen, {}).plan;
  CHECK(plan.shorts.empty());
  CHECK(check(plan, seen).empty());
}

TEST_CASE("a board whose price comes to nothing is received with a warning") {
  Shop shop;
  TallyLine offcut = plank(in(10), in(6));
  offcut.kind = BoardKind::offcut;
  const Received received = shop.receive({plank(in(12), in(5)), offcut, plank(in(96), in(8))});
  CHECK(received.boards[0].cost == Money());
  CHECK(received.boards[1].cost == Money::tenThousandths(25'020));  // 0.417 bf at $6
  REQUIRE(received.warnings.size() == 1);
  CHECK(received.warnings[0] ==
        "2: T0001-X has a price but counts 0.0 board feet, so it cost nothing. Price it each, or "
        "say its billed feet.");
}
