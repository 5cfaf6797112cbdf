// Sisters, sums of what is chosen, the board measured again, photos laid to scale, tags on paper.
#include <QPainter>
#include <catch2/catch.hpp>

#include "inventory/desk/bins.h"
#include "inventory/desk/photos.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/receive.h"
#include "inventory/wood/unreadable.h"
#include "labels/photo.h"
#include "tests/desktop/drive.h"
#include "tests/labels/outside_readers.h"
#include "ui/desktop/bins_view.h"
#include "ui/desktop/count_view.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

/// Three boards of one log out of sequence, and one of none.
struct Logs : Driven {
  std::vector<Board> came;
  Logs() : Driven(true) {
    DeliveryDraft draft;
    draft.supplier = "Quillmere";
    draft.receivedOn = "2026-05-31";
    for (const int place : {3, 1, 2, 0}) {
      TallyLine line;
      line.line = static_cast<int>(draft.lines.size()) + 1;
      line.species = "cherry";
      line.nominal = Nominal::quarters(4);
      line.outline.fill(
          Outline::tapered(Length::feet(8), Length::inches(6 + place), Length::inches(6 + place)));
      line.price = Money::units(6);
      if (place > 0) line.log = "Harbour 7";
      line.placeInLog = place;
      draft.lines.push_back(line);
    }
    came = desk::receive(window->session().book(), draft, window->session().hand()).boards;
    window->session().look();
    window->trigger(Act::toRack);
  }
  [[nodiscard]] RackPlace& rack() const { return window->rack(); }
  [[nodiscard]] std::vector<QString> tags() const {
    const auto* model = named<SheetTable>("Boards on the rack")->model();
    std::vector<QString> all;
    for (int row = 0; row < model->rowCount(); ++row)
      all.push_back(model->index(row, 0).data().toString());
    return all;
  }
  [[nodiscard]] QString tag(std::size_t board) const {
    return QString::fromStdString(came[board].tagText());
  }
};

}  // namespace

TEST_CASE("Sisters stand in the sequence of their log, Ctrl+L shows all again") {
  const Logs d;
  d.rack().open(d.came[3].id);
  CHECK_FALSE(d.rack().can(Act::sisters));
  d.rack().open(d.came[0].id);
  d.window->trigger(Act::sisters);
  CHECK(d.tags() == std::vector{d.tag(1), d.tag(2), d.tag(0)});
  d.window->trigger(Act::clearFilter);
  CHECK(d.tags().size() == 4);
}

TEST_CASE("Oldest first goes by when boards came, and back to the tags") {
  const Logs d;
  auto* table = d.named<SheetTable>("Boards on the rack");
  table->sortByColumn(0, Qt::DescendingOrder);
  CHECK(d.tags().front() == d.tag(3));
  d.window->trigger(Act::oldestFirst);
  CHECK(d.tags().front() == d.tag(0));
  d.window->trigger(Act::oldestFirst);
  CHECK(d.tags().front() == d.tag(3));
}

