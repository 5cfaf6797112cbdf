// Places on the drawing, what a pull is drawn to, and marks set, moved and sized by mouse.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "inventory/records/zones.h"
#include "tests/desktop/drive.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/snap.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

using Random = std::mt19937;

Length inSixtyFourths(Random& random, int least, int most) {
  return Length::sixtyFourths(std::uniform_int_distribution<int>(least, most)(random));
}

/// A board whose edges taper and bend, with marks on either face.
Board randomBoard(Random& random) {
  Board board;
  board.species = "cherry";
  board.nominal = Nominal::quarters(4);
  const Length length = inSixtyFourths(random, 30 * 64, 160 * 64);
  for (Outline& outline : board.outline) {
    const auto point = [&](Length x) {
      const Length near = inSixtyFourths(random, 0, 64);
      return OutlinePoint{x, near, near + inSixtyFourths(random, 3 * 64, 14 * 64)};
    };
    outline = Outline({point(Length()), point(length / 2), point(length)});
  }
  const int marks = std::uniform_int_distribution<int>(0, 5)(random);
  for (int n = 0; n < marks; ++n) {
    const Length dx = inSixtyFourths(random, 16, 10 * 64), dy = inSixtyFourths(random, 16, 3 * 64);
    const auto face = static_cast<DefectFace>(std::uniform_int_distribution<int>(0, 4)(random));
    board.defects.push_back(
        {"sound knot",
         face,
         {inSixtyFourths(random, 0, 28 * 64), inSixtyFourths(random, 0, 3 * 64), dx, dy}});
  }
  return board;
}

Length apart(Length a, Length b) { return a < b ? b - a : a - b; }

}  // namespace

TEST_CASE("A point drawn through face A is found at the mirrored place on face B") {
  Random random(20261126);
  for (int n = 0; n < 2000; ++n) {
    const Board board = randomBoard(random);
    const QSize size(std::uniform_int_distribution<int>(700, 2560)(random),
                     std::uniform_int_distribution<int>(260, 900)(random));
    const BoardLayout l = layBoard(board, size, 62, 14);
    const QRectF a = l.box(Face::a, l.bounds), b = l.box(Face::b, l.bounds);
    std::uniform_real_distribution<double> along(a.left(), a.right()), across(a.top(), a.bottom());
    const QPointF point(along(random), across(random));
    const auto onA = l.placeAt(point), onB = l.placeAt(l.mirrored(point));
    REQUIRE(onA);
    REQUIRE(onB);
    CHECK(onA->face == Face::a);
    CHECK(onB->face == Face::b);
    // The same place of the board: as far from the tag end, as far from the near edge.
    CHECK(onA->x == onB->x);
    CHECK(apart(onA->y, onB->y) <= Length::sixtyFourths(1));
    // Bookmatched about the fold: the near edges meet, the tag ends stand at the left of both.
    CHECK(a.left() == Approx(b.left()));
    CHECK(l.fold - a.bottom() == Approx(b.top() - l.fold));
    // A mark through the board stands at places that mirror each other.
    const Rect mark{onA->x, onA->y, Length::inches(1), Length::inches(1)};
    const QRectF markA = l.box(Face::a, mark), markB = l.box(Face::b, mark);
    CHECK(l.mirrored(markA.topLeft()).y() == Approx(markB.bottomLeft().y()));
    CHECK(markA.left() == Approx(markB.left()));
    // What is pointed at is where it is drawn, within half a 64th of an inch.
    const QRectF back = l.box(Face::a, {onA->x, onA->y, Length(), Length()});
    CHECK(std::abs(back.x() - point.x()) <= l.scale / 128 + 1e-6);
    CHECK(std::abs(back.y() - point.y()) <= l.scale / 128 + 1e-6);
  }
}

