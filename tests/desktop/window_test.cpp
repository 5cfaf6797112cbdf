#include <QDir>
#include <QImage>
#include <QProcess>
#include <catch2/catch.hpp>
#include <set>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "tests/desktop/drive.h"

using namespace flitch;
using namespace flitch::desktop;

TEST_CASE("Every control that takes the focus has an accessible name") {
  for (bool empty : {false, true}) {
    Driven d(empty);
    int named = 0;
    for (const QWidget* control : d.window->findChildren<QWidget*>()) {
      if (!(control->focusPolicy() & Qt::TabFocus) || control->focusProxy() != nullptr) continue;
      if (control->objectName().startsWith("qt_")) continue;
      INFO(control->metaObject()->className());
      // Parts of Qt's own combos are named by the combo.
      if (qobject_cast<const QComboBox*>(control->parentWidget()) != nullptr ||
          QString(control->metaObject()->className()).startsWith("QComboBox")) {
        continue;
      }
      CHECK_FALSE(control->accessibleName().isEmpty());
      ++named;
    }
    CHECK(named > 20);
  }
}

TEST_CASE("Every place is reached by keys alone, Tab leaves every grid and drawing") {
  Driven d;
  for (Qt::Key place : {Qt::Key_2, Qt::Key_3}) {
    d.key(place, Qt::ControlModifier);
    std::set<QString> met;
    for (int i = 0; i < 60; ++i) {
      d.key(Qt::Key_Tab);
      REQUIRE(QApplication::focusWidget() != nullptr);
      met.insert(QApplication::focusWidget()->accessibleName());
    }
    CHECK(met.count("Scan or type a tag") == 1);
    if (place == Qt::Key_2) {
      CHECK(met.count("Filter the rack") == 1);
      CHECK(met.count("Boards on the rack") == 1);
      CHECK(met.count("Board, both faces") == 1);
      CHECK(met.count("Quick mark") == 1);
    } else {
      CHECK(met.count("Parts of the job") == 1);
      CHECK(met.count("Boards of the plan") == 1);
    }
  }
}

TEST_CASE("F6 goes through the areas, F1 shows the keys, F9 turns day to night") {
  Driven d;
  d.named("Filter the rack")->setFocus();
  d.key(Qt::Key_F6);
  CHECK(d.named("Boards on the rack")->hasFocus());
  d.key(Qt::Key_F6);
  CHECK(d.named("Board, both faces")->hasFocus());
  d.key(Qt::Key_F6, Qt::ShiftModifier);
  CHECK(d.named("Boards on the rack")->hasFocus());

  d.key(Qt::Key_F1);
  CHECK(d.named("Keys")->isVisible());
  CHECK(d.named("Keys")->accessibleDescription().contains("Ctrl+Return: Plan") == false);
  CHECK(d.named("Keys")->accessibleDescription().contains("K: Sound knot"));
  d.key(Qt::Key_Escape);
  CHECK_FALSE(d.named("Keys")->isVisible());

  const bool night = d.look.night();
  d.key(Qt::Key_F9);
  CHECK(d.look.night() != night);
}

TEST_CASE("Buttons are wide enough for their words, at both sizes and in all places") {
  for (const QSize size : {QSize(1280, 720), QSize(2560, 1440)}) {
    Driven d(false, size);
    for (Act place : {Act::toRack, Act::toJobs, Act::toSaw, Act::toLedger}) {
      d.window->trigger(place);
      for (const Button* button : d.window->findChildren<Button*>()) {
        if (!button->isVisible()) continue;
        INFO(button->text().toStdString() << " at " << size.width());
        CHECK(button->width() >= button->sizeHint().width());
        CHECK(button->height() >= 28);
        const QRect inWindow(button->mapTo(d.window.get(), QPoint(0, 0)), button->size());
        CHECK(d.window->rect().contains(inWindow));
      }
    }
  }
}

TEST_CASE("An empty book says how boards and jobs come into it") {
  Driven d(true);
  CHECK(d.named("Nothing on the rack yet")->isVisible());
  CHECK_FALSE(d.named("Boards on the rack")->isVisible());
  CHECK(d.window->rack().cells()[0].value == "no boards");
  d.key(Qt::Key_3, Qt::ControlModifier);
  CHECK(d.window->jobs().isVisible());
  CHECK_FALSE(d.named("Parts of the job")->isVisible());
  CHECK_FALSE(d.window->actions().at(Act::plan)->isEnabled());
  CHECK(d.window->actions().at(Act::plan)->toolTip().contains("needs a job with parts"));
}

