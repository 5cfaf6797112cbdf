#include "ui/desktop/window.h"

#include <QApplication>
#include <QDate>
#include <QDragEnterEvent>
#include <QDropEvent>
#include <QFileDialog>
#include <QFileInfo>
#include <QMenu>
#include <QMimeData>
#include <QPainter>
#include <QSysInfo>
#include <QUrl>
#include <algorithm>

#include "inventory/desk/receive.h"
#include "inventory/desk/saw.h"
#include "inventory/exchange/csv.h"
#include "inventory/wood/tag_code.h"
#include "labels/picture_reader.h"
#include "ui/desktop/wedge.h"

namespace flitch::desktop {
namespace {
constexpr int stripHeight = 44;
}

Window::Window(std::unique_ptr<Session> session, Look& look)
    : look_(look), session_(std::move(session)) {
  setWindowTitle(q(session_->facts().name) + " · Flitchbook");
  setMinimumSize(1024, 600);
  setAcceptDrops(true);
  makeActions();
  find_ = new Field(look_, "Scan or type a tag", "Scan or type a tag", "Ctrl+F", this);
  connect(find_, &QLineEdit::returnPressed, this, &Window::findTyped);
  connect(find_, &Field::left, this, [this] { place().setFocus(); });
  connect(new Wedge(this), &Wedge::scanned, this, &Window::openCode);
  menu_ = new Button(look_, actions_[Act::actions], this);
  stack_ = new QStackedWidget(this);
  deliveries_ = new DeliveriesPlace(*session_, look_, actions_, stack_);
  rack_ = new RackPlace(*session_, look_, actions_, stack_);
  jobs_ = new JobsPlace(*session_, look_, actions_, stack_);
  saw_ = new SawPlace(*session_, look_, actions_, stack_);
  ledger_ = new LedgerPlace(*session_, look_, actions_, stack_);
  tabs_ = {{Act::toDeliveries, 1, deliveries_},
           {Act::toRack, 2, rack_},
           {Act::toJobs, 3, jobs_},
           {Act::toSaw, 4, saw_},
           {Act::toLedger, 5, ledger_}};
  for (Tab& tab : tabs_) {
    tab.tab = new PlaceTab(look_, tab.number, row(tab.to).name, this);
    connect(tab.tab, &QAbstractButton::clicked, actions_[tab.to], &QAction::trigger);
    stack_->addWidget(tab.place);
  }
  band_ = new Band(look_, this);
  title_ = new TitleBlock(look_, actions_[Act::undo], this);
  keySheet_ = new KeySheet(look_, this);
  for (const Tab& tab : tabs_) {
    connect(tab.place, &Place::cellsChanged, this, &Window::refreshState);
    connect(tab.place, &Place::said, this, &Window::say);
  }
  connect(jobs_, &JobsPlace::boardWanted, this, [this](BoardId board) {
    toPlace(Act::toRack);
    rack_->open(board);
  });
  connect(session_.get(), &Session::said, this, &Window::say);
  connect(session_.get(), &Session::bookChanged, this, [this] {
    message_.clear();
    for (const Tab& tab : tabs_) tab.place->refresh();
    refreshState();
  });
  connect(session_.get(), &Session::planProgressed, this, &Window::refreshState);
  connect(session_.get(), &Session::planEnded, this, &Window::refreshState);
  connect(band_, &Band::changed, this, &Window::lay);
  connect(&look_, &Look::changed, this, &Window::takeLook);
  takeLook();
  // Where the last work was done: at a job once it is planned, else at the rack.
  const JobId last = session_->lastJob();
  if (last && session_->book().read().newestPlan(last)) {
    jobs_->showJob(last);
    toPlace(Act::toJobs);
  } else {
    toPlace(Act::toRack);
  }
}

Window::~Window() {
  // Places hold on to the session: they go first.
  delete stack_;
}

void Window::makeActions() {
  for (const ActionRow& r : actionTable()) {
    auto* action = new QAction(QString(r.name), this);
    const QKeySequence key(QString(r.key), QKeySequence::PortableText);
    action->setProperty("key", key.toString().replace("Return", "Enter"));
    // Single letters live in the drawing alone, which reads them itself.
    if (r.where & ~inDrawing) action->setShortcut(key);
    action->setShortcutContext(Qt::WindowShortcut);
    connect(action, &QAction::triggered, this, [this, act = r.act] { carryOut(act); });
    addAction(action);
    actions_[r.act] = action;
  }
}

Place& Window::place() const { return *static_cast<Place*>(stack_->currentWidget()); }

const Window::Tab& Window::tabOf(const Place& place) const {
  return *std::find_if(tabs_.begin(), tabs_.end(),
                       [&](const Tab& tab) { return tab.place == &place; });
}

unsigned Window::here() const {
  const unsigned where = place().where();
  return where == inRack ? unsigned{inRack | inDrawing} : where;
}

void Window::toPlace(Act to) {
  Place* wanted = rack_;
  for (const Tab& tab : tabs_) {
    tab.tab->setChecked(tab.to == to);
    if (tab.to == to) wanted = tab.place;
  }
  if (stack_->currentWidget() != wanted || !wanted->isAncestorOf(focusWidget())) {
    stack_->setCurrentWidget(wanted);
    QWidget* last = wanted->focusWidget();
    (last != nullptr && last->isVisibleTo(wanted) ? last : wanted)->setFocus(Qt::OtherFocusReason);
  }
  refreshState();
}

void Window::carryOut(Act act) {
  switch (act) {
    case Act::toDeliveries:
    case Act::toRack:
    case Act::toJobs:
    case Act::toSaw:
    case Act::toLedger: toPlace(act); break;
    case Act::find:
      find_->setFocus(Qt::ShortcutFocusReason);
      find_->selectAll();
      break;
    case Act::actions: showMenu(); break;
    case Act::keys: {
      const Where where = place().where() == whilePlanning ? inJobs : place().where();
      keySheet_->show(where, row(tabOf(place()).to).name);
      break;
    }
    case Act::nextArea: nextArea(1); break;
    case Act::previousArea: nextArea(-1); break;
    case Act::dayOrNight: look_.choose(!look_.night()); break;
    case Act::fullScreen: setWindowState(windowState() ^ Qt::WindowFullScreen); break;
    case Act::openBook: openBook(); break;
    case Act::copyBook: copyBook(); break;
    case Act::takeTally: takeTally(); break;
    case Act::undo: undo(); break;
    case Act::redo: place().redo(); break;
    case Act::leave: close(); break;
    default:
      if (place().can(act)) place().carryOut(act);
      break;
  }
  refreshState();
}

void Window::undo() {
  if (place().canUndoTyping()) {
    place().undoTyping();
    return;
  }
  QString what;
  place().beforeUndo();
  const bool done =
      session_->attempt([&] { what = q(desk::undo(session_->book(), session_->hand()).what); });
  if (!done) return;
  place().afterUndo();
  say("Undone: " + what, false);
}

void Window::openBook() {
  const QString path = QFileDialog::getOpenFileName(this, "Open book", q(session_->book().path()),
                                                    "Book (*.flitch)");
  if (path.isEmpty()) return;
  session_->attempt([&] {
    std::unique_ptr<Window> next = openWindow(path.toStdString(), look_);
    next->setAttribute(Qt::WA_DeleteOnClose);
    next->resize(size());
    next->show();
    static_cast<void>(next.release());  // closes, and goes, by itself
    close();
  });
}

void Window::copyBook() {
  const QString path = QFileDialog::getSaveFileName(
      this, "Copy the book", q(session_->book().path()) + ".copy.flitch", "Book (*.flitch)");
  if (path.isEmpty()) return;
  if (session_->attempt([&] { session_->book().copyTo(path.toStdString()); })) {
    say("Copied to " + path, false);
  }
}

void Window::takeTally() {
  const QString path =
      QFileDialog::getOpenFileName(this, "Take in a tally", QString(), "Tally (*.csv)");
  if (path.isEmpty()) return;
  session_->attempt([&] {
    const auto taken =
        exchange::readTally(exchange::readCsvFile(path.toStdString()), session_->readingRules());
    DeliveryDraft draft;
    draft.supplier = QFileInfo(path).completeBaseName().toStdString();
    draft.reference = QFileInfo(path).fileName().toStdString();
    draft.receivedOn = QDate::currentDate().toString(Qt::ISODate).toStdString();
    draft.rule = desk::countingRule(session_->book(), draft.supplier);
    draft.lines = taken.rows;
    desk::receive(session_->book(), draft, session_->hand());
    for (const std::string& warning : taken.warnings) say(q(warning), false);
  });
}

void Window::showMenu() {
  QMenu menu(this);
  menu.setPalette(look_.palette());
  menu.setFont(typeface(13));
  menu.setToolTipsVisible(true);
  const unsigned now = here();
  const auto add = [&](const ActionRow& r) {
    QAction* action = actions_[r.act];
    auto* shown = menu.addAction(action->text() + "\t" + action->property("key").toString());
    shown->setEnabled(action->isEnabled());
    shown->setToolTip(action->toolTip());
    connect(shown, &QAction::triggered, action, &QAction::trigger);
  };
  for (const ActionRow& r : actionTable()) {
    if (r.where != everywhere && (r.where & now) && *r.kind == '\0') add(r);
  }
  menu.addSeparator();
  for (const ActionRow& r : actionTable()) {
    if (r.where == everywhere && r.act != Act::actions) add(r);
  }
  menu.exec(menu_->mapToGlobal(QPoint(0, menu_->height() + 2)));
}

void Window::findTyped() {
  const QString typed = find_->text().trimmed();
  find_->setText("");
  if (typed.isEmpty()) return;
  if (readTag(typed.toStdString()).verdict == TagReading::Verdict::notATag) {
    band_->close();
    toPlace(Act::toRack);
    rack_->find(typed);
    return;
  }
  openCode(typed);
}

void Window::openCode(const QString& code) {
  band_->close();
  const TagReading reading = readTag(code.toStdString());
  if (&place() == rack_ ? rack_->takeCode(code) : place().find(code)) return;
  session_->attempt([&] {
    if (reading.verdict == TagReading::Verdict::right && reading.code.kind == TagKind::bay) {
      const QString bay = q(desk::bayNamed(session_->book().read(), code.toStdString()));
      toPlace(Act::toRack);
      if (rack_->find(bay)) say("What lies in bay " + bay, false);
      return;
    }
    const Board board = desk::boardNamed(session_->book().read(), code.toStdString());
    if (!board.onRack()) {
      say(q(text(reading.code)) + " is not on the rack any more.", true);
      return;
    }
    toPlace(Act::toRack);
    rack_->open(board.id);
    say(q(text(reading.code)) + " opened", false);
  });
}

void Window::readPictures(const QStringList& paths) {
  band_->close();
  session_->attempt([&] {
    std::vector<std::string> files;
    for (const QString& path : paths) files.push_back(path.toStdString());
    QStringList codes, troubles;
    for (const pages::PictureReading& read : pages::readPictures(files)) {
      const QString name = QFileInfo(q(read.path)).fileName();
      if (!read.trouble.empty()) troubles.push_back(name + ": " + q(read.trouble));
      if (read.trouble.empty() && read.found.empty())
        troubles.push_back(name + ": no symbol was found in this picture.");
      for (const pages::Found& found : read.found) {
        const QString code = q(found.text);
        if (!codes.contains(code)) codes.push_back(code);
      }
    }
    if (codes.size() == 1 && troubles.isEmpty()) return openCode(codes.front());
    // A picture of the ends of a stack: every tag of it is counted.
    if (&place() == rack_ && !codes.isEmpty() && rack_->takeCode(codes.front())) {
      for (const QString& code : codes.mid(1)) rack_->takeCode(code);
      codes.clear();
      if (troubles.isEmpty()) return;
    }
    tellCodes(codes, troubles);
  });
}

void Window::tellCodes(const QStringList& codes, const QStringList& troubles) {
  const store::Snapshot now = session_->book().read();
  QStringList said;
  for (const QString& code : codes) {
    try {
      const Board board = desk::boardNamed(now, code.toStdString());
      said.push_back(q(text(*board.tag)) + " " + q(board.species) + " " + q(text(board.nominal)) +
                     (board.bay.empty() ? QString() : ", bay " + q(board.bay)));
    } catch (const Refusal& refusal) {
      said.push_back(q(refusal.complaints().front().sentence));
    }
  }
  const QString read =
      said.isEmpty()
          ? QString()
          : QString("%1 in the pictures: %2.")
                .arg(said.size() == 1 ? QString("1 code") : QString("%1 codes").arg(said.size()),
                     said.join("; "));
  const QStringList all = QStringList{read} + troubles;
  band_->tell(troubles.isEmpty() ? Band::Kind::caution : Band::Kind::error,
              all.join(" ").trimmed());
}

void Window::dragEnterEvent(QDragEnterEvent* event) {
  if (event->mimeData()->hasUrls()) event->acceptProposedAction();
}

void Window::dropEvent(QDropEvent* event) {
  QStringList paths;
  for (const QUrl& url : event->mimeData()->urls()) {
    if (url.isLocalFile()) paths.push_back(url.toLocalFile());
  }
  event->acceptProposedAction();
  if (!paths.isEmpty()) readPictures(paths);
}

void Window::nextArea(int way) {
  std::vector<QWidget*> areas{find_};
  for (QWidget* w : place().areas()) areas.push_back(w);
  if (band_->isVisible()) areas.push_back(band_);
  std::size_t now = 0;
  for (std::size_t i = 0; i < areas.size(); ++i) {
    if (areas[i]->hasFocus() || areas[i]->isAncestorOf(focusWidget())) now = i;
  }
  const std::size_t to =
      way > 0 ? (now + 1) % areas.size() : (now + areas.size() - 1) % areas.size();
  areas[to]->setFocus(Qt::TabFocusReason);
  // An area without focus of its own hands it to its first control.
  if (!areas[to]->hasFocus()) {
    for (QWidget* child : areas[to]->findChildren<QWidget*>()) {
      if (child->isVisible() && child->isEnabled() && (child->focusPolicy() & Qt::TabFocus)) {
        child->setFocus(Qt::TabFocusReason);
        break;
      }
    }
  }
}

void Window::say(const QString& sentence, bool trouble) {
  if (trouble) {
    band_->tell(Band::Kind::error, sentence);
    return;
  }
  band_->close();
  message_ = sentence;
  refreshState();
}

void Window::refreshState() {
  if (atWork_ || title_ == nullptr || stack_->currentWidget() == nullptr) return;
  atWork_ = true;
  const unsigned now = here();
  for (const ActionRow& r : actionTable()) {
    bool can = (r.where & now) != 0;
    if (r.act == Act::undo) {
      can = session_->canUndo() || place().canUndoTyping();
    } else if (r.act == Act::redo) {
      can = place().canRedo();
    } else if (can && r.where != everywhere) {
      can = place().can(r.act);
    }
    QAction* action = actions_[r.act];
    action->setEnabled(can);
    action->setToolTip(can || *r.needs == '\0'
                           ? QString(r.sentence)
                           : QString("%1 (needs %2)").arg(QString(r.sentence), QString(r.needs)));
  }
  title_->setCells(place().cells());
  const QString unit = session_->facts().unit == Unit::inches ? "inches" : "millimetres";
  const QString at = session_->lastDoneAt();
  title_->setBook(unit, at.isEmpty() ? QString("new") : "kept, " + at);
  const bool planning = session_->planning();
  title_->setLast(planning ? (session_->stopping() ? QString("stopped, keeping the plan")
                                                   : QString("planning …"))
                  : message_.isEmpty() ? session_->lastDone()
                                       : message_,
                  (session_->canUndo() || place().canUndoTyping()) && !planning);
  atWork_ = false;
}

void Window::takeLook() {
  setPalette(look_.palette());
  update();
}

void Window::changeEvent(QEvent* event) {
  if (event->type() == QEvent::ApplicationPaletteChange) look_.systemChanged();
  QWidget::changeEvent(event);
}

void Window::lay() {
  const int w = width();
  int x = std::max(232, 50 + std::min(textWidth(q(session_->facts().name), 14, true), 300) + 40);
  for (const Tab& tab : tabs_) {
    const QSize size = tab.tab->sizeHint();
    tab.tab->setGeometry(x, 6, size.width(), size.height());
    x += size.width() + 2;
  }
  menu_->setGeometry(w - 16 - 110, 8, 110, 28);
  find_->setGeometry(w - 16 - 110 - 10 - 236, 8, 236, 28);
  const int foot = height() - TitleBlock::blockHeight;
  const int band = band_->isHidden() ? 0 : band_->heightFor(w);
  stack_->setGeometry(0, stripHeight, w, foot - stripHeight - band);
  band_->setGeometry(0, foot - band, w, band);
  title_->setGeometry(0, foot, w, TitleBlock::blockHeight);
  keySheet_->setGeometry(0, stripHeight, w, foot - stripHeight);
}

void Window::resizeEvent(QResizeEvent*) { lay(); }

void Window::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.ground);
  drawSign(painter, QRectF(16, 10, 24, 24), c);
  drawText(painter, 50, 27,
           elided(q(session_->facts().name), 14, true, tabs_.front().tab->x() - 50 - 16), 14, true,
           c.ink);
}

std::unique_ptr<Window> openWindow(const std::string& path, Look& look) {
  store::Book book = store::Book::open(path, store::Access::write);
  QString name = qEnvironmentVariable("USER");
  if (name.isEmpty()) name = qEnvironmentVariable("USERNAME", "maker");
  const store::Hand hand{name.toStdString(), QSysInfo::machineHostName().toStdString()};
  return std::make_unique<Window>(std::make_unique<Session>(std::move(book), hand), look);
}

}  // namespace flitch::desktop
