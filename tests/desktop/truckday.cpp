#include <QApplication>
#include <QDir>
#include <QStyleFactory>
#include <QTest>
#include <csignal>

#include "inventory/desk/receive.h"
#include "ui/desktop/window.h"

namespace {

using namespace flitch::desktop;
using flitch::desk::TallyCell;

void type(const QString& text) { QTest::keyClicks(QApplication::focusWidget(), text); }
void key(Qt::Key pressed, Qt::KeyboardModifiers modifiers = Qt::NoModifier) {
  QTest::keyClick(QApplication::focusWidget(), pressed, modifiers);
}
void enter(const QString& text) {
  type(text);
  key(Qt::Key_Return);
}

class Day {
 public:
  Day(Window& window, Look& look, QString pictures)
      : window_(window), look_(look), pictures_(std::move(pictures)) {}

  void picture(const QString& name) {
    for (const bool night : {false, true}) {
      look_.choose(night);
      QTest::qWait(50);
      window_.grab().save(pictures_ + "/" + name + (night ? "-night.png" : "-day.png"));
    }
    look_.choose(false);
  }

  void head(const QString& supplier) {
    key(Qt::Key_1, Qt::ControlModifier);
    Field& field = *named<Field>("Supplier");
    field.setFocus();
    enter(supplier);
  }

  /// The first line in full; the lines after it carry down all but their sizes.
  void tally(int boards) {
    for (const auto& [cell, text] :
         {std::pair(TallyCell::species, "cherry"), std::pair(TallyCell::nominal, "4/4"),
          std::pair(TallyCell::grade, "FAS"), std::pair(TallyCell::looked, "rough"),
          std::pair(TallyCell::price, "8.20"), std::pair(TallyCell::bay, "A1")}) {
      grid().goTo(0, cell);
      type(text);
    }
    grid().goTo(0, TallyCell::length);
    for (int n = 0; n < boards; ++n) {
      enter(QString("%1-%2").arg(7 + n % 4).arg(n % 12));
      enter(QString("%1 %2/8").arg(5 + n % 5).arg(1 + n % 7));
      enter("");
      enter("");
    }
  }

  /// Freight by footage, and what the invoice claims of the load.
  void invoice() {
    key(Qt::Key_G, Qt::ControlModifier);
    for (const char* cell : {"freight", "40", "feet", "boards", "cherry", "4/4", "230", ""}) {
      enter(cell);
    }
    grid().editor().setFocus();
  }

  /// The board in that row of Rack, with two figures.
  void quickMark(int row, const QString& marks) {
    toDrawing(row);
    key(Qt::Key_M);
    enter(marks);
  }

  /// Pressed, pulled and let go on face A.
  void drawMark(int row) {
    toDrawing(row);
    BoardView& view = *window_.findChild<BoardView*>();
    const QPoint from(view.width() / 3, 100), to = from + QPoint(60, 30);
    QTest::mousePress(&view, Qt::LeftButton, {}, from);
    QTest::mouseMove(&view, (from + to) / 2);
    QTest::mouseMove(&view, to);
    QTest::mouseRelease(&view, Qt::LeftButton, {}, to);
  }

  TallyGrid& grid() { return *window_.findChild<TallyGrid*>(); }

 private:
  template <class Control>
  Control* named(const QString& name) {
    for (Control* control : window_.findChildren<Control*>())
      if (control->accessibleName() == name) return control;
    qFatal("no control is named %s", qPrintable(name));
  }

  void toDrawing(int row) {
    key(Qt::Key_2, Qt::ControlModifier);
    const std::vector<flitch::Board> rack = window_.session().book().read().rack();
    window_.rack().open(rack[static_cast<std::size_t>(row)].id);
  }

  Window& window_;
  Look& look_;
  QString pictures_;
};

}  // namespace

/// truckday FILE FOLDER: opens the empty book, prints a roll of tags, types a delivery of 40 boards
/// with prices and its invoice, receives it, marks six boards quickly and one by drawing, writes
/// the tags as PDF, types three lines of the next delivery and half a fourth, and kills itself as a
/// power cut would. Pictures of each stage, day and night, go to the folder.
int main(int argc, char** argv) {
  if (argc != 3) return 2;
  QApplication app(argc, argv);
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setFont(typeface(13));
  Look look;
  const std::unique_ptr<Window> window = openWindow(argv[1], look);
  const QString folder = argv[2];
  if (!QDir().mkpath(folder)) return 1;
  window->resize(1280, 720);
  window->show();
  window->activateWindow();
  if (!QTest::qWaitForWindowActive(window.get())) return 1;
  flitch::desk::reserveTags(window->session().book(), 60, window->session().hand());
  window->session().look();

  Day day(*window, look, folder);
  day.head("Hallan Sawmill");
  day.tally(40);
  day.invoice();
  day.picture("tally");
  key(Qt::Key_Return, Qt::ControlModifier);
  for (int row = 0; row < 6; ++row)
    day.quickMark(row, QString("%1-%2, 60-end").arg(12 + row).arg(17 + row));
  day.drawMark(6);
  day.picture("rack");
  window->rack().writeTags(folder + "/tags.pdf");

  day.head("Vannerlo Hardwoods");
  day.tally(3);
  enter("8-4");
  type("6 1");
  day.picture("second");
  static_cast<void>(std::raise(SIGKILL));
  return 0;
}
