#include <catch2/catch.hpp>

#include "inventory/desk/ticks.h"
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
  [[nodiscard]] const SawLine& line() const { return *window->findChild<SawLine*>(); }
  [[nodiscard]] const Band& band() const { return *window->saw().findChild<Band*>(); }
  /// Types in place of what stands in the line.
  void retype(const QString& text) const {
    key(Qt::Key_A, Qt::ControlModifier);
    type(text);
  }
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
  CHECK(d.named<desktop::PullList>("Pull list")->rows().size() == all);
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
  d.named<desktop::PullList>("Pull list")->setFocus();
  d.key(Qt::Key_Home);
  CHECK(d.window->saw().board()->board.id == first);
  CHECK(d.sheet().made() == 1);
}

TEST_CASE("A blank lost at the saw is wanted again, one that is not there is not taken") {
  const AtSaw d;
  const std::string mark = d.firstBlank();
  d.key(Qt::Key_L);
  d.type("Z99 lost");
  CHECK(d.line().trouble());
  CHECK(d.line().reading().contains("This board gives no blank Z99"));
  d.key(Qt::Key_Return);
  d.cutThrough();
  CHECK(d.sawn() == 0);
  CHECK(d.window->band().sentence().contains("Z99"));
  // Put right, one key more records it.
  d.key(Qt::Key_L);
  d.retype(QString::fromStdString(mark) + " lost");
  CHECK(d.line().reading() == QString::fromStdString(mark) + " is wanted again");
  d.key(Qt::Key_Return);
  d.key(Qt::Key_Space);
  CHECK(d.sawn() == 1);
  REQUIRE(d.book().spoiled(d.job).size() == 1);
  CHECK(handMark(d.book().spoiled(d.job)[0].line, d.book().spoiled(d.job)[0].copy) == mark);
}

TEST_CASE("A knot found before the first cut is marked, and the plan around it offered") {
  const AtSaw d;
  const BoardId board = d.window->saw().board()->board.id;
  const std::size_t marks = d.book().board(board)->defects.size();
  const PlanId plan = d.book().newestPlan(d.job)->plan.id;
  d.key(Qt::Key_K);
  d.type("40-44");
  CHECK(d.line().typed() == "knot 40-44");
  CHECK_FALSE(d.line().trouble());
  CHECK(d.line().reading().startsWith("unsound knot 40–44"));
  CHECK(d.book().board(board)->defects.size() == marks);
  d.key(Qt::Key_Return);
  REQUIRE(d.book().board(board)->defects.size() == marks + 1);
  const Defect& knot = d.book().board(board)->defects.back();
  CHECK(knot.kind == "unsound knot");
  CHECK(knot.where.dx == Length::inches(4));
  CHECK(d.line().typed().isEmpty());
  // From the fresh end: the far end of the body less 44 in.
  const std::optional<store::StoredPlan> before = d.book().plan(plan);
  for (const Cutting& cutting : before->plan.cuttings) {
    if (cutting.board == board) CHECK(knot.where.x == desk::freshEnd(cutting) - Length::inches(44));
  }
  // The band says what changed; nothing is kept before its key.
  CHECK(d.band().sentence().startsWith("Planned again around the mark: "));
  CHECK(d.band().sentence().contains("as planned"));
  CHECK(d.book().newestPlan(d.job)->plan.id == plan);
  CHECK(d.sawn() == 0);
  // Both plans, board by board, on the key beside it; the question stays.
  const SheetTable& both = *d.named<SheetTable>("Boards then and now");
  CHECK(both.isHidden());
  d.key(Qt::Key_Tab);
  d.key(Qt::Key_Return);
  CHECK_FALSE(both.isHidden());
  CHECK(d.sheet().isHidden());
  CHECK(both.model()->rowCount() > 0);
  d.key(Qt::Key_Return);
  CHECK(both.isHidden());
  CHECK_FALSE(d.sheet().isHidden());
  CHECK_FALSE(d.band().isHidden());
  d.key(Qt::Key_Backtab, Qt::ShiftModifier);
  d.key(Qt::Key_Return);
  CHECK(d.book().newestPlan(d.job)->plan.id != plan);
  CHECK(d.band().isHidden());
  d.cutThrough();
  CHECK(d.sawn() == 1);
}

TEST_CASE("A line left half-way is gone on with, not begun twice") {
  const AtSaw d;
  d.key(Qt::Key_K);
  d.key(Qt::Key_Escape);
  d.key(Qt::Key_K);
  CHECK(d.line().typed() == "knot");
  d.type("40-44");
  for (const Qt::Key again : {Qt::Key_L, Qt::Key_K, Qt::Key_L}) {
    d.key(Qt::Key_Escape);
    d.key(again);
    CHECK(d.line().typed() == "knot 40-44");
  }
}

TEST_CASE("A knot met amid the cuts is entered with the board, its blanks wanted again") {
  const AtSaw d;
  const Cutting cutting = d.window->saw().board()->cutting;
  const auto blank = std::find_if(cutting.pieces.begin(), cutting.pieces.end(),
                                  [](const Piece& p) { return p.kind == PieceKind::blank; });
  const std::int64_t from =
      (desk::freshEnd(cutting) - blank->at.right()).nm() / Length::inches(1).nm() + 2;
  d.key(Qt::Key_Space);
  d.key(Qt::Key_K);
  d.type(QString("%1-%2").arg(from).arg(from + 3));
  d.key(Qt::Key_Return);
  CHECK(d.band().isHidden());
  const int left = d.sheet().steps() - d.sheet().made();
  for (int s = 0; s < left; ++s) d.key(Qt::Key_Space);
  CHECK(d.sawn() == 1);
  REQUIRE_FALSE(d.book().spoiled(d.job).empty());
  CHECK(d.book().spoiled(d.job)[0].reason == "unsound knot");
  CHECK(d.band().sentence().startsWith("Planned again: "));
}

