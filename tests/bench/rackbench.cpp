#include <QApplication>
#include <QElapsedTimer>
#include <QTemporaryDir>
#include <QTest>
#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <iostream>
#include <vector>

#include "inventory/desk/receive.h"
#include "ui/desktop/window.h"

namespace {

using namespace flitch;

/// Boards as a shop's tallies have them: sizes and woods in turn, every fourth with a mark.
DeliveryDraft load(int number, int boards) {
  static const std::vector<std::string> woods{"cherry", "ash", "white oak", "walnut", "hard maple"};
  DeliveryDraft draft;
  draft.supplier = "Quillmere";
  draft.receivedOn = "2026-05-31";
  for (int n = 0; n < boards; ++n) {
    TallyLine line;
    line.line = n + 1;
    line.species = woods[static_cast<std::size_t>((n + number) % 5)];
    line.nominal = Nominal::quarters(4 + n % 3 * 2);
    const Length length = Length::inches(72 + (n * 7 + number) % 72);
    const Length width = Length::sixtyFourths(5 * 64 + n * 37 % 320);
    line.outline = {Outline::tapered(length, width, width), Outline::tapered(length, width, width)};
    line.grade = n % 2 == 0 ? "FAS" : "No. 1 Common";
    line.price = Money::units(6);
    line.bay = "B" + std::to_string(n % 40);
    line.looked = {Looked::rough, Looked::rough};
    draft.lines.push_back(line);
  }
  return draft;
}

double processorMs() { return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

void fill(store::Book& book, int boards) {
  constexpr int atOnce = 500;
  for (int done = 0; done < boards; done += atOnce) {
    const store::Hand hand{"bench", "bench"};
    const desk::Received in =
        desk::receive(book, load(done, std::min(atOnce, boards - done)), hand);
    std::vector<exchange::MarkLine> marks;
    for (std::size_t n = 0; n < in.boards.size(); n += 4) {
      exchange::MarkLine mark;
      mark.tag = text(*in.boards[n].tag);
      mark.kind = "sound knot";
      mark.xFrom = Length::inches(20);
      mark.xTo = Length::inches(24);
      marks.push_back(mark);
    }
    desk::mark(book, marks, "bench", hand);
  }
}

}  // namespace

/// rackbench [BOARDS]: makes a book of so many boards (20,000), opens the window on it and types in
/// the filter of Rack. Prints how long the window took to be drawn and each key to be answered, and
/// how much of it this program's own processor time is, for a machine that others use as well.
/// Exit 1: over a second to open, or 50 ms for a key.
int main(int argc, char** argv) {
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication app(argc, argv);
  const int boards = argc > 1 ? std::atoi(argv[1]) : 20'000;
  const QTemporaryDir folder;
  const std::string path = (folder.path() + "/large.flitch").toStdString();
  QElapsedTimer since;
  since.start();
  {
    store::Book book = store::Book::create(path, {});
    fill(book, boards);
  }
  std::cout << boards << " boards put in: " << since.elapsed() << " ms\n";
  desktop::Look look;
  since.restart();
  double before = processorMs();
  const std::unique_ptr<desktop::Window> window = desktop::openWindow(path, look);
  window->resize(1280, 720);
  window->show();
  static_cast<void>(QTest::qWaitForWindowExposed(window.get()));
  window->repaint();
  const qint64 opened = since.elapsed();
  std::cout << "window open: " << opened << " ms, own " << processorMs() - before << " ms\n";
  window->trigger(desktop::Act::toRack);
  window->trigger(desktop::Act::clearFilter);
  std::vector<double> keys;
  for (const char letter : std::string("cherry 4/4 >8' b3")) {
    since.restart();
    before = processorMs();
    QTest::keyClick(QApplication::focusWidget(), letter);
    window->repaint();
    keys.push_back(static_cast<double>(since.nsecsElapsed()) / 1e6);
    std::cout << "'" << letter << "' " << keys.back() << " ms, own " << processorMs() - before
              << " ms\n";
  }
  const double most = *std::max_element(keys.begin(), keys.end());
  std::cout << "slowest key: " << most << " ms\n";
  return opened <= 1000 && most <= 50 ? 0 : 1;
}
