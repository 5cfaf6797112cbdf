#include <catch2/catch.hpp>

#include "tests/desktop/drive.h"
#include "ui/desktop/board_notes.h"
#include "ui/desktop/grade_work.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

/// The board drawn is described with its grade once the worker has answered.
bool toldGrade(const BoardView& view, const QString& grade) {
  return QTest::qWaitFor([&] { return view.accessibleDescription().contains(grade); }, 5000);
}

const BoardNote* noteOf(const std::vector<BoardNote>& notes, const QString& name) {
  for (const BoardNote& note : notes) {
    if (note.name == name) return &note;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("The board's grade comes from a worker, is told as an estimate, its cuttings on a key") {
  Driven d;
  d.named<Field>("Filter the rack")->setFocus();
  d.type("ash 11");
  auto* view = d.named<BoardView>("Board, both faces");
  d.key(Qt::Key_L, Qt::ControlModifier);
  d.type("ash c1");
  REQUIRE(view->board());
  CHECK(view->board()->species == "ash");
  // 7 1/4 in x 11 ft, clear: SM 7, FAS asks 70 units of 79.
  REQUIRE(toldGrade(*view, "looks like about FAS; paid as 1C"));
  CHECK(view->accessibleDescription().contains("Grade, estimated"));
  CHECK(d.window->rack().can(Act::clearCuttings));
  const QImage plain = view->grab().toImage();
  d.key(Qt::Key_G, Qt::ControlModifier);
  REQUIRE(QTest::qWaitFor([&] { return view->grab().toImage() != plain; }, 2000));
  d.key(Qt::Key_G, Qt::ControlModifier);
  CHECK(QTest::qWaitFor([&] { return view->grab().toImage() == plain; }, 2000));
}

TEST_CASE("Nothing is said of the grade of cherry, nor of a face nobody has looked at") {
  Driven d;
  d.named<Field>("Filter the rack")->setFocus();
  d.type("cherry 4/4 b3");
  auto* view = d.named<BoardView>("Board, both faces");
  REQUIRE(view->board());
  QTest::qWait(300);
  CHECK_FALSE(view->accessibleDescription().contains("Grade"));
  CHECK_FALSE(d.window->rack().can(Act::clearCuttings));
  CHECK(view->accessibleDescription().contains("Weight: about"));
  CHECK(view->accessibleDescription().contains("ready for 6.2 to 10.9 %"));
}

TEST_CASE("A mark set anew is graded anew") {
  Driven d;
  d.named<Field>("Filter the rack")->setFocus();
  d.type("ash c1");
  auto* view = d.named<BoardView>("Board, both faces");
  REQUIRE(toldGrade(*view, "looks like about FAS"));
  Board board = *view->board();
  // Across the middle, both faces: no cutting of 70 units is left; two have 77 asked for, none.
  board.defects = {{"unsound knot",
                    DefectFace::through,
                    {Length::inches(60), Length(), Length::inches(12), Length::inches(8)}}};
  view->edit(board);
  CHECK(QTest::qWaitFor(
      [&] {
        const QString said = view->accessibleDescription();
        return said.contains("looks like about") && !said.contains("looks like about FAS");
      },
      5000));
}

TEST_CASE("The newest question to the grade worker wins") {
  GradeWork work;
  QSignalSpy answered(&work, &GradeWork::answered);
  Board board;
  board.species = "red oak";
  board.kind = BoardKind::plank;
  board.looked = {Looked::rough, Looked::rough};
  board.outline.fill(Outline::tapered(Length::inches(96), Length::inches(6), Length::inches(6)));
  for (int i = 1; i <= 5; ++i) {
    board.id = {i};
    work.ask(board);
    CHECK(work.known(board) == nullptr);
  }
  REQUIRE(QTest::qWaitFor([&] { return work.known(board) != nullptr; }, 5000));
  CHECK(answered.count() == 1);
  CHECK(work.known(board)->line == "looks like about FAS");
  board.id = {1};
  CHECK(work.known(board) == nullptr);
}

TEST_CASE("Weight, thickness and readiness of a board before it is opened") {
  const ShopProfile shop = startingProfile();
  Board board;
  board.species = "white oak";
  board.nominal = Nominal::quarters(12);
  board.thickness = Length::inches(3);
  board.outline.fill(Outline::tapered(Length::inches(96), Length::inches(8), Length::inches(8)));
  board.readings = {{"2026-11-02", 140, MoistureState::resting}};
  auto notes = boardNotes(board, shop, {}, "...", false, Unit::inches);
  // 2304 cubic inches of white oak at 14 %, 0.68 at 12 %: 64 lb.
  REQUIRE(noteOf(notes, "Weight"));
  CHECK(noteOf(notes, "Weight")->value == "about 64 lb: mind how you lift it");
  CHECK(noteOf(notes, "Weight")->tone == BoardNote::Tone::caution);
  CHECK(noteOf(notes, "Weight")->brief.startsWith("! "));
  CHECK(noteOf(notes, "Surfaced, expect")->value == "2 3/4 in on two sides, 2 13/16 in on one");
  CHECK(noteOf(notes, "Finished, at most")->value == "2 15/16 in");
  CHECK(noteOf(notes, "For the room")->value == "14 % on 2026-11-02: too wet for 6.2 to 10.9 %");
  CHECK(noteOf(notes, "For the room")->tone == BoardNote::Tone::caution);
  CHECK(noteOf(notes, "Grade, estimated")->brief.isEmpty());
  board.readings.clear();
  board.nominal = Nominal::millimetres(80);
  notes = boardNotes(board, shop, {}, "looks like about FAS", true, Unit::millimetres);
  CHECK(noteOf(notes, "Surfaced, expect") == nullptr);
  CHECK(noteOf(notes, "Grade, estimated")->brief == "estimate: looks like about FAS");
  CHECK(noteOf(notes, "For the room")->brief.isEmpty());
}
