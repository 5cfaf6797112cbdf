#include <catch2/catch.hpp>

#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

/// A window whose only job is planned, at the saw.
struct AtSaw : Driven {
  JobId job;
  AtSaw() {
    window->jobs().setSeconds(2);
    key(Qt::Key_3, Qt::ControlModifier);
    QSignalSpy ended(&window->session(), &Session::planEnded);
    key(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE((!ended.isEmpty() || ended.wait(30'000)));
    job = book().jobs().front().id;
    key(Qt::Key_4, Qt::ControlModifier);
  }
  [[nodiscard]] const SawSheet& sheet() const { return *named<SawSheet>("Cut at hand"); }
  [[nodiscard]] std::size_t sawn() const { return book().doneCuttings(job).size(); }
  /// Space once for every cut of the board at the saw.
  void cutThrough() const {
    const int steps = sheet().steps();
    for (int s = 0; s < steps; ++s) key(Qt::Key_Space);
  }
  [[nodiscard]] std::string firstBlank() const {
    return desk::marksOf(window->saw().board()->cutting).front();
  }
};

}  // namespace

TEST_CASE("A board is sawn cut by cut with one key, and the last cut records it") {
  const AtSaw d;
  const std::size_t all = d.window->saw().sheet()->boards.size();
  REQUIRE(all > 1);
  const Board board = d.window->saw().board()->board;
  CHECK(d.sheet().sentence().startsWith("cut 1, "));
  const int steps = d.sheet().steps();
  REQUIRE(steps > 2);
  for (int s = 1; s < steps; ++s) {
    d.key(Qt::Key_Space);
    CHECK(d.sheet().made() == s);
    CHECK(d.sawn() == 0);
  }
  d.key(Qt::Key_Backspace);
  CHECK(d.sheet().made() == steps - 2);
  d.key(Qt::Key_Space);
  d.key(Qt::Key_Space);
  CHECK(d.sawn() == 1);
  CHECK(d.book().doneCuttings(d.job)[0].board.id == board.id);
  // The next board lies ready, its first cut at hand.
  REQUIRE(d.window->saw().board());
  CHECK(d.window->saw().board()->board.id != board.id);
  CHECK(d.sheet().made() == 0);
  CHECK(d.window->saw().cells()[1].value == QString("1 of %1 boards").arg(all));
  CHECK(d.named<PullList>("Pull list")->rows().size() == all);
  d.key(Qt::Key_Z, Qt::ControlModifier);
  CHECK(d.sawn() == 0);
}

TEST_CASE("Cuts made are kept while another board is looked at") {
  const AtSaw d;
  d.key(Qt::Key_Space);
  const BoardId first = d.window->saw().board()->board.id;
  d.key(Qt::Key_N);
  CHECK(d.window->saw().board()->board.id != first);
  CHECK(d.sheet().made() == 0);
  d.named<PullList>("Pull list")->setFocus();
  d.key(Qt::Key_Home);
  CHECK(d.window->saw().board()->board.id == first);
  CHECK(d.sheet().made() == 1);
}

TEST_CASE("A blank lost at the saw is wanted again, one that is not there is not taken") {
  const AtSaw d;
  const std::string mark = d.firstBlank();
  d.key(Qt::Key_L);
  d.type("Z99");
  CHECK(d.window->saw().board() != nullptr);
  d.key(Qt::Key_Return);
  d.cutThrough();
  CHECK(d.sawn() == 0);
  CHECK(d.window->band().sentence().contains("Z99"));
  // Put right, one key more records it.
  d.key(Qt::Key_L);
  d.type(QString::fromStdString(mark));
  d.key(Qt::Key_Return);
  d.key(Qt::Key_Space);
  CHECK(d.sawn() == 1);
  REQUIRE(d.book().spoiled(d.job).size() == 1);
  CHECK(handMark(d.book().spoiled(d.job)[0].line, d.book().spoiled(d.job)[0].copy) == mark);
}

TEST_CASE("A scanned board of the plan is laid on the saw, another is refused with a bay") {
  const AtSaw d;
  const auto& boards = d.window->saw().sheet()->boards;
  const Board wanted = boards.back().board;
  CHECK(d.window->saw().find(QString::fromStdString(text(*wanted.tag))));
  CHECK(d.window->saw().board()->board.id == wanted.id);
  for (const Board& other : d.book().rack()) {
    const bool planned = std::any_of(boards.begin(), boards.end(),
                                     [&](const OpenedBoard& b) { return b.board.id == other.id; });
    if (planned) continue;
    CHECK(d.window->saw().find(QString::fromStdString(text(*other.tag))));
    const QString sentence = d.window->band().sentence();
    CHECK(sentence.contains(QString::fromStdString(text(*other.tag)) + " is not in the plan"));
    CHECK(sentence.contains("Fetch " + QString::fromStdString(text(*wanted.tag))));
    CHECK(d.window->saw().board()->board.id == wanted.id);
    return;
  }
  FAIL("the plan opens every board");
}

TEST_CASE("All boards are recorded as planned after one question") {
  const AtSaw d;
  const std::size_t all = d.window->saw().sheet()->boards.size();
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.sawn() == 0);
  d.key(Qt::Key_Return);
  CHECK(d.sawn() == all);
  CHECK(d.window->saw().board() == nullptr);
  CHECK(d.sheet().sentence().contains("All boards of this plan are sawn"));
}

TEST_CASE("From paper: a line a board, only what went otherwise is typed, all in one entry") {
  const AtSaw d;
  const std::size_t all = d.window->saw().sheet()->boards.size();
  REQUIRE(all > 1);
  d.key(Qt::Key_I, Qt::ControlModifier);
  const auto& paper = *d.named<SawPaper>("From paper");
  REQUIRE(paper.isVisible());
  REQUIRE(paper.lines().size() == all);
  const Cutting first = paper.lines()[0].opened->cutting;
  const std::string mark = desk::marksOf(first)[0];
  d.type("Z99 lost");
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.sawn() == 0);
  CHECK(d.window->band().sentence().contains("Z99"));
  d.key(Qt::Key_Down);
  d.type("no");
  d.key(Qt::Key_Up);
  d.type(QString::fromStdString(mark).toLower() + " lost");
  const EntryId last = d.book().lastEntry();
  d.key(Qt::Key_Return, Qt::ControlModifier);
  CHECK(d.sawn() == all - 1);
  CHECK(d.book().lastEntry().value == last.value + 1);
  REQUIRE(d.book().spoiled(d.job).size() == 1);
  CHECK_FALSE(paper.isVisible());
  CHECK(d.window->saw().board() != nullptr);  // the one that is not sawn yet
}

TEST_CASE("Esc leaves the paper, nothing is booked, and what was typed is there again") {
  const AtSaw d;
  d.key(Qt::Key_I, Qt::ControlModifier);
  d.type("no");
  d.key(Qt::Key_Escape);
  CHECK_FALSE(d.named<SawPaper>("From paper")->isVisible());
  CHECK(d.sheet().isVisible());
  CHECK(d.sawn() == 0);
  d.key(Qt::Key_I, Qt::ControlModifier);
  const auto& paper = *d.named<SawPaper>("From paper");
  CHECK(paper.lines()[0].typed == "no");
  CHECK_FALSE(paper.lines()[0].read.sawn);
}

TEST_CASE("Without a plan the saw says what to do") {
  const Driven d;
  d.key(Qt::Key_4, Qt::ControlModifier);
  CHECK(d.named<SawSheet>("Cut at hand")->sentence() == "No job is planned yet: plan one in Jobs.");
  CHECK_FALSE(d.window->actions().at(Act::cutAsDrawn)->isEnabled());
}
