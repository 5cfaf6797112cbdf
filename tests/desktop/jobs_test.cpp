#include <QApplication>
#include <QClipboard>
#include <QFile>
#include <QLineEdit>
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "inventory/desk/jobs.h"
#include "inventory/records/choices.h"
#include "tests/desktop/drive.h"
#include "ui/desktop/glue_view.h"
#include "ui/desktop/laying.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

void planNow(const Driven& d) {
  d.window->jobs().setSeconds(2);
  d.key(Qt::Key_3, Qt::ControlModifier);
  QSignalSpy ended(&d.window->session(), &Session::planEnded);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(d.window->session().planning());
  REQUIRE((!ended.isEmpty() || ended.wait(30'000)));
}

/// A cell typed is closed, told and taken one event after the other, on a busy machine a round
/// each.
void takeTyped() {
  for (int round = 0; round < 6; ++round) QTest::qWait(5);
}

/// The first key may open the cell, which then has the others.
void enterCell(const Driven& d, const QString& text) {
  d.type(text.left(1));
  d.type(text.mid(1));
  d.key(Qt::Key_Return);
  takeTyped();
}

JobId jobOf(const Driven& d) { return d.book().jobs().front().id; }

}  // namespace

TEST_CASE("A job is planned with Ctrl+Enter, kept, and shown with its proof") {
  Driven d;
  planNow(d);
  const std::optional<store::StoredPlan> kept = d.book().newestPlan(jobOf(d));
  REQUIRE(kept);
  REQUIRE(d.window->jobs().sheet());
  CHECK(d.window->jobs().sheet()->plan == kept->plan);
  CHECK_FALSE(d.window->jobs().sheet()->boards.empty());
  CHECK(d.window->jobs().sheet()->plan.shorts.empty());
  const auto* head = d.named<PlanHead>("The plan and its proof");
  CHECK(head->sentence().startsWith("Best so far $") == (kept->plan.total() != kept->plan.bound));
  const TitleCell wood = d.window->jobs().cells()[1];
  CHECK(wood.value.contains("bf"));
}

TEST_CASE("A book opens where the last work was done") {
  Driven d;
  CHECK(d.window->rack().isVisible());
  planNow(d);
  const std::string path = d.window->session().book().path();
  Look look;
  const std::unique_ptr<Window> again = openWindow(path, look);
  again->show();
  CHECK(again->jobs().isVisible());
  CHECK(again->jobs().sheet().has_value());
  CHECK_FALSE(again->rack().isVisible());
}

TEST_CASE("Boards of the plan are gone through with arrows, Enter opens one in Rack") {
  Driven d;
  planNow(d);
  auto* view = d.named<PlanView>("Boards of the plan");
  view->setFocus();
  d.key(Qt::Key_Down);
  CHECK(view->current() == 0);
  CHECK(view->accessibleDescription().contains("Blank "));
  const Board first = d.window->jobs().sheet()->boards.front().board;
  d.key(Qt::Key_Return);
  const auto* drawn = d.named<BoardView>("Board, both faces");
  CHECK(drawn->hasFocus());
  CHECK(drawn->board()->id == first.id);
}

TEST_CASE("Stop answers at once and keeps the best plan so far") {
  Driven d;
  d.window->jobs().setSeconds(60);
  d.key(Qt::Key_3, Qt::ControlModifier);
  QSignalSpy ended(&d.window->session(), &Session::planEnded);
  QSignalSpy progressed(&d.window->session(), &Session::planProgressed);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE(d.window->session().planning());
  // The window stays usable: the other place opens, and comes back.
  d.key(Qt::Key_2, Qt::ControlModifier);
  CHECK(d.named("Boards on the rack")->isVisible());
  d.key(Qt::Key_3, Qt::ControlModifier);
  static_cast<void>(QTest::qWaitFor(
      [&] { return !ended.isEmpty() || !d.window->session().steps().empty(); }, 20'000));
  if (ended.isEmpty()) {
    QElapsedTimer clock;
    clock.start();
    d.key(Qt::Key_Escape);
    CHECK((d.window->session().stopping() || !d.window->session().planning()));
    REQUIRE((!ended.isEmpty() || ended.wait(5'000)));
    CHECK(clock.elapsed() < 3'000);
  }
  CHECK_FALSE(d.window->session().planning());
  CHECK(d.book().newestPlan(jobOf(d)).has_value());
}

TEST_CASE("Sawing as planned is asked in a band, recorded, and undone") {
  Driven d;
  planNow(d);
  const std::size_t before = d.book().rack().size();
  const std::size_t opened = d.window->jobs().sheet()->boards.size();
  d.key(Qt::Key_K, Qt::ControlModifier);
  Band* band = nullptr;
  for (Band* found : d.window->findChildren<Band*>()) {
    if (found->isVisible()) band = found;
  }
  REQUIRE(band != nullptr);
  CHECK(band->sentence().contains("as sawn as drawn"));
  CHECK(d.book().doneCuttings(jobOf(d)).empty());

  d.key(Qt::Key_Escape);
  CHECK_FALSE(band->isVisible());
  CHECK(d.book().doneCuttings(jobOf(d)).empty());

  d.key(Qt::Key_K, Qt::ControlModifier);
  d.key(Qt::Key_Return);
  CHECK(d.book().doneCuttings(jobOf(d)).size() == opened);
  CHECK(d.window->jobs().sheet()->unsawn() == 0);
  CHECK_FALSE(d.window->actions().at(Act::sawAsPlanned)->isEnabled());

  d.key(Qt::Key_Z, Qt::ControlModifier);
  CHECK(d.book().doneCuttings(jobOf(d)).empty());
  CHECK(d.book().rack().size() == before);
  CHECK(d.window->jobs().sheet()->unsawn() == opened);
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("A part chosen in the list frames its blanks, Esc lets go") {
  Driven d;
  planNow(d);
  auto* parts = d.named<PartsView>("Parts of the job");
  parts->setFocus();
  d.key(Qt::Key_Down);
  CHECK(parts->selectionModel()->hasSelection());
  d.key(Qt::Key_Escape);
  CHECK_FALSE(parts->selectionModel()->hasSelection());
}

TEST_CASE("Faces nobody has looked at are trusted only when asked") {
  Driven d;
  d.key(Qt::Key_3, Qt::ControlModifier);
  d.key(Qt::Key_U, Qt::ControlModifier);
  planNow(d);
  CHECK(d.book().newestPlan(jobOf(d))->plan.choices.trustUnseen);
  d.key(Qt::Key_U, Qt::ControlModifier);
  planNow(d);
  CHECK_FALSE(d.book().newestPlan(jobOf(d))->plan.choices.trustUnseen);
  CHECK(d.window->jobs().sheet()->unseen.permille == 0);
}

TEST_CASE("Part labels of the plan are written as PDF") {
  Driven d;
  CHECK_FALSE(d.window->actions().at(Act::partLabels)->isEnabled());
  planNow(d);
  CHECK(d.window->actions().at(Act::partLabels)->isEnabled());
  const QString path = d.folder.path() + "/labels.pdf";
  d.window->jobs().writePartLabels(path);
  QFile file(path);
  REQUIRE(file.open(QIODevice::ReadOnly));
  CHECK(file.readAll().startsWith("%PDF"));
  QSignalSpy said(&d.window->session(), &Session::said);
  d.window->jobs().writePartLabels(d.folder.path() + "/nowhere/labels.pdf");
  REQUIRE(said.size() == 1);
  CHECK(said.front().at(1).toBool());
}

TEST_CASE("All buttons over a plan show their words, at both sizes") {
  for (const QSize size : {QSize(1280, 720), QSize(2560, 1440)}) {
    Driven d(false, size);
    planNow(d);
    int seen = 0;
    for (const Button* button :
         d.named<PlanHead>("The plan and its proof")->findChildren<Button*>()) {
      if (!button->isVisible()) continue;
      ++seen;
      INFO(button->text().toStdString() << " at " << size.width());
      CHECK(button->width() >= button->sizeHint().width());
      CHECK(button->geometry().right() < button->parentWidget()->width());
    }
    CHECK(seen == 7);
  }
}

TEST_CASE("Planning again stopped at once keeps the plan there was") {
  Driven d;
  planNow(d);
  const store::StoredPlan before = d.book().newestPlan(jobOf(d)).value();
  d.window->jobs().setSeconds(0.01);
  QSignalSpy ended(&d.window->session(), &Session::planEnded);
  d.key(Qt::Key_Return, Qt::ControlModifier);
  REQUIRE((!ended.isEmpty() || ended.wait(30'000)));
  const store::StoredPlan after = d.book().newestPlan(jobOf(d)).value();
  CHECK(after.plan.total() <= before.plan.total());
  CHECK(after.plan.bound >= before.plan.bound);
  CHECK(d.window->jobs().sheet()->plan == after.plan);
}

TEST_CASE("Two plans of a job stand side by side, and its boards again") {
  Driven d;
  planNow(d);
  Window& window = *d.window;
  CHECK_FALSE(window.jobs().can(Act::twoPlans));
  auto* view = d.named<PlanView>("Boards of the plan");
  view->setFocus();
  d.key(Qt::Key_Down);
  window.trigger(Act::keepOutBoard);
  planNow(d);
  REQUIRE(d.book().plans(jobOf(d)).size() == 2);
  REQUIRE(window.jobs().can(Act::twoPlans));
  d.key(Qt::Key_B, Qt::ControlModifier | Qt::ShiftModifier);
  auto* table = d.named<SheetTable>("Two plans side by side");
  REQUIRE(table->isVisible());
  CHECK(table->hasFocus());
  CHECK_FALSE(view->isVisible());
  const auto cell = [&](int row, int column) {
    return table->model()->index(row, column).data().toString();
  };
  const std::string& sign = window.session().facts().sign;
  const std::vector<PlanId> plans = d.book().plans(jobOf(d));
  int costs = -1;
  for (int row = 0; row < table->model()->rowCount(); ++row) {
    if (cell(row, 0) == "cost in all") costs = row;
  }
  REQUIRE(costs >= 0);
  for (int plan = 0; plan < 2; ++plan) {
    const Money total = d.book().plan(plans[static_cast<std::size_t>(plan)])->plan.total();
    CHECK(cell(costs, 1 + plan).toStdString() == text(total, sign));
  }
  // The price takes its place, and the boards come back.
  window.trigger(Act::price);
  CHECK_FALSE(table->isVisible());
  CHECK(window.jobs().price().isVisible());
  window.trigger(Act::twoPlans);
  CHECK(table->isVisible());
  CHECK_FALSE(window.jobs().price().isVisible());
  window.trigger(Act::twoPlans);
  CHECK_FALSE(table->isVisible());
  CHECK(view->isVisible());
}

namespace {

/// A board of the plan with a blank that is a part by itself, and that blank.
struct Movable {
  std::size_t board = 0;
  Piece blank;
};
Movable movable(const PlanSheet& sheet) {
  for (std::size_t b = 0; b < sheet.boards.size(); ++b) {
    const Cutting& cutting = sheet.boards[b].cutting;
    for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
      const Piece& piece = cutting.pieces[i];
      if (piece.kind == PieceKind::blank && layupsOf(cutting, i).empty()) return {b, piece};
    }
  }
  FAIL("no blank to pull");
  return {};
}

void pull(PlanView& view, QPointF from, QPointF to, Qt::Key before = {}) {
  QWidget* on = view.viewport();
  QTest::mousePress(on, Qt::LeftButton, {}, from.toPoint());
  QTest::mouseMove(on, ((from + to) / 2).toPoint());
  QTest::mouseMove(on, to.toPoint());
  if (before != Qt::Key{}) QTest::keyClick(&view, before);
  QTest::mouseRelease(on, Qt::LeftButton, {}, to.toPoint());
}

}  // namespace

TEST_CASE("A blank is pulled to another place, the next plan keeps it there, and it is put back") {
  Driven d;
  planNow(d);
  auto* view = d.named<PlanView>("Boards of the plan");
  const PlanSheet sheet = *d.window->jobs().sheet();
  const Movable m = movable(sheet);
  const Board& board = sheet.boards[m.board].board;
  view->setCurrent(static_cast<int>(m.board));
  const QRectF lies = view->drawnAt(m.board, m.blank.at);
  // To the far end of the board, where ends and edges draw it.
  const Rect bounds = boundsOf(board);
  Rect there = m.blank.at;
  there.x = bounds.dx - sheet.shop.endTrim - there.dx;
  there.y = bounds.y + edgeTaken(board, sheet.shop);
  if (there.x - m.blank.at.x < Length::inches(1)) there.x = sheet.shop.endTrim;
  const QPointF to = view->drawnAt(m.board, there).center();

  QSignalSpy laid(view, &PlanView::layWanted);
  pull(*view, lies.center(), lies.center() + QPointF(2, 2));  // a hand that shakes
  CHECK(laid.isEmpty());
  pull(*view, lies.center(), to, Qt::Key_Escape);
  CHECK(laid.isEmpty());
  QSignalSpy said(&d.window->jobs(), &Place::said);
  pull(*view, lies.center(), to);
  REQUIRE(laid.size() == 1);
  const auto by = laid[0][0].value<LaidByHand>();
  CHECK(by.line == m.blank.line);
  CHECK(by.board == board.id);
  CHECK(by.at.y == there.y);
  REQUIRE(said.size() == 1);
  INFO(said[0][0].toString().toStdString());
  CHECK_FALSE(said[0][1].toBool());
  CHECK(said[0][0].toString().startsWith(q(laidText(by, board, Unit::inches))));

  planNow(d);
  const CutPlan planned = d.window->jobs().sheet()->plan;
  CHECK(planned.choices.laid == std::vector<LaidByHand>{by});
  CHECK(std::any_of(planned.cuttings.begin(), planned.cuttings.end(),
                    [&](const Cutting& cutting) { return holds(cutting, by); }));
  // Off every board it is laid by hand no more.
  std::size_t now = 0;
  const PlanSheet after = *d.window->jobs().sheet();
  while (after.boards[now].board.id != board.id) ++now;
  view->setCurrent(static_cast<int>(now));
  QSignalSpy off(view, &PlanView::takeUpWanted);
  pull(*view, view->drawnAt(now, by.at).center(), QPointF(20, -4000));
  CHECK(off.size() == 1);
  CHECK_FALSE(d.window->jobs().can(Act::settleNothing));
}

TEST_CASE("A blank is laid by a line too, and one that cannot lie there is refused at once") {
  Driven d;
  planNow(d);
  const PlanSheet sheet = *d.window->jobs().sheet();
  const Movable m = movable(sheet);
  const Board& board = sheet.boards[m.board].board;
  d.window->trigger(Act::layByHand);
  auto* line = d.named<Field>("Lay a blank by hand");
  REQUIRE(line->hasFocus());
  const auto typed = [&](const QString& words) {
    line->selectAll();
    d.type(words);
    d.key(Qt::Key_Return);
  };
  const QString tag = tagText(board), letter = q(partLetter(m.blank.line));
  typed(letter + "@" + tag + " 1");
  CHECK(line->trouble());
  typed(letter + "@" + tag + " 900,1");  // beyond the board
  CHECK_FALSE(line->text().isEmpty());
  CHECK_FALSE(d.window->jobs().can(Act::settleNothing));
  const LaidByHand as{board.id, m.blank.line, m.blank.at, m.blank.faceUp, m.blank.frontEdge};
  typed(q(laidText(as, board, Unit::inches)));
  CHECK(line->text().isEmpty());
  CHECK(d.window->jobs().can(Act::settleNothing));
  d.window->trigger(Act::settleNothing);
  CHECK_FALSE(d.window->jobs().can(Act::settleNothing));
  line->setFocus();
  d.key(Qt::Key_Escape);
  CHECK_FALSE(line->isVisible());
}

TEST_CASE("A blank in hand is drawn to ends, edges and blanks, on the grid and on the board") {
  Driven d;
  planNow(d);
  const PlanSheet sheet = *d.window->jobs().sheet();
  const Movable m = movable(sheet);
  const OpenedBoard& opened = sheet.boards[m.board];
  const Rect bounds = boundsOf(opened.board);
  const LaidByHand from{opened.board.id, m.blank.line, m.blank.at, m.blank.faceUp,
                        m.blank.frontEdge};
  const Length reach = Length::inches(1) / 2;
  const auto near = [&](Length x, Length y, const std::vector<LaidByHand>& laid = {}) {
    return laidNear(from, opened, laid, sheet, x, y, reach).at;
  };
  const Length edge = bounds.y + edgeTaken(opened.board, sheet.shop);
  CHECK(near(sheet.shop.endTrim + reach / 2, edge + reach / 3).x == sheet.shop.endTrim);
  CHECK(near(sheet.shop.endTrim + reach / 2, edge + reach / 3).y == edge);
  // Beside one that lies there, a kerf between.
  LaidByHand other = from;
  other.at.x = Length::inches(3);
  other.at.dx = Length::inches(2) + sheet.plan.tick;
  const Length beside = other.at.right() + sheet.shop.crosscutKerf;
  CHECK(near(beside + reach / 2, edge, {other}).x == beside);
  // Any pull ends on the grid and on the board.
  std::minstd_rand chance(7);
  std::uniform_int_distribution<std::int64_t> inches(-40, 200);
  for (int n = 0; n < 200; ++n) {
    const Rect at =
        near(Length::sixtyFourths(inches(chance) * 61), Length::sixtyFourths(inches(chance) * 13));
    CHECK(at.x.nm() % sheet.plan.tick.nm() == 0);
    CHECK(at.y.nm() % sheet.plan.tick.nm() == 0);
    CHECK(at.x >= Length());
    CHECK(at.right() <= bounds.dx);
    CHECK(at.y >= bounds.y);
    CHECK(at.top() <= bounds.top());
  }
  // In hand: one laid by hand before the plan's.
  CHECK_FALSE(blankAt(opened, {}, m.blank.at.x, m.blank.at.y)->laidBefore);
  CHECK(blankAt(opened, {from}, m.blank.at.x, m.blank.at.y)->laidBefore);
  CHECK_FALSE(blankAt(opened, {}, -Length::inches(1), Length()).has_value());
}

namespace {

/// The sample's shop with a panel 30 x 14 of cherry, planned and its staves shown.
struct Panels : Driven {
  JobId job;
  Panels() {
    Job top;
    top.name = "Top";
    top.parts.emplace_back();
    Part& p = top.parts[0];
    p.line = 1;
    p.name = "top";
    p.length = Length::inches(30);
    p.width = Length::inches(14);
    p.thickness = Length::sixtyFourths(44);
    p.species = {"cherry"};
    p.faceA = "sound";
    p.recipe = "glued";
    p.stavesFrom = Length::inches(3);
    p.stavesTo = Length::inches(4);
    job = desk::addJob(window->session().book(), top, window->session().hand());
    window->session().look();
    window->jobs().showJob(job);
    planNow(*this);
    window->trigger(Act::panels);
  }
  [[nodiscard]] GlueView& view() const { return *named<GlueView>("Panels, stave by stave"); }
  /// What is chalked on the staves from the front edge on.
  [[nodiscard]] static std::vector<int> chalked(const CutPlan& plan) {
    std::vector<int> all;
    const std::vector<GlueUp> panels = glueUpsOf(plan);
    for (const auto& section : panels.at(0).sections) {
      for (const Glued& stave : section) all.push_back(stave.blank.copy);
    }
    return all;
  }
  [[nodiscard]] CutPlan kept() const { return book().newestPlan(job)->plan; }
};

}  // namespace

TEST_CASE("Staves are moved and turned on the screen, taken back, and kept as they lie") {
  const Panels d;
  REQUIRE(d.view().isVisible());
  REQUIRE(d.view().hasFocus());
  const CutPlan before = d.kept();
  const std::vector<int> first = Panels::chalked(before);
  REQUIRE(first.size() > 2);
  CHECK(d.view().accessibleDescription().contains("stave 1 of"));
  d.key(Qt::Key_Up);
  CHECK(d.view().slot() == 2);
  d.key(Qt::Key_Down, Qt::ShiftModifier);
  CHECK(d.view().slot() == 1);
  std::vector<int> swapped = first;
  std::swap(swapped[0], swapped[1]);
  CHECK(Panels::chalked(d.view().plan()) == swapped);
  CHECK(d.kept() == before);  // not before Enter
  d.key(Qt::Key_E);
  CHECK(d.view().changed());
  d.window->trigger(Act::undo);
  d.window->trigger(Act::undo);
  CHECK_FALSE(d.view().changed());
  CHECK(d.view().plan() == before);

  d.key(Qt::Key_Up, Qt::ShiftModifier);
  const EntryId entry = d.book().lastEntry();
  d.key(Qt::Key_Return);
  CHECK(d.book().lastEntry().value == entry.value + 1);
  CHECK(Panels::chalked(d.kept()) != first);
  CHECK(d.kept().total() == before.total());
  CHECK(d.kept().bound == before.bound);
  CHECK_FALSE(d.view().changed());
  CHECK(d.window->session().book().check().empty());
  // Undo takes the entry now.
  d.window->trigger(Act::undo);
  CHECK(Panels::chalked(d.kept()) == first);
  d.view().setFocus();
  d.key(Qt::Key_Escape);
  CHECK_FALSE(d.view().isVisible());
}

TEST_CASE("A stave that cannot lie so is told, and a job without panels has none to show") {
  Driven plain;
  planNow(plain);
  CHECK_FALSE(plain.window->jobs().can(Act::panels));

  const Panels d;
  // Faces nobody looked at, and marks that the part may not show: some stave cannot be turned over.
  QSignalSpy said(&d.view(), &GlueView::said);
  const std::size_t staves = Panels::chalked(d.kept()).size();
  std::size_t turned = 0;
  for (std::size_t s = 0; s < staves; ++s) {
    const CutPlan was = d.view().plan();
    d.key(Qt::Key_F);
    const bool told = !said.isEmpty() && said.back().at(1).toBool();
    CHECK((d.view().plan() == was) == told);
    if (!told) ++turned;
    said.clear();
    d.key(Qt::Key_Up);
  }
  CHECK(turned <= staves);
}

TEST_CASE("From a pasted parts list to a printed quote") {
  Driven d;
  d.key(Qt::Key_3, Qt::ControlModifier);
  QSignalSpy said(&d.window->session(), &Session::said);
  QApplication::clipboard()->setText("");
  d.window->trigger(Act::pasteParts);
  REQUIRE(said.size() == 1);
  CHECK(said[0][0].toString().contains("no parts list on the clipboard"));
  // A cell that cannot be read is named, and nothing is asked.
  QApplication::clipboard()->setText(
      "part\tcount\tlength\twidth\tthickness\tspecies\nrail\ttwo\t30\t2 1/2\t3/4\tcherry\n");
  d.window->trigger(Act::pasteParts);
  REQUIRE(said.size() == 2);
  CHECK(said[1][0].toString().contains("two"));
  auto* name = d.named<Field>("Name of the job");
  CHECK_FALSE(name->isVisible());

  // As a spreadsheet copies it.
  QApplication::clipboard()->setText(
      "part\tcount\tlength\twidth\tthickness\tspecies\r\nrail\t2\t30\t2 1/2\t3/4\tcherry\r\n"
      "shelf\t1\t24\t3\t3/4\tcherry\r\n");
  d.window->trigger(Act::pasteParts);
  REQUIRE(name->hasFocus());
  CHECK(name->accessibleDescription().contains("2 parts, 3 pieces: rail, shelf"));
  const std::size_t before = d.book().jobs().size();
  d.key(Qt::Key_Escape);
  CHECK_FALSE(name->isVisible());
  CHECK(d.book().jobs().size() == before);
  d.window->trigger(Act::pasteParts);
  d.type("Map chest");  // there is one
  d.key(Qt::Key_Return);
  CHECK(d.book().jobs().size() == before);
  name->selectAll();
  d.type("Wall rack, the harbour office");
  d.key(Qt::Key_Return);
  REQUIRE(d.book().jobs().size() == before + 1);
  const std::optional<Job> job = d.book().jobNamed("Wall rack");
  REQUIRE(job);
  CHECK(job->customer == "the harbour office");
  CHECK(job->parts.size() == 2);
  CHECK_FALSE(name->isVisible());

  planNow(d);
  REQUIRE(d.window->jobs().sheet());
  CHECK(d.window->jobs().sheet()->job.name == "Wall rack");
  CHECK(d.window->jobs().sheet()->plan.shorts.empty());
  d.key(Qt::Key_E, Qt::ControlModifier);
  REQUIRE(d.window->jobs().can(Act::quote));
  const QString quote = d.folder.filePath("quote.pdf");
  d.window->jobs().writeQuote(quote);
  QFile written(quote);
  REQUIRE(written.open(QIODevice::ReadOnly));
  CHECK(written.read(5) == "%PDF-");
  CHECK(d.book().quotes(job->id).size() == 1);
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("A cell of the parts list typed over changes the job, which is planned again") {
  Driven d;
  planNow(d);
  auto* parts = d.named<PartsView>("Parts of the job");
  REQUIRE(parts != nullptr);
  QSignalSpy said(&d.window->session(), &Session::said);
  const auto typeOver = [&](int row, int column, const QString& text) {
    parts->setFocus();
    parts->setCurrentIndex(parts->model()->index(row, column));
    d.key(Qt::Key_F2);
    auto* field = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    REQUIRE(field != nullptr);
    field->selectAll();
    d.type(text);
    d.key(Qt::Key_Return);
    takeTyped();
  };
  const auto job = [&] { return d.book().job(jobOf(d)).value(); };
  const Job before = job();
  typeOver(0, PartsModel::count, "5 + 2");
  CHECK(job().parts[0].copies == 5);
  CHECK(job().parts[0].spares == 2);
  CHECK_FALSE(d.book().newestPlan(before.id));
  CHECK_FALSE(d.window->jobs().sheet());
  typeOver(0, PartsModel::length, "30 1/4");
  CHECK(job().parts[0].length == Length::sixtyFourths(30 * 64 + 16));
  typeOver(0, PartsModel::width, "2 * 1 1/4");
  CHECK(job().parts[0].width == Length::sixtyFourths(160));
  typeOver(0, PartsModel::name, "long rail");
  CHECK(job().parts[0].name == "long rail");
  CHECK(job().parts[0].line == before.parts[0].line);

  // The same in other words is no change, and none is claimed.
  const Job then = job();
  said.clear();
  typeOver(0, PartsModel::length, "30.25");
  CHECK(job() == then);
  CHECK(said.isEmpty());
  // What cannot be read is told, the job stays as it is; Esc changes nothing.
  typeOver(0, PartsModel::count, "some");
  REQUIRE_FALSE(said.isEmpty());
  CHECK(said.back()[0].toString().contains("some"));
  CHECK(said.back()[1].toBool());
  parts->setCurrentIndex(parts->model()->index(0, PartsModel::count));
  d.key(Qt::Key_F2);
  d.type("9");
  d.key(Qt::Key_Escape);
  takeTyped();
  CHECK(job() == then);

  // A count of 0 takes the part out; undone one by one, the job and its plan are as they were.
  typeOver(0, PartsModel::count, "0");
  CHECK(job().parts.size() == before.parts.size() - 1);
  for (int step = 0; step < 5; ++step) d.window->trigger(Act::undo);
  CHECK(job().parts == before.parts);
  CHECK(d.book().newestPlan(before.id));
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("Another part is typed below the last, Enter going on from cell to cell") {
  Driven d;
  planNow(d);
  auto* parts = d.named<PartsView>("Parts of the job");
  QSignalSpy said(&d.window->session(), &Session::said);
  const auto job = [&] { return d.book().job(jobOf(d)).value(); };
  const Job before = job();
  const int below = static_cast<int>(before.parts.size());
  const auto enter = [&](const QString& text) { enterCell(d, text); };
  // A key hit by chance on a part changes nothing.
  parts->setFocus();
  parts->setCurrentIndex(parts->model()->index(0, PartsModel::length));
  d.type("7");
  CHECK(QApplication::focusWidget() == parts);
  CHECK(job() == before);

  // Any key on the row below begins a part, wherever the row is entered.
  parts->setCurrentIndex(parts->model()->index(below, PartsModel::width));
  enter("stretcher, ash or cherry");
  d.key(Qt::Key_A, Qt::ControlModifier);
  enter("2 + 1");
  enter("18 1/4");
  CHECK(job() == before);
  if (parts->wide()) {
    enter("1 1/2");
    d.key(Qt::Key_A, Qt::ControlModifier);
    enter("7/8");
  } else {
    enter("1 1/2 x 7/8");
  }
  REQUIRE(job().parts.size() == before.parts.size() + 1);
  const Part added = job().parts.back();
  CHECK(added.name == "stretcher");
  CHECK(added.species == std::vector<std::string>{"ash", "cherry"});
  CHECK(added.copies == 2);
  CHECK(added.spares == 1);
  CHECK(added.length == Length::sixtyFourths(18 * 64 + 16));
  CHECK(added.width == Length::sixtyFourths(96));
  CHECK(added.thickness == Length::sixtyFourths(56));
  CHECK(added.faceA == "clear");
  // The row waits for the next, which is like the one before where nothing is said.
  CHECK(parts->currentIndex().row() == below + 1);
  enter("cleat");
  enter("");
  enter("12");
  enter("two");
  if (parts->wide()) enter("");
  CHECK(job().parts.size() == before.parts.size() + 1);
  REQUIRE_FALSE(said.isEmpty());
  CHECK(said.back()[0].toString().contains("two"));
  CHECK(said.back()[1].toBool());
  // Mended, it joins.
  parts->setCurrentIndex(parts->model()->index(below + 1, PartsModel::width));
  d.key(Qt::Key_F2);
  d.key(Qt::Key_A, Qt::ControlModifier);
  enter("2");
  REQUIRE(job().parts.size() == before.parts.size() + 2);
  CHECK(job().parts.back().copies == 1);
  CHECK(job().parts.back().species == added.species);
  CHECK(job().parts.back().thickness == added.thickness);

  // What a part asks, in words; and its species with its name.
  const auto typeOver = [&](int row, int column, const QString& text) {
    parts->setCurrentIndex(parts->model()->index(row, column));
    d.key(Qt::Key_F2);
    d.key(Qt::Key_A, Qt::ControlModifier);
    enter(text);
  };
  typeOver(below, PartsModel::asks, "clear, hidden; front clear, back sound");
  CHECK(asksText(job().parts[before.parts.size()]) ==
        "face A clear, face B hidden, front edge clear, other edge sound");
  typeOver(below, PartsModel::asks, "clear");
  CHECK(asksText(job().parts[before.parts.size()]) ==
        "face A clear, face B clear, front edge clear, other edge clear");
  typeOver(below, PartsModel::asks, "sound, hidden");
  CHECK(asksText(job().parts[before.parts.size()]) ==
        "face A sound, face B hidden, front edge clear, other edge clear");
  said.clear();
  typeOver(below, PartsModel::asks, "shiny");
  REQUIRE_FALSE(said.isEmpty());
  CHECK(said.back()[0].toString().contains("shiny"));
  typeOver(below, PartsModel::name, ", cherry");
  CHECK(job().parts[before.parts.size()].name == "stretcher");
  CHECK(job().parts[before.parts.size()].species == std::vector<std::string>{"cherry"});
  typeOver(below, PartsModel::name, "rail, upper");
  CHECK(job().parts[before.parts.size()].name == "rail, upper");

  for (int step = 0; step < 7; ++step) d.window->trigger(Act::undo);
  CHECK(job().parts == before.parts);
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("A new job is typed from its first part on") {
  Driven d;
  d.key(Qt::Key_3, Qt::ControlModifier);
  d.window->trigger(Act::newJob);
  auto* first = d.named<Field>("First part of the job");
  REQUIRE(first != nullptr);
  REQUIRE(first->hasFocus());
  d.type("rail, 2, 30");
  d.key(Qt::Key_Return);
  CHECK(first->accessibleDescription().contains("3 of its 6 cells"));
  d.type(", 2 1/2, 3/4, cherrry");
  d.key(Qt::Key_Return);
  CHECK(first->accessibleDescription().contains("cherrry"));
  first->setText("rail, 2, 30, 2 1/2, 3/4, cherry");
  d.key(Qt::Key_Return);
  auto* name = d.named<Field>("Name of the job");
  REQUIRE(name != nullptr);
  REQUIRE(name->hasFocus());
  CHECK(name->accessibleDescription().contains("1 part, 2 pieces: rail"));
  d.type("Coat rack");
  d.key(Qt::Key_Return);
  const std::optional<Job> job = d.book().jobNamed("Coat rack");
  REQUIRE(job);
  REQUIRE(job->parts.size() == 1);
  CHECK(job->parts[0].copies == 2);
  CHECK(job->parts[0].width == Length::sixtyFourths(160));
  // Esc drops a part half typed.
  d.window->trigger(Act::newJob);
  d.type("shelf, 1");
  d.key(Qt::Key_Escape);
  CHECK_FALSE(first->isVisible());
  CHECK(d.book().jobs().size() == 2);
}

TEST_CASE("What is settled stays settled when a part changes that it is not about") {
  Driven d;
  planNow(d);
  const PlanSheet sheet = *d.window->jobs().sheet();
  REQUIRE_FALSE(sheet.boards.empty());
  auto* view = d.named<PlanView>("Boards of the plan");
  REQUIRE(view != nullptr);
  view->setCurrent(0);
  d.window->trigger(Act::lockBoard);
  const Job job = d.book().job(jobOf(d)).value();
  auto* parts = d.named<PartsView>("Parts of the job");
  parts->setFocus();
  parts->setCurrentIndex(
      parts->model()->index(static_cast<int>(job.parts.size()), PartsModel::name));
  for (const char* cell : {"stretcher", "", "12", "2"}) enterCell(d, cell);
  if (parts->wide()) enterCell(d, "");
  REQUIRE(d.book().job(job.id)->parts.size() == job.parts.size() + 1);
  planNow(d);
  const CutPlan again = d.book().newestPlan(job.id)->plan;
  REQUIRE(again.choices.locks.size() == 1);
  CHECK(again.choices.locks[0].cutting == sheet.boards[0].cutting);
}
