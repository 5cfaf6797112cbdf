#include <QDir>
#include <QFile>
#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/store/schema.h"
#include "tests/store/behind.h"
#include "tests/store/sample.h"

// A saved book of every schema version: it must open, be brought up, and then say in every table
// what a fresh book says that lived through the same. The newest is made, once its schema has
// landed for good, by
//   test_store "save the book of this schema"

using namespace flitch;
using namespace flitch::store;

namespace {

const std::string saved = FLITCHBOOK_TEST_DATA "/books/";

/// What no book had before step 2.
void liveSinceStep2(Book& book) {
  Species pear{"pear", "Pyrus communis", {690, false, "own scales"}, {}, {}, {}, {}, {}, true};
  for (const int gravity : {690, 700}) {
    pear.gravity.value = gravity;
    pear.tangentialShrinkage = {1140, false, "own scales"};
    book.change({"species added", {}, "pear", {}}, sample::hand(),
                [&](Writer& writer) { writer.addSpecies(pear); });
  }
  sample::undo(book, book.read().lastEntry());
}

/// What no book had before step 3.
void liveSinceStep3(Book& book) {
  DeliveryDraft draft;
  draft.supplier = "Quillmere";
  draft.receivedOn = "2026-03-04";
  draft.rule = CountingRule::halfInch;
  draft.extras = {{2, InvoiceKind::freight, Money::units(20), Spread::feet, "by truck"},
                  {3, InvoiceKind::discount, -Money::units(5), Spread::value, ""}};
  draft.claims = {{4, "cherry", Nominal::quarters(4), Feet{11'000}, Money::units(120)},
                  {5, "", {}, std::nullopt, Money::units(135)}};
  const EntryId received =
      book.change({"received", {}, "", {}}, sample::hand(), [&](Writer& writer) {
        const DeliveryId delivery = writer.addDelivery(draft);
        BoardId first;
        for (int i = 0; i < 2; ++i) {
          Board board = sample::plank();
          board.delivery = delivery;
          board.tag = writer.nextTag();
          board.priceBasis = PriceBasis::lot;
          board.unitPrice = Money::units(120);
          board.billedWith = first;
          const BoardId id = writer.addBoard(board);
          if (i == 0) first = id;
          Move move;
          move.target = AccountKind::board;
          move.targetBoard = id;
          move.volume = board.wood;
          move.cost = board.price + Money::tenThousandths(75'000);
          writer.post(move);
        }
      });
  sample::undo(book, received);
}

/// What no book had before step 4.
void liveSinceStep4(Book& book) {
  const DoneCutting done = book.read().doneCuttings(std::nullopt).at(0);
  const auto& pieces = done.cutting.pieces;
  const auto blank = std::find_if(pieces.begin(), pieces.end(),
                                  [](const Piece& p) { return p.kind == PieceKind::blank; });
  const Job job = *book.read().job(done.job);
  const Breakdown shares =
      account(done.cutting, done.board, job, *book.read().profile(done.profile), done.tick);
  const auto share = std::find_if(shares.shares.begin(), shares.shares.end(), [&](const Share& s) {
    return s.cause == Cause::parts && s.piece == blank - pieces.begin();
  });
  for (const char* why : {"tear-out", "a shake"}) {
    const EntryId spoiled =
        book.change({"spoiled", done.job, "", {}}, sample::hand(),
                    [&](Writer& writer) { writer.spoil(done.id, *share, why); });
    if (why[0] == 't') sample::undo(book, spoiled);
  }
}

/// What no book had before step 5.
void liveSinceStep5(Book& book) {
  book.saveDraft("tally", "truck", "first");
  book.saveDraft("tally", "truck", "second");
  book.saveDraft("tally", "bench", "gone again");
  book.saveDraft("tally", "bench", "");
}

/// What no book had before step 6.
void liveSinceStep6(Book& book) {
  Job job = sample::jobNamed("Panel");
  Part& panel = job.parts[0];
  panel.recipe = "glued";
  panel.width = Length::inches(2);
  panel.stavesFrom = Length::inches(2);
  panel.stavesTo = Length::inches(5);
  JobId id;
  book.change({"job added", {}, "Panel", {}}, sample::hand(),
              [&](Writer& writer) { id = writer.addJob(job); });
  const auto received = sample::receive(book, {sample::plank()});
  PlanId plan;
  book.change({"plan kept", id, "", {}}, sample::hand(), [&](Writer& writer) {
    CutPlan glued;
    glued.job = id;
    glued.profile = writer.now().shop().id;
    glued.tick = Length::sixtyFourths(8);
    glued.program = "flitchbook test";
    glued.cuttings = {sample::cuttingOf(*writer.now().board(received.boards[0]))};
    Layup stave;
    stave.piece = 4;
    stave.copy = stave.slot = stave.section = 1;
    stave.gives = panel.width;
    glued.cuttings[0].layups = {stave};
    plan = writer.addPlan(glued);
  });
  sample::saw(book, plan, received.boards[0]);
}

/// What no book had before step 7.
void liveSinceStep7(Book& book) {
  LabelPaper slips;
  slips.name = "slips";
  slips.pageWidth = slips.labelWidth = slips.across = Length::millimetres(40);
  slips.pageHeight = slips.labelHeight = slips.down = Length::millimetres(15);
  book.change({"label stock added", {}, "slips", {}}, sample::hand(),
              [&](Writer& writer) { writer.addLabelPaper(slips); });
  for (const int wide : {10'020, 10'040}) {
    book.change({"printer set", {}, "office", {}}, sample::hand(), [&](Writer& writer) {
      writer.setPrinter({"office", -400'000, 1'000'000, wide, 9'990});
    });
  }
  sample::undo(book, book.read().lastEntry());
}

/// Photos, likewise since step 7.
void photographSinceStep7(Book& book) {
  const auto received = sample::receive(book, {sample::plank()});
  Photo photo;
  photo.board = received.boards[0];
  photo.takenOn = "2026-03-05";
  photo.fileName = "bench.jpg";
  photo.sha256 = std::string(64, 'a');
  photo.width = 200;
  photo.height = 100;
  PhotoId id;
  book.change({"photo added", {}, "", {}}, sample::hand(), [&](Writer& writer) {
    id = writer.addPhoto(photo, std::string("\xff\xd8\0\xff\xd9", 5));
  });
  for (const std::int64_t x : {1'000, 2'500}) {
    const PhotoCorners corners{{{x, 90'000}, {190'000, 90'000}, {190'000, 9'000}, {x, 9'000}}};
    book.change({"photo placed", {}, "", {}}, sample::hand(),
                [&](Writer& writer) { writer.placePhoto(id, Face::a, corners); });
  }
  sample::undo(book, book.read().lastEntry());
}

/// Parts whose grain runs on, likewise since step 7.
void runOnSinceStep7(Book& book) {
  Job job = sample::jobNamed("Fronts");
  job.parts[0].run = "across 2,1";
  job.parts[0].setUps = 1;
  job.parts[0].leftLong = true;
  book.change({"job added", {}, "Fronts", {}}, sample::hand(),
              [&](Writer& writer) { (void)writer.addJob(job); });
}

/// What no book had before step 8.
void liveSinceStep8(Book& book) {
  BinId bin;
  book.change({"bin added", {}, "", {}}, sample::hand(), [&](Writer& writer) {
    bin = writer.addBin({{}, "Cherry shorts", "cherry", "under the bench", {}});
  });
  for (const std::int64_t wood : {2'000'000, 500'000}) {
    book.change({"bin changed", {}, "", {}}, sample::hand(), [&](Writer& writer) {
      Move move;
      move.source = AccountKind::found;
      move.target = AccountKind::bin;
      move.bin = bin;
      move.volume = {wood};
      writer.post(move);
    });
  }
  sample::undo(book, book.read().lastEntry());
}

/// What no book had before step 9.
void liveSinceStep9(Book& book) {
  Job door = sample::jobNamed("Door");
  door.sizes = {{"width", "24", Length::inches(24)}};
  door.parts[0].typed = {"width - 4", "", ""};
  door.parts[0].woodFrom = WoodFrom::oneLog;
  JobId id;
  book.change({"job added", {}, "Door", {}}, sample::hand(),
              [&](Writer& writer) { id = writer.addJob(door); });
  const ReplacementPrice price{"cherry",          Nominal::quarters(4), "FAS",
                               {Money::units(9)}, "2026-03-04",         "the yard"};
  JobLine bar{JobLineKind::bar, "rail", 1000, "", Money::units(12), Length::inches(96), ""};
  JobLine cut{JobLineKind::cut, "rail", 3000, "", std::nullopt, Length::inches(30), "left, right"};
  JobLine work{JobLineKind::hours, "joinery", 2500, "", std::nullopt, {}, ""};
  Quote quote;
  quote.job = id;
  quote.givenOn = "2026-03-05";
  quote.validUntil = "2026-04-05";
  quote.title = "A door";
  quote.price = Money::units(400);
  book.change({"prices set", {}, "", {}}, sample::hand(),
              [&](Writer& writer) { writer.addPrice(price); });
  book.change({"bill set", id, "", {}}, sample::hand(), [&](Writer& writer) {
    writer.setJobLines(id, {bar, cut, work});
  });
  book.change({"quoted", id, "", {}}, sample::hand(),
              [&](Writer& writer) { (void)writer.addQuote(quote); });
  sample::undo(book, book.read().lastEntry());
  CHECK(book.read().jobLines(id) == std::vector<JobLine>{bar, cut, work});
  CHECK(book.read().prices() == std::vector<ReplacementPrice>{price});
  CHECK(book.read().job(id)->sizes == door.sizes);
}

/// What no book had before step 10: marks that are shallow or go through aslant, taken off again,
/// and a tag that stays on a remainder; the second such sawing is undone.
void liveSinceStep10(Book& book) {
  Board marked = *book.read().board(sample::receive(book, {sample::plank()}).boards[0]);
  const std::vector<Defect> before = marked.defects;
  const Rect place{Length::inches(20), Length(), Length::inches(4), Length::inches(2)};
  marked.defects = {{"check", DefectFace::a, place, Length::sixtyFourths(4)},
                    {"sound knot", DefectFace::through, place, std::nullopt, place},
                    {"split", DefectFace::through, place}};
  marked.defects[1].onB->x += Length::inches(3);
  marked.grain = GrainSlope{125};
  for (const auto& defects : {marked.defects, before}) {
    Board changed = *book.read().board(marked.id);
    changed.defects = defects;
    changed.grain = defects == before ? std::nullopt : marked.grain;
    book.change({"marked", {}, "", {}}, sample::hand(),
                [&](Writer& writer) { writer.updateBoard(changed); });
  }
  sample::undo(book, book.read().lastEntry());
  CHECK(book.read().board(marked.id)->defects == marked.defects);
  CHECK(book.read().board(marked.id)->grain == marked.grain);
  Job stool = sample::jobNamed("Stool");
  stool.parts[0].straight = true;
  JobId job;
  book.change({"job added", {}, "Stool", {}}, sample::hand(),
              [&](Writer& writer) { job = writer.addJob(stool); });
  CHECK(book.read().job(job)->parts[0].straight);
  const auto pass = [&] {
    book.change({"used by hand", {}, "", {}}, sample::hand(), [&](Writer& writer) {
      Board left = writer.now().board(marked.id).value();
      left.kind = BoardKind::offcut;
      left.parent = left.id;
      left.tag.reset();
      left.delivery = {};
      left.reservedFor = {};
      const BoardId id = writer.addBoard(left);
      writer.passTag(marked.id, id);
      writer.post(
          {AccountKind::board, marked.id, AccountKind::board, id, left.wood, left.cost, -1, {}});
    });
  };
  pass();
  sample::undo(book, book.read().lastEntry());
  pass();
}

/// What no book had before step 11: a group of parts from sisters, board feet set aside, less of
/// them later, and that undone.
void liveSinceStep11(Book& book) {
  Job chest = sample::jobNamed("Linen chest");
  chest.parts[0].group = "fronts";
  chest.parts[0].woodFrom = WoodFrom::sisters;
  JobId id;
  book.change({"job added", {}, "Linen chest", {}}, sample::hand(),
              [&](Writer& writer) { id = writer.addJob(chest); });
  CHECK(book.read().job(id)->parts == chest.parts);
  SetAside wood{id, "cherry", Nominal::quarters(4), Feet{60'000}};
  const auto keep = [&] {
    book.change({"set aside", id, "", {}}, sample::hand(),
                [&](Writer& writer) { writer.setAside(wood); });
  };
  keep();
  wood.feet = Feet{40'000};
  keep();
  sample::undo(book, book.read().lastEntry());
  REQUIRE(book.read().setAside().size() == 1);
  CHECK(book.read().setAside()[0].feet == Feet{60'000});
}

/// What no book had before step 12: a job that asks for something else, and that undone, and again.
void liveSinceStep12(Book& book) {
  Job chest = sample::jobNamed("Tool chest");
  chest.sizes = {{"rail", "2 1/2", Length::sixtyFourths(160)}};
  JobId id;
  book.change({"job added", {}, "Tool chest", {}}, sample::hand(),
              [&](Writer& writer) { id = writer.addJob(chest); });
  const Job added = book.read().job(id).value();
  Job changed = added;
  changed.sizes[0].expression = "3";
  changed.parts[0].copies += 2;
  changed.parts[0].typed[1] = "rail";
  changed.parts[0].group = "sides";
  changed.parts[0].woodFrom = WoodFrom::oneLog;
  changed.parts[0].species.push_back("walnut");
  changed.parts.push_back(changed.parts[0]);
  changed.parts.back().line = 9;
  const auto change = [&] {
    changed.version = book.read().job(id)->version;
    book.change({"job changed", id, "Tool chest", {}}, sample::hand(),
                [&](Writer& writer) { writer.changeJob(changed); });
    CHECK(book.read().job(id)->parts == changed.parts);
    CHECK(book.read().job(id)->sizes == changed.sizes);
  };
  change();
  sample::undo(book, book.read().lastEntry());
  CHECK(book.read().job(id)->parts == added.parts);
  CHECK(book.read().job(id)->sizes == added.sizes);
  change();
}

/// The life every saved book of a schema has had.
void live(Book& book, int schema) {
  Board tagged = sample::everyField();
  tagged.readings.resize(1);
  const auto received = sample::receive(book, {sample::plank(), tagged, sample::plank()});
  Board marked = *book.read().board(received.boards[0]);
  marked.defects = {{"split",
                     DefectFace::through,
                     {Length::inches(92), Length(), Length::inches(4), Length::inches(2)}}};
  marked.bay = "B1";
  book.change({"marked", {}, "", {}}, sample::hand(),
              [&](Writer& writer) { writer.updateBoard(marked); });
  book.change({"tags reserved", {}, "3", {}}, sample::hand(),
              [&](Writer& writer) { (void)writer.reserveTags(3); });
  const JobId job = sample::addJob(book, "Map chest");
  const PlanId plan = sample::keep(book, job, {received.boards[0], received.boards[2]});
  sample::saw(book, plan, received.boards[0]);
  const auto sawn = sample::saw(book, plan, received.boards[2]);
  sample::undo(book, sawn.entry);
  if (schema >= 2) liveSinceStep2(book);
  if (schema >= 3) liveSinceStep3(book);
  if (schema >= 4) liveSinceStep4(book);
  if (schema >= 5) liveSinceStep5(book);
  if (schema >= 6) liveSinceStep6(book);
  if (schema >= 7) {
    liveSinceStep7(book);
    photographSinceStep7(book);
    runOnSinceStep7(book);
  }
  if (schema >= 8) liveSinceStep8(book);
  if (schema >= 9) liveSinceStep9(book);
  if (schema >= 10) liveSinceStep10(book);
  if (schema >= 11) liveSinceStep11(book);
  if (schema >= 12) liveSinceStep12(book);
}

/// Every row of every table but what tells of the clock and of the program's own settings.
std::string everyRow(const std::string& path) {
  sample::Behind behind(path);
  std::string all;
  for (const std::string& table :
       behind.column("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")) {
    std::string columns;
    for (const std::string& column :
         behind.column("SELECT name FROM pragma_table_info('" + table + "') ORDER BY name")) {
      const bool leftOut = column == "at" || column == "applied_at" || column == "saved_at" ||
                           column == "sha256" || (table == "profiles" && column == "body");
      if (!leftOut) columns += (columns.empty() ? "" : " || '|' || ") + ("quote(" + column + ")");
    }
    for (const std::string& row :
         behind.column("SELECT " + columns + " FROM " + table + " ORDER BY 1")) {
      all += table + ": " + row + "\n";
    }
  }
  return all;
}

/// The definitions of tables, indexes and triggers.
std::vector<std::string> definitions(const std::string& path) {
  return sample::Behind(path).column(
      "SELECT type || ' ' || name || ' ' || coalesce(sql, '') FROM sqlite_master ORDER BY 1");
}

}  // namespace

TEST_CASE("a saved book of every schema opens and says what a fresh one says") {
  const int newest = steps(Engine::sqlite).back().number;
  const int schema = GENERATE_COPY(range(1, newest + 1));
  const sample::Folder folder;
  const std::string name = "schema-" + std::to_string(schema) + ".flitch";
  REQUIRE(
      QFile::copy(QString::fromStdString(saved + name), QString::fromStdString(folder.file(name))));
  {
    const Book book = Book::open(folder.file(name), Access::write);
    CHECK(book.facts().schema == newest);
    CHECK(sample::checked(book) == "");
    CHECK(book.read().shop().crosscutKerf == Length::sixtyFourths(8));
    CHECK(book.read().rack().size() == (schema >= 10 ? 6 : schema >= 7 ? 5 : schema >= 6 ? 4 : 3));
  }
  {
    Book fresh = Book::create(folder.file("fresh.flitch"), sample::facts());
    live(fresh, schema);
  }
  CHECK(everyRow(folder.file(name)) == everyRow(folder.file("fresh.flitch")));
  CHECK(definitions(folder.file(name)) == definitions(folder.file("fresh.flitch")));
}

TEST_CASE("save the book of this schema", "[.]") {
  const std::string path =
      saved + "schema-" + std::to_string(steps(Engine::sqlite).back().number) + ".flitch";
  REQUIRE(QDir().mkpath(QString::fromStdString(saved)));
  {
    Book book = Book::create(path, sample::facts());
    live(book, steps(Engine::sqlite).back().number);
  }
  // Small pages: most tables hold a row or two.
  sample::Behind behind(path);
  REQUIRE(behind.run("PRAGMA journal_mode = DELETE") == "");
  REQUIRE(behind.run("PRAGMA page_size = 1024") == "");
  REQUIRE(behind.run("VACUUM") == "");
  REQUIRE(behind.run("PRAGMA journal_mode = WAL") == "");
}
