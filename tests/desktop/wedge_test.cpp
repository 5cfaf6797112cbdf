#include <catch2/catch.hpp>

#include "inventory/wood/tag_code.h"
#include "tests/desktop/drive.h"
#include "ui/desktop/wedge.h"

using namespace flitch;
using namespace flitch::desktop;

namespace {

std::string shown(const Driven& d) {
  const auto* view = d.named<BoardView>("Board, both faces");
  return view->board() && view->board()->tag ? text(*view->board()->tag) : "";
}
/// What the symbol of that board holds: no hyphen.
QString symbolOf(const Board& board) { return q(text(*board.tag)).remove('-'); }
/// A scanner: keys at once, to whatever has the focus, Enter last.
void scan(const Driven& d, const QString& code, bool enter = true) {
  d.type(code);
  if (enter) d.key(Qt::Key_Return);
}

}  // namespace

TEST_CASE("A scanned tag opens its board wherever the focus is, and types nowhere") {
  Driven d;
  const std::vector<Board> rack = d.book().rack();
  auto* filter = d.named<Field>("Filter the rack");
  filter->setFocus();
  scan(d, symbolOf(rack[2]));
  CHECK(filter->text().isEmpty());
  CHECK(shown(d) == text(*rack[2].tag));

  // In the drawing T, B and P are keys of their own, and figures mean nothing.
  auto* view = d.named<BoardView>("Board, both faces");
  view->setFocus();
  const std::size_t marks = view->board()->defects.size();
  scan(d, symbolOf(rack[4]));
  CHECK(shown(d) == text(*rack[4].tag));
  CHECK(d.book().board(rack[2].id)->defects.size() == marks);
  CHECK(d.book().board(rack[4].id)->defects == rack[4].defects);

  // A scanner that sends no Enter: silence ends it.
  filter->setFocus();
  scan(d, symbolOf(rack[1]), false);
  CHECK(QTest::qWaitFor([&] { return shown(d) == text(*rack[1].tag); }, 2'000));
  CHECK(filter->text().isEmpty());

  // From Jobs too.
  d.key(Qt::Key_3, Qt::ControlModifier);
  scan(d, symbolOf(rack[3]));
  CHECK(shown(d) == text(*rack[3].tag));
}

TEST_CASE("A misread code is told as such, opens nothing and answers no question") {
  Driven d;
  const std::vector<Board> rack = d.book().rack();
  scan(d, symbolOf(rack[2]));
  const std::string before = shown(d);
  QString wrong = symbolOf(rack[4]);
  wrong.back() = wrong.back() == QChar('A') ? QChar('C') : QChar('A');
  QSignalSpy said(&d.window->session(), &Session::said);
  auto* filter = d.named<Field>("Filter the rack");
  filter->setFocus();
  scan(d, wrong);
  REQUIRE(said.size() == 1);
  CHECK(said.front().at(1).toBool());
  CHECK(shown(d) == before);
  CHECK(filter->text().isEmpty());
}

TEST_CASE("What a hand types goes where it was meant, in order") {
  Driven d;
  auto* filter = d.named<Field>("Filter the rack");
  filter->setFocus();
  QTest::keyClicks(filter, "B3", Qt::NoModifier, 80);
  CHECK(QTest::qWaitFor([&] { return filter->text() == "B3"; }, 2'000));
  filter->setText("");
  QTest::keyClicks(filter, "Bench Top");
  CHECK(QTest::qWaitFor([&] { return filter->text() == "Bench Top"; }, 2'000));
  // Fast, but no code: the field has it, and Enter after it.
  filter->setText("");
  QTest::keyClicks(filter, "PPPP12");
  CHECK(QTest::qWaitFor([&] { return filter->text() == "PPPP12"; }, 2'000));

  // A capital in the drawing is still the key it is.
  filter->setText("");
  d.named<SheetTable>("Boards on the rack")->setFocus();
  d.key(Qt::Key_Down);
  d.key(Qt::Key_Return);
  auto* view = d.named<BoardView>("Board, both faces");
  REQUIRE(view->hasFocus());
  const BoardId id = view->board()->id;
  const std::size_t marks = d.book().board(id)->defects.size();
  QTest::keyClicks(view, "T");
  CHECK(QTest::qWaitFor([&] { return d.book().board(id)->defects.size() == marks + 1; }, 2'000));
  CHECK(d.book().board(id)->defects.back().kind == "stain");
}