TEST_CASE("A pull is drawn to the nearest end, edge or mark within reach, never farther") {
  Random random(7);
  int toMarks = 0, toWhole = 0;
  for (int n = 0; n < 4000; ++n) {
    const Board board = randomBoard(random);
    const Face face = n % 2 == 0 ? Face::a : Face::b;
    const Unit unit = n % 3 == 0 ? Unit::millimetres : Unit::inches;
    const Length reach = inSixtyFourths(random, 0, 48);
    const Length x = inSixtyFourths(random, 0, 30 * 64), y = inSixtyFourths(random, 0, 8 * 64);
    const Snap snap(board, face, unit);
    const Snap::Place place = snap.at(x, y, reach);
    CHECK(apart(place.x, x) <= reach);
    CHECK(apart(place.y, y) <= reach);
    // Drawn once, it stays.
    const Snap::Place again = snap.at(place.x, place.y, reach);
    if (place.toX) CHECK(again.x == place.x);
    if (place.toX && place.toY) CHECK(again.y == place.y);
    // By hand: what there is to be drawn to along the board.
    const Rect all = boundsOf(board);
    std::vector<Length> ends{all.x, all.right()};
    for (const Defect& mark : board.defects) {
      if (mark.face == (face == Face::a ? DefectFace::b : DefectFace::a)) continue;
      ends.insert(ends.end(), {mark.where.x, mark.where.right(), mark.where.x + mark.where.dx / 2});
    }
    Length least = Length::feet(100);
    for (const Length end : ends) least = std::min(least, apart(end, x));
    CHECK(place.toX == (least <= reach));
    if (place.toX) {
      CHECK(apart(place.x, x) == least);
      ++toMarks;
    } else if (place.x != x) {
      const std::int64_t step = unit == Unit::inches ? 25'400'000 : 10'000'000;
      CHECK(place.x.nm() % step == 0);
      ++toWhole;
    }
  }
  CHECK(toMarks > 200);
  CHECK(toWhole > 200);
  // Without reach nothing moves.
  const Board board = randomBoard(random);
  const Snap::Place still = Snap(board, Face::a, Unit::inches)
                                .at(Length::sixtyFourths(777), Length::sixtyFourths(99), {});
  CHECK(still.x == Length::sixtyFourths(777));
  CHECK(still.y == Length::sixtyFourths(99));
}

namespace {

struct Drawing : Driven {
  BoardView& view = *named<BoardView>("Board, both faces");
  Drawing() {
    window->rack().open(book().rack().front().id);
    Board clean = *view.board();
    clean.defects.clear();
    view.edit(clean);
  }
  [[nodiscard]] QPoint at(Face face, double x, double y) const {
    const Rect spot{Length::sixtyFourths(std::llround(x * 64)),
                    Length::sixtyFourths(std::llround(y * 64)), Length(), Length()};
    return view.layout().box(face, spot).topLeft().toPoint();
  }
  void pull(QPoint from, QPoint to, Qt::KeyboardModifiers held = {}) const {
    QTest::mousePress(&view, Qt::LeftButton, held, from);
    QTest::mouseMove(&view, (from + to) / 2);
    QTest::mouseMove(&view, to);
    QTest::mouseRelease(&view, Qt::LeftButton, {}, to);
  }
  [[nodiscard]] std::vector<Defect> marks() const {
    return book().board(view.board()->id)->defects;
  }
};

}  // namespace

TEST_CASE("A mark is pulled on face B, drawn to whole inches, moved and sized by its handles") {
  const Drawing d;
  d.view.setFocus();
  d.pull(d.at(Face::b, 20, 2), d.at(Face::b, 26, 4));
  REQUIRE(d.marks().size() == 1);
  const Rect drawn = d.marks()[0].where;
  CHECK(drawn.x == Length::inches(20));
  CHECK(drawn.dx == Length::inches(6));
  CHECK(drawn.y == Length::inches(2));
  CHECK(drawn.dy == Length::inches(2));
  // Moved by its body.
  d.pull(d.at(Face::b, 23, 3), d.at(Face::b, 33, 3));
  REQUIRE(d.marks().size() == 1);
  CHECK(d.marks()[0].where.x == Length::inches(30));
  CHECK(d.marks()[0].where.dx == Length::inches(6));
  // Sized by the handle at its far end; the mark goes through, so face A shows it as well.
  d.pull(d.at(Face::a, 36, 3) + QPoint(3, 0), d.at(Face::a, 41, 3));
  CHECK(d.marks()[0].where.right() == Length::inches(41));
  CHECK(d.marks()[0].where.x == Length::inches(30));
}

