#include <QApplication>
#include <QCommandLineParser>
#include <QDir>
#include <QElapsedTimer>
#include <QStyleFactory>
#include <iostream>

#include "ui/desktop/window.h"

namespace {

/// The grade is estimated beside the window: its pictures wait for it, and show the cuttings it
/// rests on, switched on once.
void showGrade(flitch::desktop::Window& window) {
  QElapsedTimer since;
  since.start();
  const auto known = [&] { return window.rack().can(flitch::desktop::Act::clearCuttings); };
  while (!known() && since.elapsed() < 1000) QApplication::processEvents(QEventLoop::AllEvents, 20);
  static bool shown = false;
  if (!shown && known()) {
    window.trigger(flitch::desktop::Act::clearCuttings);
    shown = true;
  }
}

/// What stands in a place instead of its boards, and these again.
void showInstead(flitch::desktop::Window& window, flitch::desktop::Act what, const QString& name) {
  if (!window.actions().at(what)->isEnabled()) return;
  window.trigger(what);
  QApplication::processEvents();
  if (!window.grab().save(name)) throw std::runtime_error("cannot write " + name.toStdString());
  std::cout << name.toStdString() << '\n';
  window.trigger(what);
}

/// Counts some of the first bay, and what lies there by mistake.
void countSome(flitch::desktop::Window& window) {
  const flitch::store::Snapshot now = window.session().book().read();
  if (now.bays().empty()) return;
  window.toPlace(flitch::desktop::Act::toRack);
  window.trigger(flitch::desktop::Act::countBay);
  window.rack().takeCode(flitch::desktop::q(now.bays().front()));
  for (const flitch::Board& board : now.rack()) {
    if (!board.tag || board.tag->serial % 3 != 0) continue;
    if (board.bay != now.bays().front() && board.tag->serial % 7 != 0) continue;
    window.rack().takeCode(flitch::desktop::q(text(*board.tag)));
  }
  window.trigger(flitch::desktop::Act::countBay);
}

/// The saw once more, with a knot said to have been found.
void sayOtherwise(flitch::desktop::Window& window, const QString& name) {
  window.trigger(flitch::desktop::Act::knotFound);
  auto* line = window.findChild<flitch::desktop::SawLine*>();
  if (line == nullptr || line->isHidden()) return;
  if (line->typed() == "knot") line->append("40-44");
  QApplication::processEvents();
  if (!window.grab().save(name)) {
    throw std::runtime_error("cannot write " + name.toStdString());
  }
  std::cout << name.toStdString() << '\n';
}

/// Another part half typed below the others, and taken away again.
void typePart(flitch::desktop::Window& window, const QString& name) {
  auto* parts = window.findChild<flitch::desktop::PartsView*>();
  if (parts == nullptr || parts->model()->rowCount() == 0) return;
  auto* model = parts->model();
  const int row = model->rowCount() - 1;
  using Column = flitch::desktop::PartsModel;
  for (const auto& [column, text] : {std::pair<int, const char*>(Column::name, "stretcher, cherry"),
                                     {Column::count, "2 + 1"},
                                     {Column::length, "width - 2*1 1/4"}})
    model->setData(model->index(row, column), text);
  parts->goToNew();
  parts->setCurrentIndex(model->index(row, Column::width));
  parts->scrollToBottom();
  parts->edit(model->index(row, Column::width));
  QApplication::processEvents();
  if (!window.grab().save(name)) throw std::runtime_error("cannot write " + name.toStdString());
  std::cout << name.toStdString() << '\n';
  parts->closePersistentEditor(model->index(row, Column::width));
  parts->goToNew();
  static_cast<Column*>(model)->clearNew();
  parts->scrollToTop();
  parts->setCurrentIndex({});
}

}  // namespace

