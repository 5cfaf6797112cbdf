#include <catch2/catch.hpp>

#include "inventory/desk/receive.h"
#include "inventory/wood/tag_code.h"
#include "tests/desktop/drive.h"
#include "ui/desktop/usual_mark.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

std::vector<Defect> marksOf(const Driven& d, const std::string& tag) {
  const std::optional<Board> board = d.book().boardByTag(readTag(tag).code);
  return board ? board->defects : std::vector<Defect>{};
}
std::string shownTag(const Driven& d) {
  const auto* view = d.named<BoardView>("Board, both faces");
  return view->board() && view->board()->tag ? text(*view->board()->tag) : "";
}

}  // namespace

TEST_CASE("The filter answers while typing, and says when no board is so") {
  Driven d;
  auto* table = d.named<SheetTable>("Boards on the rack");
  REQUIRE(table->model()->rowCount() == sample::boardCount);
  d.named<Field>("Filter the rack")->setFocus();
  d.type("cherry");
  CHECK(table->model()->rowCount() == 5);
  d.type(" 4/4");
  CHECK(table->model()->rowCount() == 3);
  d.key(Qt::Key_Down);
  CHECK(table->hasFocus());
  d.key(Qt::Key_L, Qt::ControlModifier);
  CHECK(table->model()->rowCount() == sample::boardCount);
  d.type("purpleheart");
  CHECK(table->model()->rowCount() == 0);
  CHECK_FALSE(table->isVisible());
  d.key(Qt::Key_L, Qt::ControlModifier);
  CHECK(table->isVisible());
}

TEST_CASE("A quick mark is read while typed and kept with Enter, Ctrl+Z takes it back") {
  Driven d;
  d.named<SheetTable>("Boards on the rack")->setFocus();
  d.key(Qt::Key_Down);
  const std::string tag = shownTag(d);
  const std::size_t before = marksOf(d, tag).size();
  d.key(Qt::Key_Return);
  auto* view = d.named<BoardView>("Board, both faces");
  REQUIRE(view->hasFocus());
  d.key(Qt::Key_M);
  auto* quick = d.named<Field>("Quick mark");
  REQUIRE(quick->hasFocus());
  d.type("12-17");
  CHECK(quick->accessibleDescription() == "unsound knot from 12 to 17 in, whole width, both faces");
  CHECK(marksOf(d, tag).size() == before);
  d.key(Qt::Key_Return);
  REQUIRE(marksOf(d, tag).size() == before + 1);
  const Defect mark = marksOf(d, tag).back();
  CHECK(mark.where.x == Length::inches(12));
  CHECK(mark.where.dx == Length::inches(5));
  CHECK(mark.face == DefectFace::through);
  CHECK(quick->text().isEmpty());

  d.type("good 20-end");
  CHECK(quick->accessibleDescription() == "good from 20 to 108 in; all outside is bad");
  d.key(Qt::Key_Return);
  CHECK(marksOf(d, tag).size() == before + 2);

  d.key(Qt::Key_Z, Qt::ControlModifier);
  CHECK(marksOf(d, tag).size() == before + 1);
  d.key(Qt::Key_Z, Qt::ControlModifier);
  CHECK(marksOf(d, tag).size() == before);
}

TEST_CASE("A quick mark that cannot be is refused beside the field, the book untouched") {
  Driven d;
  d.named<SheetTable>("Boards on the rack")->setFocus();
  const std::string tag = shownTag(d);
  const EntryId last = d.book().lastEntry();
  d.key(Qt::Key_Return);
  d.key(Qt::Key_M);
  auto* quick = d.named<Field>("Quick mark");
  d.type("100-130");
  CHECK(quick->accessibleDescription().contains("past the far end"));
  d.key(Qt::Key_Return);
  quick->setText("knotty");
  CHECK_FALSE(quick->accessibleDescription().isEmpty());
  d.key(Qt::Key_Return);
  CHECK(d.book().lastEntry() == last);
}