TEST_CASE("A knot is pulled aslant on face B and stays so when it is moved") {
  const Drawing d;
  d.view.setFocus();
  d.pull(d.at(Face::a, 20, 2), d.at(Face::a, 22, 4));
  REQUIRE(d.marks().size() == 1);
  REQUIRE(d.marks()[0].face == DefectFace::through);
  CHECK_FALSE(d.marks()[0].onB);
  d.pull(d.at(Face::b, 21, 3), d.at(Face::b, 26, 3), Qt::ShiftModifier);
  Defect knot = d.marks()[0];
  CHECK(knot.where.x == Length::inches(20));
  REQUIRE(knot.onB);
  CHECK(*knot.onB == Rect{Length::inches(25), knot.where.y, knot.where.dx, knot.where.dy});
  // It is taken hold of where it shows, and both ends move alike.
  d.pull(d.at(Face::b, 26, 3), d.at(Face::b, 36, 3));
  knot = d.marks()[0];
  CHECK(knot.where.x == Length::inches(30));
  CHECK(knot.onB->x == Length::inches(35));
  CHECK(d.view.accessibleDescription().contains("on B at 36, 3"));
  // On one face alone there is no other end.
  d.key(Qt::Key_F);
  CHECK(d.marks()[0].face == DefectFace::a);
  CHECK_FALSE(d.marks()[0].onB);
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("A depth and a place on face B are typed beside the mark's figures") {
  const Drawing d;
  d.view.setFocus();
  d.key(Qt::Key_C);
  REQUIRE(d.marks().size() == 1);
  auto* detail = d.named<Field>("Depth of the mark, or where it comes out on face B");
  const auto typed = [&](const char* text) {
    detail->setFocus();
    detail->selectAll();
    d.key(Qt::Key_Delete);
    d.type(text);
    d.key(Qt::Key_Return);
  };
  REQUIRE(detail->isVisible());
  typed("40, 3");
  REQUIRE(d.marks()[0].onB);
  CHECK(d.marks()[0].onB->x + d.marks()[0].onB->dx / 2 == Length::inches(40));
  typed("400, 3");  // off the board
  CHECK(detail->trouble());
  CHECK(d.marks()[0].onB->x + d.marks()[0].onB->dx / 2 == Length::inches(40));
  d.view.setFocus();
  d.key(Qt::Key_F);
  CHECK(detail->text().isEmpty());
  typed("1/16");
  CHECK(d.marks()[0].depth == Length::sixtyFourths(4));
  CHECK(d.view.accessibleDescription().contains("1/16 deep"));
  typed("3");  // thicker than the board
  CHECK(detail->trouble());
  CHECK(d.marks()[0].depth == Length::sixtyFourths(4));
  typed("");
  CHECK_FALSE(d.marks()[0].depth);
  // An edge has no depth.
  auto* face = d.named<Choice>("Face of the mark");
  face->setCurrentIndex(3);
  emit face->activated(3);
  CHECK_FALSE(detail->isVisible());
}

TEST_CASE("What was undone while drawing is done again until something else is") {
  const Drawing d;
  d.view.setFocus();
  d.key(Qt::Key_K);
  d.key(Qt::Key_C);
  const std::vector<Defect> both = d.marks();
  REQUIRE(both.size() == 2);
  d.window->trigger(Act::undo);
  d.window->trigger(Act::undo);
  CHECK(d.marks().empty());
  d.window->trigger(Act::redo);
  REQUIRE(d.marks().size() == 1);
  CHECK(d.marks()[0] == both[0]);
  d.window->trigger(Act::redo);
  CHECK(d.marks() == both);
  d.window->trigger(Act::redo);
  CHECK(d.marks() == both);
  d.window->trigger(Act::undo);
  d.view.setFocus();
  d.key(Qt::Key_H);
  d.window->trigger(Act::redo);
  CHECK(d.marks().size() == 2);
  CHECK(d.marks()[1].kind == "hole");
  CHECK(d.window->session().book().check().empty());
}

TEST_CASE("E lays a mark along its edge, Z puts zones that are no defects") {
  const Drawing d;
  d.view.setFocus();
  d.key(Qt::Key_W);
  d.key(Qt::Key_E);
  const Rect all = boundsOf(*d.view.board());
  REQUIRE(d.marks().size() == 1);
  CHECK(d.marks()[0].where.x == all.x);
  CHECK(d.marks()[0].where.dx == all.dx);
  CHECK((d.marks()[0].where.y == all.y || d.marks()[0].where.top() == all.top()));
  d.key(Qt::Key_Delete);
  for (const std::string_view kind : zoneKinds) {
    d.key(Qt::Key_Z);
    REQUIRE(d.marks().size() == 1);
    CHECK(d.marks()[0].kind == kind);
    CHECK(d.marks()[0].where.dy == all.dy);
  }
  // A zone of quarter sawn wood bars nothing.
  Board board = *d.view.board();
  board.looked = {Looked::rough, Looked::rough};
  const ShopProfile shop = d.book().shop();
  const Demand& heartOnly = *findDemand(shop, "heart only");
  CHECK(clearPermille(board, Face::a, heartOnly) == 1000);
}