/// screenshots --book FILE [--out FOLDER] [--job NAME] [--board TAG]: pictures of the places of
/// the window, day and night, 1280 x 720 and 2560 x 1440, as <place>-<width>-<look>.png. Needs no
/// display. Exit 1: the book or the folder could not be used.
int main(int argc, char** argv) {
  using namespace flitch;
  if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
  QApplication app(argc, argv);
  QApplication::setStyle(QStyleFactory::create("Fusion"));
  QApplication::setFont(desktop::typeface(13));
  QCommandLineParser parser;
  const QCommandLineOption book("book", "The book to open.", "FILE");
  const QCommandLineOption out("out", "Folder for the pictures.", "FOLDER", ".");
  const QCommandLineOption job("job", "The job shown; the newest if none.", "NAME");
  const QCommandLineOption board("board", "The board drawn; the one with most marks if none.",
                                 "TAG");
  parser.addOptions({book, out, job, board});
  parser.addHelpOption();
  parser.process(app);

  desktop::Look look;
  try {
    if (!QDir().mkpath(parser.value(out))) {
      throw std::runtime_error("cannot make the folder " + parser.value(out).toStdString());
    }
    const std::unique_ptr<desktop::Window> window =
        desktop::openWindow(parser.value(book).toStdString(), look);
    const store::Snapshot now = window->session().book().read();
    std::optional<Board> drawn;
    for (const Board& b : now.rack()) {
      const bool named = b.tag && desktop::q(text(*b.tag)) == parser.value(board);
      if (named || !drawn || (!parser.isSet(board) && b.defects.size() > drawn->defects.size())) {
        drawn = b;
        if (named) break;
      }
    }
    if (const auto named = now.jobNamed(parser.value(job).toStdString())) {
      window->jobs().showJob(named->id);
    }
    window->show();
    countSome(*window);
    for (const QSize size : {QSize(1280, 720), QSize(2560, 1440)}) {
      window->resize(size);
      for (bool night : {false, true}) {
        look.choose(night);
        for (desktop::Act place :
             {desktop::Act::toDeliveries, desktop::Act::toRack, desktop::Act::toJobs,
              desktop::Act::toSaw, desktop::Act::toLedger}) {
          window->toPlace(place);
          if (place == desktop::Act::toRack && drawn) {
            window->rack().open(drawn->id);
            window->trigger(desktop::Act::nextMark);
            showGrade(*window);
          }
          // Three cuts made, once.
          if (place == desktop::Act::toSaw && size.width() == 1280 && !night) {
            for (int cut = 0; cut < 3; ++cut) window->trigger(desktop::Act::cutAsDrawn);
          }
          QApplication::processEvents();
          const QString name = QString("%1/%2-%3-%4.png")
                                   .arg(parser.value(out), QString(desktop::row(place).id))
                                   .arg(size.width())
                                   .arg(night ? "night" : "day");
          if (!window->grab().save(name)) {
            throw std::runtime_error("cannot write " + name.toStdString());
          }
          std::cout << name.toStdString() << '\n';
          if (place == desktop::Act::toRack) {
            showInstead(*window, desktop::Act::sayDone,
                        QString(name).replace("/rack-", "/rack-line-"));
            showInstead(*window, desktop::Act::bins,
                        QString(name).replace("/rack-", "/rack-bins-"));
            showInstead(*window, desktop::Act::countBay,
                        QString(name).replace("/rack-", "/rack-count-"));
          }
          if (place == desktop::Act::toJobs) {
            using desktop::Act;
            showInstead(*window, Act::price, QString(name).replace("/jobs-", "/jobs-price-"));
            showInstead(*window, Act::twoPlans, QString(name).replace("/jobs-", "/jobs-two-"));
            showInstead(*window, Act::panels, QString(name).replace("/jobs-", "/jobs-panels-"));
            typePart(*window, QString(name).replace("/jobs-", "/jobs-type-"));
            showInstead(*window, Act::layByHand, QString(name).replace("/jobs-", "/jobs-lay-"));
          }
          if (place == desktop::Act::toSaw) {
            sayOtherwise(*window, QString(name).replace("/saw-", "/saw-otherwise-"));
          }
        }
      }
    }
  } catch (const std::runtime_error& error) {
    std::cerr << "screenshots: " << error.what() << '\n';
    return 1;
  }
  return 0;
}