TEST_CASE(
    "A knot met once blanks are off stops the board there, and what is left is planned again") {
  const AtSaw d;
  const Cutting cutting = d.window->saw().board()->cutting;
  const BoardId board = cutting.board;
  // On to the first cut after which the line offers to stop: the last but one at the latest.
  while (d.sheet().made() + 1 < d.sheet().steps()) {
    d.key(Qt::Key_Space);
    d.key(Qt::Key_K);
    if (d.line().typed().startsWith("stop")) break;
    CHECK(d.line().typed() == "knot");
    d.key(Qt::Key_Escape);
  }
  REQUIRE(d.line().typed().startsWith("stop"));
  const QString typed = QString("stop %1, knot 2-4").arg(d.sheet().lastCut());
  d.retype(typed);
  CHECK(d.line().reading().startsWith(QString("stops after cut %1").arg(d.sheet().lastCut())));
  CHECK(d.line().reading().contains("wanted again"));
  d.key(Qt::Key_Return);
  REQUIRE(d.sawn() == 1);
  const Cutting sawn = d.book().doneCuttings(d.job).front().cutting;
  CHECK(sawn.board == board);
  CHECK(desk::marksOf(sawn).size() < desk::marksOf(cutting).size());
  CHECK(d.band().sentence().startsWith("Planned again: "));
}

TEST_CASE("Another offcut and another board are said in one line at the board") {
  const AtSaw d;
  const auto& boards = d.window->saw().sheet()->boards;
  d.key(Qt::Key_O);
  d.type("none");
  CHECK(d.line().reading() == "keeps no offcut");
  d.key(Qt::Key_Return);
  d.cutThrough();
  REQUIRE(d.sawn() == 1);
  CHECK(d.book().doneCuttings(d.job)[0].became.empty());
  d.key(Qt::Key_Escape);
  // Another board of the same wood, asked for with A and scanned, is not refused as a wrong one.
  const OpenedBoard& opened = *d.window->saw().board();
  for (const Board& other : d.book().rack()) {
    const bool planned = std::any_of(boards.begin(), boards.end(),
                                     [&](const OpenedBoard& b) { return b.board.id == other.id; });
    if (planned || other.species != opened.board.species) continue;
    d.key(Qt::Key_A);
    CHECK(d.window->saw().find(QString::fromStdString(text(*other.tag))));
    CHECK(d.line().typed() == "used " + QString::fromStdString(text(*other.tag)));
    CHECK(d.line().reading().contains("was sawn in its stead"));
    return;
  }
}

TEST_CASE("A part spoiled since is said at any time, its wood lost, and the next plan offered") {
  const AtSaw d;
  CHECK_FALSE(d.window->actions().at(Act::partSpoiled)->isEnabled());
  const std::string mark = d.firstBlank();
  d.cutThrough();
  REQUIRE(d.sawn() == 1);
  d.key(Qt::Key_P);
  d.type("Z99");
  d.key(Qt::Key_Return);
  CHECK(d.window->band().sentence().contains("Z99"));
  QSignalSpy said(&d.window->saw(), &Place::said);
  d.retype(QString::fromStdString(mark).toLower());
  d.key(Qt::Key_Return);
  REQUIRE(d.book().spoiled(d.job).size() == 1);
  const QString told = d.band().isHidden() ? said.last().first().toString() : d.band().sentence();
  CHECK(told.contains(QString::fromStdString(mark) + " is wanted again"));
}

TEST_CASE("A scan ticks the board off the pull list, T by hand, and the ticks stay") {
  const AtSaw d;
  const desktop::PullList& list = *d.named<desktop::PullList>("Pull list");
  const Board wanted = d.window->saw().sheet()->boards.back().board;
  const auto stateOf = [&](const Board& board) {
    for (const PullRow& row : list.rows())
      if (row.tag == QString::fromStdString(text(*board.tag))) return row.state;
    return QString();
  };
  const Board first = d.window->saw().board()->board;
  REQUIRE(first.id != wanted.id);
  CHECK(stateOf(wanted) == "to fetch");
  CHECK(d.window->saw().find(QString::fromStdString(text(*wanted.tag))));
  CHECK(stateOf(wanted) == "at the saw");
  CHECK(stateOf(first) == "to fetch");
  d.key(Qt::Key_N);
  CHECK(stateOf(wanted) == "at the saw");
  flitch::PullList kept = pullList(
      d.window->saw().sheet()->plan,
      [&] {
        std::vector<Board> boards;
        for (const OpenedBoard& opened : d.window->saw().sheet()->boards)
          boards.push_back(opened.board);
        return boards;
      }(),
      {}, d.window->saw().sheet()->job, {}, Unit::inches);
  desk::recallTicks(d.window->session().book(), kept);
  CHECK(kept.left() == kept.lines.size() - 1);
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
    CHECK(sentence.contains(QString::fromStdString(text(*other.tag))));
    CHECK(sentence.contains("is not wanted for Map chest"));
    CHECK(sentence.contains("Wanted: T"));
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
