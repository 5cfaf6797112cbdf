#include <catch2/catch.hpp>

#include "tests/desktop/drive.h"

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