TEST_CASE("What is chosen is summed in the title block: count, board feet, value") {
  const Logs d;
  auto* table = d.named<SheetTable>("Boards on the rack");
  table->setFocus();
  table->selectAll();
  REQUIRE(d.rack().selected().size() == 4);
  Feet feet;
  Money value;
  for (const Board& board : d.rack().selected()) {
    feet += board.measuredFeet;
    value += board.cost;
  }
  // 8 ft by 9, 7, 8 and 6 in: 20 board feet.
  CHECK(feet == Feet{20'000});
  const QString said = d.rack().cells()[1].value;
  CHECK(said.startsWith("4 boards · 20.0 bf · $"));
  CHECK(said.endsWith(QString::fromStdString(text(value, "$"))));
}

TEST_CASE("A board measured again keeps its cost, and its wood is accounted for") {
  const Logs d;
  d.rack().open(d.came[0].id);
  const Board before = *d.book().board(d.came[0].id);
  d.window->trigger(Act::shape);
  auto* outline = d.named<Field>("Outline A");
  REQUIRE(outline->hasFocus());
  CHECK(outline->text() == "9");
  d.type("0:0-9; 48:1/2-9; end:0-8 1/2");
  d.key(Qt::Key_Return);
  Board after = *d.book().board(before.id);
  CHECK(after.outline[0].points().size() == 3);
  CHECK(after.outline[1] == after.outline[0]);
  CHECK(after.cost == before.cost);
  CHECK(after.wood < before.wood);
  CHECK(after.billed == before.billed);
  // (9 + 8 1/2) / 2 and (8 1/2 + 8 1/2) / 2 over 48 in each, by 96 in: 828 in² or 5.75 bf.
  CHECK(after.measuredFeet == Feet{5'750});
  // Crook stands in the outline already: not in the warp as well.
  d.named<Field>("Crook")->setFocus();
  d.type("1/4");
  d.key(Qt::Key_Return);
  CHECK(d.book().board(before.id)->warp.crook == Length());
  d.named<Field>("Crook")->setText("");
  d.window->trigger(Act::warp);
  REQUIRE(d.named<Field>("Bow")->hasFocus());
  d.type("3/8");
  d.key(Qt::Key_Return);
  CHECK(d.book().board(before.id)->warp.bow == Length::sixtyFourths(24));
  d.named<Field>("Grain slope")->setFocus();
  d.type("1 in 14");
  d.key(Qt::Key_Return);
  CHECK(d.book().board(before.id)->grain == GrainSlope{140});
  CHECK(d.book().board(before.id)->warp.bow == Length::sixtyFourths(24));
  CHECK(d.window->session().book().check().empty());
  d.window->trigger(Act::undo);
  CHECK_FALSE(d.book().board(before.id)->grain);
  d.window->trigger(Act::undo);
  d.window->trigger(Act::undo);
  after = *d.book().board(before.id);
  CHECK(after.outline == before.outline);
  CHECK(after.wood == before.wood);
  CHECK(after.measuredFeet == before.measuredFeet);
}

TEST_CASE("The corners of a photo are pulled to the board's and it lies to scale") {
  const Logs d;
  QImage picture(400, 200, QImage::Format_RGB32);
  picture.fill(Qt::gray);
  const QString path = d.folder.path() + "/face.png";
  REQUIRE(picture.save(path));
  d.rack().open(d.came[1].id);
  CHECK_FALSE(d.rack().can(Act::photoCorners));
  d.rack().keepPhotos({path});
  d.window->trigger(Act::photoCorners);
  auto* corners = d.named<CornerView>("Photo, corners of the board");
  REQUIRE(corners->hasFocus());
  const PhotoCorners proposed = corners->corners();
  d.key(Qt::Key_Right);
  d.key(Qt::Key_Down, Qt::ShiftModifier);
  CHECK(corners->corners()[0].x == proposed[0].x + 1000);
  CHECK(corners->corners()[0].y == proposed[0].y + 10'000);
  d.key(Qt::Key_Tab);
  d.key(Qt::Key_Left);
  CHECK(corners->corners()[1].x == proposed[1].x - 1000);
  // The other face goes round the other way and stays valid.
  d.key(Qt::Key_F);
  const PhotoCorners pulled = corners->corners();
  d.key(Qt::Key_Return);
  const std::vector<Photo> photos = d.book().photos(d.came[1].id);
  REQUIRE(photos.size() == 1);
  CHECK(photos[0].face == Face::b);
  CHECK(photos[0].corners == pulled);
  CHECK_FALSE(corners->isVisible());
}

TEST_CASE("The sheet shown before printing is the sheet that comes out, PDF and printer alike") {
  const Logs d;
  TagPaper paper;
  paper.startAt = 4;
  TagPrint print(d.window->session(), d.look, d.book().rack(), paper, nullptr);
  const std::vector<pages::Page> shown = print.sheets();
  REQUIRE(shown.size() == 1);
  constexpr int dpi = 300;
  const QImage preview = pages::toImage(shown[0], dpi);
  const auto alike = [&](const QString& pdf) {
    const std::vector<QImage> sheets = test::renderPdf(pdf, dpi);
    REQUIRE(sheets.size() == 1);
    REQUIRE(std::abs(sheets[0].width() - preview.width()) <= 1);
    // Black and white against grey edges: cells of 2 mm are as dark as each other.
    constexpr int cell = 24;
    double worst = 0;
    for (int y = 0; y + cell < preview.height(); y += cell) {
      for (int x = 0; x + cell < preview.width(); x += cell) {
        double apart = 0;
        for (int dy = 0; dy < cell; ++dy) {
          for (int dx = 0; dx < cell; ++dx) {
            apart += qGray(preview.pixel(x + dx, y + dy)) - qGray(sheets[0].pixel(x + dx, y + dy));
          }
        }
        worst = std::max(worst, std::abs(apart) / (cell * cell));
      }
    }
    return worst;
  };
  const QString written = d.folder.path() + "/tags.pdf", printed = d.folder.path() + "/paper.pdf";
  print.writePdf(written);
  CHECK(print.printed());
  CHECK(print.paper().startAt == 8);  // four labels from the fourth on
  QPrinter printer(QPrinter::HighResolution);
  printer.setOutputFormat(QPrinter::PdfFormat);
  printer.setOutputFileName(printed);
  print.printOn(printer);
  CHECK(alike(written) < 48);
  CHECK(alike(printed) < 48);
  // The same codes on both, and nothing on the three labels used before.
  for (int x = 0; x < preview.width(); ++x) {
    for (int y = 0; y < 120; ++y) REQUIRE(qGray(preview.pixel(x, y)) == 255);
  }
}

TEST_CASE("Bins of shorts are made, filled, used and emptied from the rack by one line") {
  const Logs d;
  d.window->trigger(Act::bins);
  auto* line = d.named<Field>("What was done with the bin");
  auto* table = d.named<SheetTable>("Bins of untagged shorts");
  auto* boards = d.named<SheetTable>("Boards on the rack");
  REQUIRE(line->hasFocus());
  CHECK_FALSE(table->isVisible());
  CHECK_FALSE(boards->isVisible());
  const auto typed = [&](const char* words) {
    line->setFocus();
    line->selectAll();
    d.type(words);
    d.key(Qt::Key_Return);
  };
  const auto holds = [&](std::size_t bin) {
    return desk::estimatedFeet(d.book().bins().at(bin).wood);
  };
  typed("put 2");  // there is none yet
  CHECK(line->trouble());
  CHECK(d.book().bins().empty());
  typed("new cherry");
  REQUIRE(d.book().bins().size() == 1);
  CHECK(line->text().isEmpty());
  CHECK(table->isVisible());
  typed("put 2");
  CHECK(holds(0) == Feet{2000});
  typed("used 0.5, for wedges");
  CHECK(holds(0) == Feet{1500});
  typed("thrown 9");  // more than there is
  CHECK(holds(0) == Feet{1500});
  CHECK_FALSE(line->text().isEmpty());
  typed("burnt 1");
  CHECK(line->trouble());
  CHECK(line->accessibleDescription().contains("does not say what was done"));
  typed("holds 1");
  CHECK(holds(0) == Feet{1000});
  CHECK_FALSE(d.window->rack().can(Act::printTags));
  d.window->trigger(Act::undo);
  CHECK(holds(0) == Feet{1500});
  CHECK(d.window->session().book().check().empty());
  line->setFocus();
  d.key(Qt::Key_Escape);
  CHECK_FALSE(line->isVisible());
  CHECK(boards->isVisible());
  CHECK(d.window->rack().can(Act::printTags));
}

TEST_CASE("A line on a bin is read as it is said") {
  CHECK(readBinLine("put 2").feet == Feet{2000});
  CHECK(readBinLine("PUT 1.5").work == desk::BinWork::put);
  const BinLine used = readBinLine("used 1.5, Map Chest, top");
  CHECK(used.work == desk::BinWork::used);
  CHECK(used.feet == Feet{1500});
  CHECK(used.word == "Map Chest, top");
  CHECK(readBinLine("new white oak").species == "white oak");
  for (const char* bad : {"", "put", "put a lot", "new", "2", "holds"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(readBinLine(bad), Unreadable);
  }
}

TEST_CASE("What was done to the boards chosen is said in one line") {
  const Logs d;
  d.rack().open(d.came[0].id);
  const auto now = [&](std::size_t n) { return *d.book().board(d.came[n].id); };
  d.window->trigger(Act::sayDone);
  auto* line = d.named<Field>("What was done to the boards");
  REQUIRE(line->hasFocus());
  const auto typed = [&](const char* words) {
    line->setFocus();
    line->selectAll();
    d.type(words);
    d.key(Qt::Key_Return);
  };
  typed("bay C9");
  CHECK(now(0).bay == "C9");
  CHECK(now(1).bay != "C9");
  CHECK(line->text().isEmpty());
  typed("note For the door");
  CHECK(now(0).note == "For the door");
  typed("note");
  CHECK(now(0).note.empty());
  typed("keep back");
  CHECK(now(0).keptBack);
  typed("let go");
  CHECK_FALSE(now(0).keptBack);
  typed("moisture 13.5 resting");
  REQUIRE(now(0).readings.size() == 1);
  CHECK(now(0).readings[0].tenthsPercent == 135);
  CHECK(now(0).readings[0].state == MoistureState::resting);
  typed("moisture wet");
  CHECK(line->trouble());
  CHECK(now(0).readings.size() == 1);
  typed("burn it");
  CHECK(line->trouble());
  const std::optional<TagCode> worn = now(0).tag;
  typed("new tag");
  CHECK(now(0).tag != worn);
  // Of all boards chosen, in one entry.
  auto* table = d.named<SheetTable>("Boards on the rack");
  table->selectAll();
  REQUIRE(d.rack().selected().size() == d.came.size());
  const EntryId before = d.book().lastEntry();
  typed("bay D1");
  CHECK(d.book().lastEntry().value == before.value + 1);
  for (std::size_t n = 0; n < d.came.size(); ++n) CHECK(now(n).bay == "D1");
  table->selectAll();
  typed("new tag");  // one board at a time
  CHECK_FALSE(line->text().isEmpty());
  d.rack().open(d.came[1].id);
  typed("return honeycombed end");
  CHECK_FALSE(now(1).onRack());
  d.rack().open(d.came[2].id);
  typed("retire split in two");
  CHECK_FALSE(now(2).onRack());
  CHECK(d.window->session().book().check().empty());
  d.window->trigger(Act::undo);
  CHECK(now(2).onRack());
  line->setFocus();
  d.key(Qt::Key_Escape);
  CHECK_FALSE(line->isVisible());
}

namespace {

/// Boards 0 to 2 by the book in bay C1, board 3 in bay D1; both bays have tags.
struct Bays : Logs {
  std::vector<QString> bays;
  Bays() {
    store::Book& book = window->session().book();
    const store::Hand& hand = window->session().hand();
    desk::moveTo(book, {came[0], came[1], came[2]}, "C1", hand);
    desk::moveTo(book, {came[3]}, "D1", hand);
    for (const TagCode tag : desk::tagBays(book, {"C1", "D1"}, hand)) {
      bays.push_back(q(text(tag)));
    }
    window->session().look();
  }
  /// As a scanner types it.
  void scan(QString code) const {
    type(code.remove('-'));
    key(Qt::Key_Return);
  }
  [[nodiscard]] std::vector<QString> list(const char* name) const {
    const auto* table = named<SheetTable>(name);
    std::vector<QString> all;
    for (int row = 0; row < table->model()->rowCount(); ++row)
      all.push_back(table->model()->index(row, 0).data().toString());
    CHECK(table->isVisible() == !all.empty());
    return all;
  }
  [[nodiscard]] QString bayNow(std::size_t board) const {
    return q(book().board(came[board].id)->bay);
  }
};

using Tags = std::vector<QString>;

}  // namespace

TEST_CASE("A bay is counted by scanning: three lists fill, one entry posts it") {
  const Bays d;
  d.window->trigger(Act::countBay);
  CHECK_FALSE(d.rack().can(Act::postCount));
  CHECK_FALSE(d.named<SheetTable>("Boards on the rack")->isVisible());
  d.scan(d.bays[0]);
  REQUIRE(d.rack().can(Act::postCount));
  CHECK(d.list("Still to be seen") == Tags{d.tag(0), d.tag(1), d.tag(2)});
  d.scan(d.tag(1));
  d.scan(d.tag(3));
  d.scan(d.tag(1));  // once more is once
  CHECK(d.list("Here") == Tags{d.tag(1)});
  CHECK(d.list("Not expected") == Tags{d.tag(3)});
  CHECK(d.list("Still to be seen") == Tags{d.tag(0), d.tag(2)});

  // Misread, and the tag of another bay: told, nothing counted.
  QSignalSpy said(&d.rack(), &Place::said);
  QString wrong = d.tag(2);
  wrong.back() = wrong.back() == QChar('A') ? QChar('C') : QChar('A');
  d.scan(wrong);
  d.scan(d.bays[1]);
  REQUIRE(said.size() == 2);
  CHECK(said[0].at(1).toBool());
  CHECK(said[1].at(1).toBool());
  CHECK(said[1].at(0).toString().contains("C1 is being counted, not D1"));
  CHECK(d.list("Here") == Tags{d.tag(1)});

  // Left half-way, it is there again; the newest codes are taken back one by one.
  d.key(Qt::Key_Escape);
  CHECK(d.named<SheetTable>("Boards on the rack")->isVisible());
  d.window->trigger(Act::countBay);
  d.scan(d.tag(0));
  CHECK(d.list("Here") == Tags{d.tag(1), d.tag(0)});
  const EntryId before = d.book().lastEntry();
  d.window->trigger(Act::undo);
  CHECK(d.list("Here") == Tags{d.tag(1)});
  CHECK(d.book().lastEntry().value == before.value);

  d.scan(d.tag(0));
  d.window->trigger(Act::postCount);
  CHECK(d.book().lastEntry().value == before.value + 1);
  CHECK_FALSE(d.rack().can(Act::postCount));
  CHECK(d.bayNow(3) == "C1");
  CHECK_FALSE(d.book().board(d.came[2].id)->onRack());
  CHECK(d.book().board(d.came[0].id)->onRack());
  CHECK(d.window->session().book().check().empty());
  // Nothing is typed back now, so undo takes the entry.
  d.window->trigger(Act::undo);
  CHECK(d.book().board(d.came[2].id)->onRack());
  CHECK(d.bayNow(3) == "D1");
}

TEST_CASE("What is typed into a count is shown before it is taken") {
  const Bays d;
  d.window->trigger(Act::countBay);
  auto* line = d.named<CountView>("Count a bay")->findChild<Field*>();
  REQUIRE(line->hasFocus());
  const auto typed = [&](const QString& words) {
    line->selectAll();
    d.type(words);
  };
  typed("z9");
  CHECK(line->trouble());
  CHECK(line->accessibleDescription().contains("There is no bay z9"));
  typed("c1");
  d.key(Qt::Key_Return);
  REQUIRE(d.rack().can(Act::postCount));
  // A number by hand, without its check character: species and size stand beside it.
  typed(QString::number(d.came[2].tag->serial));
  CHECK(line->accessibleDescription().contains("cherry 4/4"));
  d.key(Qt::Key_Return);
  CHECK(d.list("Here") == Tags{d.tag(2)});
  typed("untagged 2");
  d.key(Qt::Key_Return);
  typed("not " + d.tag(2));
  d.key(Qt::Key_Return);
  CHECK(d.list("Here").empty());
  typed("not " + d.tag(2));
  d.key(Qt::Key_Return);
  CHECK_FALSE(line->text().isEmpty());
  typed("9999");
  CHECK(line->trouble());
  typed("drop");
  d.key(Qt::Key_Return);
  CHECK_FALSE(d.rack().can(Act::postCount));
  CHECK(line->text().isEmpty());
}

TEST_CASE("A line of a count is read as it is said") {
  CHECK(readCountWords("T0042-F").code == "T0042-F");
  CHECK(readCountWords(" 42 ").code == "42");
  CHECK(readCountWords("Not t0042-f").what == CountWords::What::takeOut);
  CHECK(readCountWords("untagged 3").untagged == 3);
  CHECK(readCountWords("DROP").what == CountWords::What::drop);
  for (const char* bad : {"", "untagged -1", "untagged 3.5", "untagged many", "untagged 10000"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(readCountWords(bad), Unreadable);
  }
}

TEST_CASE("A bay's tag shows what lies there, and moves what is chosen when that is being said") {
  const Bays d;
  auto* filter = d.named<Field>("Filter the rack");
  filter->setFocus();
  d.scan(d.bays[1]);
  CHECK(filter->text() == "D1");
  CHECK(d.tags() == Tags{d.tag(3)});
  d.window->trigger(Act::clearFilter);
  d.rack().open(d.came[0].id);
  d.window->trigger(Act::sayDone);
  d.scan(d.bays[1]);
  CHECK(d.bayNow(0) == "D1");
  CHECK(d.bayNow(1) == "C1");
}
