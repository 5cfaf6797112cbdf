#include <QAbstractItemModelTester>
#include <QFile>
#include <catch2/catch.hpp>

#include "inventory/desk/saw.h"
#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;
using Shown = LedgerPlace::Shown;

namespace {

/// A window whose only job is planned and sawn, at the ledger.
struct AtLedger : Driven {
  AtLedger() {
    window->jobs().setSeconds(2);
    key(Qt::Key_3, Qt::ControlModifier);
    QSignalSpy ended(&window->session(), &Session::planEnded);
    key(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE((!ended.isEmpty() || ended.wait(30'000)));
    desk::sawAsPlanned(window->session().book(), book().jobs().front().id, {}, {"tester", "bench"});
    window->session().look();
    key(Qt::Key_5, Qt::ControlModifier);
  }
  [[nodiscard]] LedgerPlace& place() const { return window->ledger(); }
  [[nodiscard]] SheetTable& rows() const { return *named<SheetTable>("Report"); }
};

std::string titleOf(const LedgerPlace& place) { return place.table().title; }

}  // namespace

TEST_CASE("The ledger opens with where the wood went, from the boards sawn down to the parts") {
  const AtLedger d;
  const auto& columns = d.place().plot().columns;
  REQUIRE(columns.size() >= 8);
  CHECK(columns.front().name == "Boards sawn");
  CHECK(columns.back().name == "Parts");
  // The fall ends where the parts begin.
  const double down = columns[columns.size() - 2].boxes.front().to;
  CHECK(std::abs(down - columns.back().boxes.front().to) < 1e-9);
  CHECK(titleOf(d.place()) == "Yield by supplier, board feet");
  CHECK(d.window->ledger().cells()[0].value == "Where the wood went");
  auto* in = d.named<Choice>("Figures of the report");
  in->setCurrentIndex(1);
  emit in->activated(1);
  CHECK(titleOf(d.place()) == "Yield by supplier, money");
}

TEST_CASE("Enter goes down from a row to its boards and a board's family, Backspace up again") {
  const AtLedger d;
  d.rows().setFocus();
  d.key(Qt::Key_Return);
  REQUIRE(titleOf(d.place()).rfind("Boards of ", 0) == 0);
  const std::size_t boards = d.place().table().rows.size();
  CHECK(boards > 0);
  d.key(Qt::Key_Return);
  CHECK(titleOf(d.place()).rfind("Family: ", 0) == 0);
  CHECK(d.window->actions().at(Act::goUp)->isEnabled());
  d.key(Qt::Key_Backspace);
  CHECK(d.place().table().rows.size() == boards);
  d.key(Qt::Key_Backspace);
  CHECK(titleOf(d.place()) == "Yield by supplier, board feet");
  CHECK_FALSE(d.window->actions().at(Act::goUp)->isEnabled());
}

TEST_CASE("Every report has rows or says why not, and Down goes through all of them") {
  const AtLedger d;
  auto* list = d.named<ReportList>("Reports");
  REQUIRE(list);
  list->setFocus();
  std::set<std::string> titles;
  for (std::size_t n = 0; n < list->rows().size(); ++n) {
    CHECK(list->current() == static_cast<int>(n));
    titles.insert(titleOf(d.place()));
    CHECK(d.named<PlotView>("Plot")->accessibleDescription().size() > 10);
    d.key(Qt::Key_Down);
  }
  CHECK(titles.size() == list->rows().size());
}

TEST_CASE("The stock of a past day is shown, a day that is none is told") {
  const AtLedger d;
  d.place().show(Shown::stock);
  CHECK_FALSE(d.place().table().rows.empty());
  auto* day = d.named<Field>("Day of the stock");
  day->setFocus();
  d.type("2001-01-01");
  d.key(Qt::Key_Return);
  CHECK(d.place().table().rows.empty());
  CHECK(d.named<PlotView>("Plot")->accessibleDescription() == "Nothing was on the rack that day.");
  day->clear();
  d.type("yesterday");
  d.key(Qt::Key_Return);
  CHECK(d.window->band().sentence().contains("\"yesterday\" is not a day"));
}

TEST_CASE("A scanned tag shows the board's family, sawn or not") {
  const AtLedger d;
  const store::DoneCutting done = d.book().doneCuttings(std::nullopt).front();
  CHECK(d.place().find(QString::fromStdString(text(*done.board.tag))));
  CHECK(titleOf(d.place()).rfind("Family: ", 0) == 0);
  CHECK_FALSE(d.place().find("T0999"));
  CHECK_FALSE(d.window->band().sentence().isEmpty());
}

TEST_CASE("What is shown is written as CSV and PDF, a folder that is not there is told") {
  const AtLedger d;
  d.place().writeCsvTo(d.folder.filePath("report.csv"));
  QFile csv(d.folder.filePath("report.csv"));
  REQUIRE(csv.open(QIODevice::ReadOnly));
  CHECK(csv.readAll().startsWith("supplier,boards,sawn,parts,"));
  d.place().writePdfTo(d.folder.filePath("report.pdf"));
  QFile pdf(d.folder.filePath("report.pdf"));
  REQUIRE(pdf.open(QIODevice::ReadOnly));
  CHECK(pdf.readAll().startsWith("%PDF"));
  d.place().writeCsvTo(d.folder.filePath("no/such/folder/report.csv"));
  CHECK(d.window->band().sentence().contains("cannot be written"));
}

TEST_CASE("A report sorts by a column, totals stay last") {
  TableModel model(Unit::inches, "$", nullptr);
  const QAbstractItemModelTester tester(&model,
                                        QAbstractItemModelTester::FailureReportingMode::Fatal);
  Table table;
  table.columns = {{"name", "name", false}, {"cost", "cost", true}};
  table.rows = {{std::string("b"), Money::units(20)},
                {std::string("a"), Money::units(100)},
                {std::string("c"), Money::units(3)}};
  table.totals = {std::string("all"), Money::units(123)};
  table.boards = {{BoardId{2}}, {BoardId{1}}, {BoardId{3}}};
  model.setTable(table);
  const auto shown = [&] {
    QStringList all;
    for (int r = 0; r < model.rowCount(); ++r) all << model.index(r, 0).data().toString();
    return all.join(' ');
  };
  CHECK(shown() == "b a c all");
  model.sort(1, Qt::AscendingOrder);
  CHECK(shown() == "c b a all");
  model.sort(1, Qt::DescendingOrder);
  CHECK(shown() == "a b c all");
  model.sort(0, Qt::DescendingOrder);
  CHECK(shown() == "c b a all");
  CHECK(model.boards(0) == std::vector{BoardId{3}});
  CHECK(model.boards(3).empty());
  CHECK(model.index(0, 1).data() == "$3.00");
}

TEST_CASE("Before anything is sawn the ledger says so") {
  const Driven d;
  d.key(Qt::Key_5, Qt::ControlModifier);
  CHECK(d.named<PlotView>("Plot")->accessibleDescription().startsWith("No board is sawn yet"));
  CHECK_FALSE(d.named<SheetTable>("Report")->isVisible());
}