TEST_CASE("A mark key puts a mark at the cross-hair, arrows move it, Del takes it off") {
  Driven d;
  d.named<SheetTable>("Boards on the rack")->setFocus();
  d.key(Qt::Key_Down);
  const std::string tag = shownTag(d);
  d.key(Qt::Key_Return);
  auto* view = d.named<BoardView>("Board, both faces");
  d.key(Qt::Key_Right);
  d.key(Qt::Key_K);
  REQUIRE(marksOf(d, tag).size() == 1);
  Defect mark = marksOf(d, tag).front();
  CHECK(mark.kind == "sound knot");
  CHECK(mark.where.x + mark.where.dx / 2 == Length::inches(55));

  const EntryId placed = d.book().lastEntry();
  d.key(Qt::Key_Right);
  d.key(Qt::Key_Right);
  d.key(Qt::Key_Up, Qt::ControlModifier);
  d.key(Qt::Key_Right, Qt::ShiftModifier);
  CHECK(d.book().lastEntry() == placed);  // key presses in a row become one entry
  REQUIRE(QTest::qWaitFor([&] { return d.book().lastEntry() != placed; }, 3000));
  CHECK(d.book().lastEntry().value == placed.value + 1);
  mark = marksOf(d, tag).front();
  CHECK(mark.where.x + mark.where.dx / 2 == Length::sixtyFourths(64 * 55 + 32));

  d.key(Qt::Key_F);
  CHECK(marksOf(d, tag).front().face == DefectFace::a);
  d.key(Qt::Key_Return);
  auto* figure = d.named<Field>("Mark at, from the tag end");
  REQUIRE(figure->hasFocus());
  figure->selectAll();
  d.type("30 1/2");
  d.key(Qt::Key_Return);
  mark = marksOf(d, tag).front();
  CHECK(mark.where.x + mark.where.dx / 2 == Length::sixtyFourths(64 * 30 + 32));

  d.key(Qt::Key_Escape);
  REQUIRE(view->hasFocus());
  CHECK(view->chosen() == 0);
  d.key(Qt::Key_Delete);
  CHECK(marksOf(d, tag).empty());
}

TEST_CASE("Every kind of mark lies on its board when it is put at an end") {
  Driven d;
  const std::vector<Board> rack = d.book().rack();
  for (const ActionRow& r : actionTable()) {
    if (*r.kind == '\0') continue;
    for (const Board& board : rack) {
      const Rect all = boundsOf(board);
      for (Length x : {Length{}, all.dx / 2, all.right()}) {
        for (Length y : {Length{}, all.top()}) {
          const Defect mark = usualMark(r.kind, board, Face::b, x, y, Unit::inches);
          INFO(r.kind);
          CHECK(contains(all, mark.where));
          CHECK(mark.where.dx > Length{});
          CHECK(mark.where.dy > Length{});
        }
      }
    }
  }
}

TEST_CASE("Faces are said to be looked at from the boxes, and V steps through") {
  Driven d;
  d.named<SheetTable>("Boards on the rack")->setFocus();
  d.key(Qt::Key_Down);
  const std::string tag = shownTag(d);
  auto* box = d.named<Choice>("Face B looked at");
  box->setFocus();
  d.key(Qt::Key_Down);
  auto board = [&] { return *d.book().boardByTag(readTag(tag).code); };
  CHECK(board().looked[1] == Looked::planed);
  d.named<BoardView>("Board, both faces")->setFocus();
  d.key(Qt::Key_V);
  CHECK(board().looked[0] == Looked::planed);
  d.key(Qt::Key_V);
  CHECK(board().looked[0] == Looked::no);
}

TEST_CASE("A tag typed into the find field opens its board, a wrong one says so") {
  Driven d;
  const std::vector<Board> rack = d.book().rack();
  const std::string tag = text(*rack[6].tag);
  d.key(Qt::Key_F, Qt::ControlModifier);
  auto* find = d.named<Field>("Scan or type a tag");
  REQUIRE(find->hasFocus());
  d.type(QString::fromStdString(symbolText(*rack[6].tag)));
  d.key(Qt::Key_Return);
  CHECK(shownTag(d) == tag);
  CHECK(d.named("Board, both faces")->hasFocus());

  d.key(Qt::Key_F, Qt::ControlModifier);
  std::string wrong = tag;
  wrong.back() = wrong.back() == 'A' ? 'B' : 'A';
  d.type(QString::fromStdString(wrong));
  d.key(Qt::Key_Return);
  CHECK(shownTag(d) == tag);
  CHECK(d.window->band().isVisible());
}

TEST_CASE("Another station's change is shown within two seconds") {
  Driven d;
  store::Book other = store::Book::open(d.window->session().book().path(), store::Access::write);
  Board board = other.read().rack()[1];
  board.looked = {Looked::planed, Looked::planed};
  const auto* table = d.named<SheetTable>("Boards on the rack");
  const QModelIndex cell = table->model()->index(1, RackModel::looked);
  CHECK(cell.data().toString() == "A and B, rough");
  desk::survey(other, board, sample::hand());
  CHECK(QTest::qWaitFor(
      [&] {
        return table->model()->index(1, RackModel::looked).data().toString() == "A and B, planed";
      },
      2500));
}
