#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QProcess>
#include <catch2/catch.hpp>
#include <cmath>

#include "inventory/desk/receive.h"
#include "inventory/exchange/csv.h"
#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;
using desk::TallyCell;

namespace {

/// An empty book with a roll of blank tags, the tally open.
struct AtTruck : Driven {
  AtTruck() : Driven(true) {
    desk::reserveTags(window->session().book(), 60, window->session().hand());
    window->session().look();
    key(Qt::Key_1, Qt::ControlModifier);
  }
  [[nodiscard]] DeliveriesPlace& place() const { return window->deliveries(); }
  [[nodiscard]] TallyGrid& grid() const { return *named<TallyGrid>("Tally"); }
  void head(const QString& name, const QString& text) const {
    named<Field>(name)->setFocus();
    named<Field>(name)->selectAll();
    type(text);
    key(Qt::Key_Return);
  }
  /// The first line, all its cells; then lines of length, width and marks alone.
  void firstLine() const {
    head("Supplier", "Quillmere");
    for (const auto& [cell, text] :
         std::vector<std::pair<TallyCell, QString>>{{TallyCell::species, "cherry"},
                                                    {TallyCell::nominal, "4/4"},
                                                    {TallyCell::grade, "FAS"},
                                                    {TallyCell::looked, "rough"},
                                                    {TallyCell::price, "8.20"}}) {
      grid().goTo(0, cell);
      type(text);
    }
    grid().goTo(0, TallyCell::length);
    sizes("10-6", "8 3/4", "", "12-17");
  }
  void sizes(const QString& length, const QString& width, const QString& far = "",
             const QString& marks = "") const {
    for (const QString& text : {length, width, far, marks}) {
      type(text);
      key(Qt::Key_Return);
    }
  }
};

}  // namespace