TEST_CASE("A new book asks five figures of the shop, keeps each as its field is left") {
  Driven d(true);
  const auto answer = [&](const char* question) { return d.named<Field>(question); };
  Field& planer = *answer("The planer takes");
  CHECK(planer.text().toStdString() ==
        desk::settingNamed("planer-width").get(d.book().shop(), Unit::inches));
  planer.setFocus();
  d.key(Qt::Key_A, Qt::ControlModifier);
  d.type("15");
  d.key(Qt::Key_Return);
  CHECK(d.book().shop().planerWidth == Length::inches(15));
  // Enter goes on; a kerf is that of both cuts.
  REQUIRE(answer("The jointer takes")->hasFocus());
  d.key(Qt::Key_Return);
  d.key(Qt::Key_A, Qt::ControlModifier);
  d.type("3/32");
  d.key(Qt::Key_Return);
  CHECK(d.book().shop().crosscutKerf == Length::sixtyFourths(6));
  CHECK(d.book().shop().ripKerf == Length::sixtyFourths(6));
  d.key(Qt::Key_Return);
  d.key(Qt::Key_A, Qt::ControlModifier);
  d.type("14 x 3 1/2");
  d.key(Qt::Key_Return);
  CHECK(d.book().shop().keepLength == Length::inches(14));
  CHECK(d.book().shop().keepWidth == Length::sixtyFourths(7 * 32));
  // What no shop can have is refused with its range, and the book stays as it was.
  const QSignalSpy said(&d.window->session(), &Session::said);
  planer.setFocus();
  d.key(Qt::Key_A, Qt::ControlModifier);
  d.type("400");
  d.key(Qt::Key_Return);
  CHECK(d.book().shop().planerWidth == Length::inches(15));
  REQUIRE_FALSE(said.isEmpty());
  CHECK(said.last()[0].toString().contains("4 to 60 in"));
}

TEST_CASE("Long names are shortened, never painted over their neighbours") {
  Driven d;
  store::Book book = store::Book::open(d.window->session().book().path(), store::Access::write);
  Board board = book.read().rack()[0];
  board.bay = "behind the long steam-bending bench in the back shed";
  board.note =
      "a note that a maker has written at some length about the figure of this board, "
      "where it came from and for whom it is meant";
  desk::survey(book, board, sample::hand());
  d.window->session().look();
  const QImage picture = d.window->grab().toImage();
  CHECK(picture.width() == 1280);
  // The gap between the title block's cells stays free of text.
  const auto* title = d.named<TitleBlock>("Title block");
  for (int y = 8; y < TitleBlock::blockHeight; ++y) {
    const QColor at = picture.pixelColor(148, title->y() + y);
    CHECK(at == d.look.colours().ground);
  }
}

TEST_CASE("Undo keeps its whole width in a narrow window") {
  Driven d;
  auto* block = d.named<TitleBlock>("Title block");
  const auto* undo = block->findChild<TextButton*>();
  REQUIRE(undo != nullptr);
  for (const int width : {1280, 1179, 1100, 1024}) {
    d.window->resize(width, 720);
    block->setLast("Marks kept: " + QString("a very long note ").repeated(10), true);
    INFO(width);
    CHECK(block->width() <= width);
    CHECK(undo->isVisible());
    CHECK(undo->geometry().right() < block->width());
    CHECK(undo->width() >= undo->sizeHint().width());
  }
}

TEST_CASE("The screenshots program writes all places, both looks, both sizes") {
  QTemporaryDir folder;
  const QString book = folder.path() + "/shop.flitch";
  sample::makeBook(book.toStdString());
  QProcess program;
  program.start(QString(FLITCHBOOK_BIN) + "/screenshots", {"--book", book, "--out", folder.path()});
  REQUIRE(program.waitForFinished(60'000));
  INFO(program.readAllStandardError().toStdString());
  REQUIRE(program.exitCode() == 0);
  for (const QString place : {"rack", "jobs", "saw", "ledger"}) {
    for (const QString look : {"day", "night"}) {
      for (const QSize size : {QSize(1280, 720), QSize(2560, 1440)}) {
        const QString name = QString("%1-%2-%3.png").arg(place).arg(size.width()).arg(look);
        const QImage picture(folder.path() + "/" + name);
        INFO(name.toStdString());
        CHECK(picture.size() == size);
        const Colours& colours = look == "day" ? dayColours() : nightColours();
        CHECK(picture.pixelColor(2, 2) == colours.ground);
      }
    }
  }
  program.start(QString(FLITCHBOOK_BIN) + "/screenshots", {"--book", folder.path() + "/none"});
  REQUIRE(program.waitForFinished(60'000));
  CHECK(program.exitCode() == 1);
}
