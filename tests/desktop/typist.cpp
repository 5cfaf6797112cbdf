#include <QApplication>
#include <QTest>
#include <csignal>

#include "ui/desktop/window.h"

/// typist FILE LINES: opens the book, types so many lines of a tally, and one line more as far as
/// the width without its Enter; then kills itself as a power cut would.
int main(int argc, char** argv) {
  using namespace flitch::desktop;
  if (argc != 3) return 2;
  qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication app(argc, argv);
  Look look;
  const std::unique_ptr<Window> window = openWindow(argv[1], look);
  window->show();
  window->activateWindow();
  static_cast<void>(QTest::qWaitForWindowActive(window.get()));
  window->trigger(Act::toDeliveries);
  const auto type = [](const QString& text) {
    QTest::keyClicks(QApplication::focusWidget(), text);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
  };
  type("Quillmere");
  TallyGrid& grid = *window->findChild<TallyGrid*>();
  for (const auto& [cell, text] : {std::pair{flitch::desk::TallyCell::species, "cherry"},
                                   std::pair{flitch::desk::TallyCell::nominal, "4/4"}}) {
    grid.goTo(0, cell);
    QTest::keyClicks(QApplication::focusWidget(), text);
  }
  grid.goTo(0, flitch::desk::TallyCell::length);
  const int lines = QString(argv[2]).toInt();
  for (int line = 0; line < lines; ++line) {
    for (const QString& text :
         {QString::number(8 + line), QString("6 1/4"), QString(), QString()}) {
      type(text);
    }
  }
  type("9-11");
  QTest::keyClicks(QApplication::focusWidget(), "7 3");
  static_cast<void>(std::raise(SIGKILL));
  return 0;
}