TEST_CASE("A load is typed with Enter alone, tags from the roll, the rest carried down") {
  const AtTruck d;
  d.firstLine();
  REQUIRE(d.place().sheet().lines.size() == 2);
  const desk::TypedLine& second = d.place().sheet().lines[1];
  CHECK(second.at(TallyCell::tag) == "T0002-V");
  CHECK(second.at(TallyCell::species) == "cherry");
  CHECK(second.carried[static_cast<std::size_t>(TallyCell::species)]);
  CHECK(d.grid().line() == 1);
  CHECK(d.grid().cell() == TallyCell::length);
  d.sizes("10'1", "8-1/2", "8");
  REQUIRE(d.place().read().draft.lines.size() == 2);
  const TallyLine& read = d.place().read().draft.lines[1];
  CHECK(read.outline[0].length() == Length::inches(121));
  CHECK(text(*read.tag) == "T0002-V");
  CHECK(read.price == Money::tenThousandths(82'000));
  // 126 x 8 3/4 / 144 = 7.656 bf and 121 x 8 1/4 / 144 = 6.932 bf.
  CHECK(d.place().read().figures[0].measured == Feet{7'656});
  CHECK(d.place().read().figures[1].measured == Feet{6'932});
}

TEST_CASE("Ctrl+Enter receives the load with its marks, and the tally is empty again") {
  const AtTruck d;
  d.firstLine();
  d.sizes("8-2", "6 1/2", "6 1/4", "28-36, 91-end");
  d.head("Freight, by value", "20");
  d.grid().editor().setFocus();
  d.key(Qt::Key_Return, Qt::ControlModifier);
  const std::vector<Board> rack = d.book().rack();
  REQUIRE(rack.size() == 2);
  CHECK(text(*rack[0].tag) == "T0001-X");
  CHECK(rack[0].supplier == "Quillmere");
  CHECK(rack[0].looked == std::array{Looked::rough, Looked::rough});
  CHECK(rack[0].defects.size() == 1);
  CHECK(rack[1].defects.size() == 2);
  Money landed, price;
  for (const Board& board : rack) {
    landed += board.cost;
    price += board.price;
  }
  CHECK(landed == price + Money::units(20));
  CHECK(d.place().sheet().lines.size() == 1);
  CHECK(d.place().sheet().lines[0].at(TallyCell::tag) == "T0003-T");
  CHECK(d.window->session().book().draft("tally", d.window->session().hand().station).empty());
  // Undo takes back the marks, then the load.
  d.window->trigger(Act::undo);
  d.window->trigger(Act::undo);
  CHECK(d.book().rack().empty());
}

TEST_CASE("Receiving tells of boards short of the grade paid, with the money at stake") {
  const AtTruck d;
  QSignalSpy said(&d.place(), &DeliveriesPlace::said);
  d.head("Supplier", "Quillmere");
  for (const auto& [cell, text] :
       std::vector<std::pair<TallyCell, QString>>{{TallyCell::species, "red oak"},
                                                  {TallyCell::nominal, "4/4"},
                                                  {TallyCell::grade, "FAS"},
                                                  {TallyCell::looked, "rough"},
                                                  {TallyCell::price, "5"}}) {
    d.grid().goTo(0, cell);
    d.type(text);
  }
  d.grid().goTo(0, TallyCell::length);
  // Barred in its middle: two cuttings of No. 1 Common. 4 board feet, $20, 8 units for 10.
  d.sizes("8", "6", "", "46-50");
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(d.book().rack().size() == 1);
  REQUIRE(said.count() > 0);
  CHECK(said.last().at(0).toString().contains(
      "1 board looks short of the grade paid, about $4.00 at stake: an inspector decides"));
}

TEST_CASE("What is typed is kept line by line and is there when the window opens again") {
  AtTruck d;
  d.firstLine();
  d.sizes("9", "7");
  d.type("8-4");  // half-way through a line, Enter not pressed
  const desk::TallySheet typed = d.place().sheet();
  const std::string path = d.window->session().book().path();
  Look look;
  const std::unique_ptr<Window> again = openWindow(path, look);
  CHECK(again->deliveries().sheet() == typed);
  CHECK(again->deliveries().sheet().lines.size() == 3);
  CHECK(again->deliveries().read().figures.size() == 2);
}

TEST_CASE("A program killed half-way through a line loses nothing that was entered") {
  QTemporaryDir folder;
  const std::string path = (folder.path() + "/shop.flitch").toStdString();
  sample::makeEmptyBook(path);
  QProcess typist;
  typist.start(QString(FLITCHBOOK_BIN) + "/typist", {QString::fromStdString(path), "7"});
  REQUIRE(typist.waitForFinished(60'000));
  CHECK(typist.exitStatus() == QProcess::CrashExit);
  Look look;
  const std::unique_ptr<Window> again = openWindow(path, look);
  const desk::TallySheet& sheet = again->deliveries().sheet();
  CHECK(sheet.supplier == "Quillmere");
  REQUIRE(sheet.lines.size() == 8);
  for (std::size_t line = 0; line < 7; ++line) {
    CHECK(sheet.lines[line].at(TallyCell::length) == std::to_string(8 + line));
    CHECK(sheet.lines[line].at(TallyCell::width) == "6 1/4");
  }
  CHECK(again->deliveries().read().figures.size() == 7);
  CHECK(sheet.lines[7].at(TallyCell::length) == "9-11");  // Enter was pressed
  CHECK(sheet.lines[7].at(TallyCell::width).empty());     // and not here
  CHECK(again->session().book().check().empty());
}

TEST_CASE("A cell that cannot be read says so at once and nothing is received") {
  const AtTruck d;
  d.firstLine();
  d.type("106'");
  d.key(Qt::Key_Return);
  const desk::ReadLine& read = d.place().read().lines[1];
  REQUIRE_FALSE(read.faults.empty());
  CHECK(read.faults[0].cell == TallyCell::length);
  CHECK(read.faults[0].complaint.sentence.find("60 ft") != std::string::npos);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.book().rack().empty());
  CHECK(d.window->band().sentence().contains("T0002-V"));
}

TEST_CASE("A mark past the board's end is told while it is typed") {
  const AtTruck d;
  d.firstLine();
  d.sizes("4", "6", "", "50-60");
  const desk::ReadLine& read = d.place().read().lines[1];
  REQUIRE(read.faults.size() == 1);
  CHECK(read.faults[0].cell == TallyCell::marks);
  CHECK_FALSE(d.place().read().ready());
}

TEST_CASE("Typing is undone cell by cell, before any entry of the book") {
  const AtTruck d;
  d.firstLine();
  const EntryId last = d.book().lastEntry();
  d.type("9");
  d.key(Qt::Key_Return);
  CHECK(d.place().sheet().lines[1].at(TallyCell::length) == "9");
  d.window->trigger(Act::undo);
  CHECK(d.place().sheet().lines[1].at(TallyCell::length).empty());
  d.window->trigger(Act::undo);
  CHECK(d.place().sheet().lines.size() == 1);
  CHECK(d.book().lastEntry() == last);
}

TEST_CASE("A line is repeated with the next tag and taken off again") {
  const AtTruck d;
  d.firstLine();
  d.sizes("9", "7");
  d.key(Qt::Key_Up);
  d.key(Qt::Key_Delete, Qt::ControlModifier);
  CHECK(d.place().sheet().lines.size() == 2);
  d.grid().goTo(0, TallyCell::length);
  d.window->trigger(Act::removeLine);
  CHECK(d.place().sheet().lines.size() == 1);
}

TEST_CASE("40 boards are entered, marked and received with keys alone") {
  const AtTruck d;
  d.firstLine();
  for (int board = 1; board < 40; ++board) {
    d.sizes(QString("%1-%2").arg(7 + board % 5).arg(board % 12),
            QString("%1 1/4").arg(5 + board % 6), "", board % 7 == 0 ? "0-6" : "");
  }
  CHECK(d.place().read().figures.size() == 40);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.book().rack().size() == 40);
}

TEST_CASE("Cells of a spreadsheet are pasted as lines, with a head or without") {
  const AtTruck d;
  d.firstLine();
  QApplication::clipboard()->setText("9-2\t7 1/4\t7\n8\t6\t\n\n10-6\t9 1/2\t9\n");
  d.key(Qt::Key_V, Qt::ControlModifier);
  const auto& lines = d.place().sheet().lines;
  REQUIRE(lines.size() == 4);
  CHECK(lines[1].at(TallyCell::length) == "9-2");
  CHECK(lines[1].at(TallyCell::far) == "7");
  CHECK(lines[3].at(TallyCell::width) == "9 1/2");
  CHECK(lines[3].at(TallyCell::tag) == "T0004-R");
  CHECK(lines[3].at(TallyCell::species) == "cherry");
  CHECK(d.place().read().figures.size() == 4);
  QApplication::clipboard()->setText("Width\tSpecies\tnonsense\tLength\n5\tash\tx\t12\n");
  d.grid().goTo(3, TallyCell::tag);
  d.key(Qt::Key_V, Qt::ControlModifier);
  CHECK(d.place().sheet().lines[3].at(TallyCell::length) == "12");
  CHECK(d.place().sheet().lines[3].at(TallyCell::species) == "ash");
  CHECK(d.place().sheet().lines[3].at(TallyCell::width) == "5");
  d.window->trigger(Act::undo);
  CHECK(d.place().sheet().lines[3].at(TallyCell::species) == "cherry");
}

TEST_CASE("Unlikely figures are told and taken") {
  const AtTruck d;
  d.firstLine();
  d.sizes("10", "31");
  REQUIRE(d.place().read().lines[1].cautions.size() == 1);
  CHECK(d.place().read().lines[1].cautions[0] == "31 in is very wide for anything but a slab");
  CHECK(d.place().read().ready());
}

namespace {

/// A published board: what is typed of it, the rule it is counted by, its thousandths of a foot.
struct Published {
  std::string id, quarters, width, length;
  CountingRule rule;
  std::int64_t feet;
};

/// Rows of the published examples that are one board each and give a figure of feet.
std::vector<Published> publishedBoards() {
  const exchange::CsvFile file = exchange::readCsvFile(
      std::string(FLITCHBOOK_SOURCE) + "/tests/wood/data/board_measure_examples.csv");
  const auto upTo = [](const std::string& text, const char* word) {
    return text.substr(0, text.find(word));
  };
  std::vector<Published> boards;
  for (const exchange::CsvRow& row : file.rows) {
    const auto cell = [&](std::size_t at) { return row.cells[at].text; };
    const std::string id = cell(0), unit = cell(5);
    // A bundle without feet, bundles and pairs of boards, and a size that is no quarter.
    if (id == "BM07" || id == "BM16" || id == "BM17" || id == "BM18") continue;
    const std::string thick = cell(1) == "any"           ? "4/4"
                              : cell(1) == "4 in timber" ? "16/4"
                              : cell(1) == "2x4"         ? "8/4"
                              : cell(1) == "3/4 in"      ? "3/4"
                                                         : cell(1);
    const std::int64_t quarters = std::stoll(thick);
    const bool both = unit == "SM, BF";
    const bool surface = both || unit == "SM" || cell(6) == "SM x thickness" || id == "BM19";
    const std::string figure = both ? cell(4).substr(cell(4).find(", ") + 2) : cell(4);
    const double feet =
        unit == "SM" ? 0.25 * static_cast<double>(quarters) * std::stod(figure) : std::stod(figure);
    boards.push_back({id, thick, upTo(upTo(cell(2), " nominal"), " in"), cell(3),
                      surface ? CountingRule::surfaceMeasure : CountingRule::volume,
                      std::llround(feet * 1000)});
  }
  return boards;
}

}  // namespace

// Sources stand in the rows themselves: AHEC's grading guide, restated trade rules, C. A. King
// 1911.
TEST_CASE("Published boards typed into the tally are billed as published") {
  const AtTruck d;
  d.head("Supplier", "Quillmere");
  d.grid().goTo(0, TallyCell::species);
  d.type("cherry");
  d.key(Qt::Key_Return);
  auto* rule = d.named<Choice>("They count by");
  int boards = 0;
  for (const Published& board : publishedBoards()) {
    INFO(board.id);
    rule->setCurrentIndex(board.rule == CountingRule::surfaceMeasure ? 0 : 1);
    REQUIRE(countingRules[static_cast<std::size_t>(rule->currentIndex())] == board.rule);
    emit rule->activated(rule->currentIndex());
    for (const auto& [cell, text] :
         std::vector<std::pair<TallyCell, std::string>>{{TallyCell::nominal, board.quarters},
                                                        {TallyCell::length, board.length},
                                                        {TallyCell::width, board.width}}) {
      d.grid().goTo(0, cell);
      d.type(QString::fromStdString(text));
      d.key(Qt::Key_Return);
    }
    REQUIRE(d.place().read().figures.size() == 1);
    // Published to two places at most.
    CHECK(std::abs(d.place().read().figures[0].billed.thousandths - board.feet) < 5);
    ++boards;
  }
  CHECK(boards == 19);
}

TEST_CASE("The invoice is typed under the tally, and what it claims too much is told as typed") {
  const AtTruck d;
  d.firstLine();  // 8 3/4 in by 10 whole feet: a surface measure of 7, at $8.20 $57.40
  d.window->trigger(Act::invoice);
  const auto line = [&](const std::vector<QString>& cells) {
    for (const QString& text : cells) {
      d.type(text);
      d.key(Qt::Key_Return);
    }
  };
  line({"freight", "12.40", "feet"});
  line({"boards", "cherry", "4/4", "10", "82"});
  const desk::ReadTally& read = d.place().read();
  REQUIRE(read.draft.extras.size() == 1);
  CHECK(read.draft.extras[0].amount == Money::tenThousandths(124'000));
  CHECK(read.figures[0].landed == Money::tenThousandths(698'000));
  CHECK(std::get<Feet>(read.against.totals[5]) == Feet{3'000});
  CHECK(std::get<Money>(read.against.totals[8]) == Money::tenThousandths(246'000));
  // A bad amount keeps the load from being received and stays where it is.
  line({"tax", "lots"});
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.book().rack().empty());
  d.window->trigger(Act::undo);
  d.window->trigger(Act::undo);
  CHECK(d.place().read().ready());
  // An empty line goes back to the tally; there Ctrl+Enter receives.
  d.grid().editor().setFocus();
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(d.book().rack().size() == 1);
  CHECK(d.book().rack()[0].cost == Money::tenThousandths(698'000));
}

TEST_CASE("Ctrl+T shows outline points, and a board cut for the van becomes two lines") {
  const AtTruck d;
  d.firstLine();
  d.grid().goTo(0, TallyCell::length);
  d.grid().editor().setFocus();
  d.window->trigger(Act::cutForVan);
  REQUIRE(d.place().sheet().lines.size() == 3);
  d.type("4");
  d.key(Qt::Key_Return);
  CHECK(d.place().read().figures.size() == 2);
  CHECK(d.place().read().figures[1].billedWith == std::optional<std::size_t>(0));
  d.grid().goTo(2, TallyCell::length);
  d.type("8");
  d.key(Qt::Key_Return);
  d.window->trigger(Act::moreCells);
  CHECK(d.grid().cell() == TallyCell::outlineA);
  d.type("0:0-14; end:1-15");
  d.key(Qt::Key_Return);
  CHECK(d.grid().cell() == TallyCell::outlineB);
  d.window->trigger(Act::moreCells);
  REQUIRE(d.place().read().draft.lines.size() == 3);
  CHECK(d.place().read().draft.lines[2].outline[0].points().back().near == Length::inches(1));
}

TEST_CASE("A delivery in the book shows what is wrong, a board goes back and its credit comes") {
  const AtTruck d;
  d.firstLine();
  d.sizes("8", "6");
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(d.book().deliveries().size() == 1);
  d.place().showLoad(d.book().deliveries().front());
  LoadView& load = d.place().load();
  REQUIRE(load.chosen());
  const BoardId first = load.chosen()->id;
  d.window->trigger(Act::returnBoard);  // a reason is needed
  CHECK(d.book().board(first)->onRack());
  d.named<Field>("Reason")->setFocus();
  d.type("split");
  d.key(Qt::Key_Return);
  d.type("50");
  d.key(Qt::Key_Return);
  CHECK_FALSE(d.book().board(first)->onRack());
  REQUIRE(d.book().returns().size() == 1);
  CHECK(d.book().returns()[0].expected == Money::units(50));
  CHECK_FALSE(d.book().returns()[0].credited);
  d.named<Field>("Credit")->setFocus();
  d.type("41.25");
  d.key(Qt::Key_Return, Qt::NoModifier);
  REQUIRE(d.book().returns()[0].credited);
  CHECK(d.book().returns()[0].received == Money::tenThousandths(412'500));
  const QString path = d.folder.path() + "/claim.csv";
  load.writeClaim(path);
  QFile written(path);
  REQUIRE(written.open(QIODevice::ReadOnly));
  CHECK(written.readAll().startsWith("tag,what,species"));
  CHECK(d.window->session().book().check().empty());
}
