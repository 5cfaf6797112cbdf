#include "ui/desktop/saw_place.h"

#include <QPainter>
#include <QRegularExpression>
#include <QSignalBlocker>
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/desk/replan.h"
#include "inventory/desk/saw.h"
#include "inventory/wood/tag_code.h"
#include "labels/cut_sheet.h"

namespace flitch::desktop {
namespace {

QString tagOf(const Board& board) { return board.tag ? q(text(*board.tag)) : QString("no tag"); }

}  // namespace

SawPlace::SawPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent)
    : Place(parent),
      session_(session),
      look_(look),
      job_(look, "Job at the saw", "", this),
      list_(look, this),
      view_(look, session.facts().unit, this),
      paper_(look, session.facts().unit, this),
      band_(look, this),
      all_(look, actions.at(Act::allAsPlanned), this),
      fromPaper_(look, actions.at(Act::fromPaper), this),
      cut_(look, actions.at(Act::cutAsDrawn), this),
      back_(look, actions.at(Act::lookBack), this),
      next_(look, actions.at(Act::nextBoard), this),
      enter_(look, actions.at(Act::allAsPlanned), this),
      lost_(look, "Blanks lost", "Blanks lost, like C2", "L", this) {
  setAccessibleName("Saw");
  setFocusProxy(&list_);
  cut_.setPrimary(true);
  enter_.setPrimary(true);
  connect(&paper_, &SawPaper::left, this, [this] { showPaper(false); });
  connect(&paper_, &SawPaper::changed, this, [this] {
    const int sawn = paper_.sawn(), otherwise = paper_.otherwise();
    const QString boards = sawn == 1 ? QString("1 board") : QString("%1 boards").arg(sawn);
    enter_.setLabel(otherwise == 0 ? "Enter " + boards
                                   : QString("Enter %1, %2 otherwise").arg(boards).arg(otherwise));
    update();
  });
  connect(&job_, &QComboBox::activated, this,
          [this](int i) { showJob(jobs_[static_cast<std::size_t>(i)].id); });
  connect(&list_, &PullList::chosen, this, [this](int row) {
    chooseBoard(sheet_->boards[order_[static_cast<std::size_t>(row)]].board.id);
  });
  connect(&lost_, &QLineEdit::textEdited, this, &SawPlace::readLost);
  connect(&lost_, &QLineEdit::returnPressed, this, [this] { list_.setFocus(); });
  connect(&lost_, &Field::left, this, [this] { list_.setFocus(); });
  connect(&band_, &Band::changed, this, &SawPlace::lay);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  refresh();
}

void SawPlace::readJobs() {
  jobs_.clear();
  const store::Snapshot now = session_.book().read();
  for (const Job& job : now.jobs()) {
    if (now.newestPlan(job.id)) jobs_.push_back(job);
  }
  std::reverse(jobs_.begin(), jobs_.end());
  const auto stands = [&](JobId id) {
    return std::any_of(jobs_.begin(), jobs_.end(), [&](const Job& j) { return j.id == id; });
  };
  if (!stands(chosen_)) {
    const JobId last = session_.lastJob();
    chosen_ = stands(last) ? last : jobs_.empty() ? JobId{} : jobs_.front().id;
  }
  const QSignalBlocker quiet(&job_);
  job_.clear();
  for (const Job& job : jobs_) {
    job_.addItem(q(job.name));
    if (job.id == chosen_) job_.setCurrentIndex(job_.count() - 1);
  }
  job_.setVisible(!jobs_.empty());
}

void SawPlace::readPlan() {
  sheet_.reset();
  if (chosen_) {
    session_.attempt([&] {
      sheet_ =
          planSheet(session_.book().read(), chosen_, session_.facts().sign, session_.facts().unit);
    });
  }
  order_.clear();
  if (!sheet_) return;
  for (std::size_t b = 0; b < sheet_->boards.size(); ++b) order_.push_back(b);
  std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
    return sheet_->boards[a].board.bay < sheet_->boards[b].board.bay;
  });
}

void SawPlace::refresh() {
  readJobs();
  readPlan();
  if (board() == nullptr || board()->sawn) {
    const OpenedBoard* next = nextUnsawn();
    board_ = next != nullptr ? next->board.id : BoardId{};
  }
  tellStates();
  showBoard();
  if (onPaper_) {
    onPaper_ = sheet_ && sheet_->unsawn() > 0;
    if (onPaper_) paper_.setBoards(&*sheet_, order_);
  }
  lay();
}

void SawPlace::showPaper(bool shown) {
  onPaper_ = shown;
  band_.close();
  if (shown) paper_.setBoards(&*sheet_, order_);
  lay();
  (shown ? static_cast<QWidget*>(&paper_) : &list_)->setFocus();
}

void SawPlace::recordPaper() {
  paper_.commit();
  if (!paper_.trouble().isEmpty()) {
    emit said(paper_.trouble(), true);
    return;
  }
  std::vector<BoardId> boards;
  desk::Lost lost;
  for (const SawPaper::Line& line : paper_.lines()) {
    if (!line.read.sawn) continue;
    boards.push_back(line.opened->board.id);
    lost.marks.insert(lost.marks.end(), line.read.lost.begin(), line.read.lost.end());
  }
  if (boards.empty()) {
    emit said("No board is said to be sawn.", true);
    return;
  }
  const bool done = session_.attempt(
      [&] { desk::sawAsPlanned(session_.book(), chosen_, boards, session_.hand(), lost); });
  if (!done) return;
  for (const BoardId board : boards) atSaw_.erase(board);
  session_.look();
  showPaper(false);
}

void SawPlace::showJob(JobId job) {
  chosen_ = job;
  board_ = {};
  refresh();
}

const OpenedBoard* SawPlace::board() const {
  if (!sheet_) return nullptr;
  const auto found = std::find_if(sheet_->boards.begin(), sheet_->boards.end(),
                                  [&](const OpenedBoard& b) { return b.board.id == board_; });
  return found == sheet_->boards.end() ? nullptr : &*found;
}

/// The next in the list's order, from the top again at its end.
const OpenedBoard* SawPlace::nextUnsawn() const {
  if (!sheet_) return nullptr;
  const auto at = std::find_if(order_.begin(), order_.end(),
                               [&](std::size_t b) { return sheet_->boards[b].board.id == board_; });
  const auto from = static_cast<std::size_t>(at - order_.begin());
  for (std::size_t step = 1; step <= order_.size(); ++step) {
    const std::size_t place = at == order_.end() ? step - 1 : (from + step) % order_.size();
    const OpenedBoard& opened = sheet_->boards[order_[place]];
    if (!opened.sawn && opened.board.id != board_) return &opened;
  }
  return nullptr;
}

void SawPlace::chooseBoard(BoardId board) {
  board_ = board;
  band_.close();
  tellStates();
  showBoard();
  emit cellsChanged();
}

void SawPlace::tellStates() {
  std::vector<PullRow> rows;
  int current = -1;
  for (const std::size_t b : order_) {
    const OpenedBoard& opened = sheet_->boards[b];
    PullRow row{q(opened.board.bay), tagOf(opened.board),
                q(opened.board.species) + " " + q(text(opened.board.nominal)), "to fetch",
                opened.sawn};
    const auto at = atSaw_.find(opened.board.id);
    if (opened.sawn) {
      row.state = "sawn ✓";
    } else if (at != atSaw_.end() && at->second.made > 0) {
      row.state = QString("%1 made").arg(at->second.made);
    } else if (opened.board.id == board_) {
      row.state = "at the saw";
    }
    if (opened.board.id == board_) current = static_cast<int>(rows.size());
    rows.push_back(std::move(row));
  }
  list_.setRows(std::move(rows));
  list_.setCurrent(current);
}

void SawPlace::showBoard() {
  const OpenedBoard* opened = board();
  QString why;
  if (opened == nullptr) {
    why = !sheet_                 ? "No job is planned yet: plan one in Jobs."
          : order_.empty()        ? "The plan opens no board."
          : sheet_->unsawn() == 0 ? "All boards of this plan are sawn ✓"
                                  : "Choose a board of the list, or scan one.";
  }
  std::vector<std::string> cautions;
  if (opened != nullptr && !opened->sawn) {
    cautions = pages::cautions(opened->cutting, opened->board, sheet_->job, sheet_->shop,
                               session_.facts().unit, session_.book().read().ownSpecies());
  }
  view_.setBoard(sheet_ ? &*sheet_ : nullptr, opened, std::move(cautions), why);
  const auto at = atSaw_.find(board_);
  view_.setMade(at == atSaw_.end() ? 0 : at->second.made);
  const QSignalBlocker quiet(&lost_);
  lost_.setText(at == atSaw_.end() ? QString() : at->second.lost);
  lost_.setTrouble(false);
}

/// Hand marks of this board's blanks among what is typed.
std::vector<std::string> SawPlace::lostMarks() const {
  std::vector<std::string> marks;
  for (const QString& word : lost_.text().split(QRegularExpression("[ ,;]+"), Qt::SkipEmptyParts)) {
    marks.push_back(word.toUpper().toStdString());
  }
  return marks;
}

void SawPlace::readLost() {
  const std::vector<std::string> all = desk::marksOf(board()->cutting);
  const std::set<std::string> there(all.begin(), all.end());
  const std::vector<std::string> marks = lostMarks();
  const bool known = std::all_of(marks.begin(), marks.end(),
                                 [&](const std::string& mark) { return there.contains(mark); });
  lost_.setTrouble(!known);
  atSaw_[board_].lost = lost_.text();
}

void SawPlace::cut() {
  AtSaw& at = atSaw_[board_];
  if (at.made < view_.steps()) {
    view_.setMade(++at.made);
    if (at.made < view_.steps()) {
      tellStates();
      emit cellsChanged();
      return;
    }
  }
  record();
}

void SawPlace::record() {
  const BoardId sawn = board_;
  const OpenedBoard* next = nextUnsawn();
  const BoardId then = next != nullptr ? next->board.id : BoardId{};
  const bool done = session_.attempt([&] {
    desk::sawAsPlanned(session_.book(), chosen_, {sawn}, session_.hand(), {lostMarks(), ""});
  });
  if (!done) {
    // The cuts stand; what was refused can be put right and entered with one key.
    tellStates();
    return;
  }
  atSaw_.erase(sawn);
  board_ = then;
  session_.look();
}

void SawPlace::askAll() {
  const std::size_t count = sheet_->unsawn();
  const QString boards = count == 1 ? QString("1 board") : QString("%1 boards").arg(count);
  band_.ask(QString("Record %1 as sawn as drawn? Undo takes it back while nothing stands on it.")
                .arg(boards),
            "Record as sawn", [this] {
              if (session_.attempt([this] {
                    desk::sawAsPlanned(session_.book(), chosen_, {}, session_.hand());
                  })) {
                atSaw_.clear();
                session_.look();
              }
            });
}

void SawPlace::planAround() {
  constexpr double soon = 0.9;
  session_.attempt([&] {
    const desk::Replanned again = desk::replanned(session_.book(), chosen_, soon);
    desk::keep(session_.book(), again.result, again.reserved, session_.hand());
    emit said(q(desk::changesText(again)), false);
  });
}

bool SawPlace::can(Act act) const {
  const OpenedBoard* opened = board();
  const bool open = opened != nullptr && !opened->sawn;
  switch (act) {
    case Act::cutAsDrawn:
    case Act::blankLost: return open && !onPaper_;
    case Act::lookBack: return open && view_.made() > 0 && !onPaper_;
    case Act::nextBoard: return nextUnsawn() != nullptr && !onPaper_;
    case Act::fromPaper: return sheet_ && sheet_->unsawn() > 0;
    case Act::allAsPlanned: return sheet_ && sheet_->unsawn() > 0;
    case Act::nextSawJob: return jobs_.size() > 1;
    case Act::planAround: return sheet_.has_value() && !session_.planning();
    default: return false;
  }
}

void SawPlace::carryOut(Act act) {
  switch (act) {
    case Act::cutAsDrawn: cut(); break;
    case Act::lookBack:
      view_.setMade(--atSaw_[board_].made);
      tellStates();
      emit cellsChanged();
      break;
    case Act::blankLost:
      lost_.setFocus(Qt::ShortcutFocusReason);
      lost_.selectAll();
      break;
    case Act::nextBoard: chooseBoard(nextUnsawn()->board.id); break;
    case Act::allAsPlanned: onPaper_ ? recordPaper() : askAll(); break;
    case Act::planAround: planAround(); break;
    case Act::fromPaper: showPaper(!onPaper_); break;
    case Act::nextSawJob: {
      const auto at = std::find_if(jobs_.begin(), jobs_.end(),
                                   [this](const Job& j) { return j.id == chosen_; });
      showJob(at + 1 == jobs_.end() ? jobs_.front().id : (at + 1)->id);
      break;
    }
    default: break;
  }
}

bool SawPlace::find(const QString& text) {
  const TagReading reading = readTag(text.toStdString());
  const bool sure = reading.verdict == TagReading::Verdict::right ||
                    reading.verdict == TagReading::Verdict::noCheck;
  if (!sheet_ || !sure) return false;
  for (const OpenedBoard& opened : sheet_->boards) {
    if (opened.board.tag != reading.code) continue;
    chooseBoard(opened.board.id);
    list_.setFocus(Qt::OtherFocusReason);
    return true;
  }
  const OpenedBoard* wanted = board() != nullptr && !board()->sawn ? board() : nextUnsawn();
  QString sentence =
      q(flitch::text(reading.code)) + " is not in the plan of " + q(sheet_->job.name) + ".";
  if (wanted != nullptr) {
    sentence += " Fetch " + tagOf(wanted->board);
    sentence +=
        wanted->board.bay.empty() ? QString(".") : " from bay " + q(wanted->board.bay) + ".";
  }
  emit said(sentence, true);
  return true;
}

std::vector<QWidget*> SawPlace::areas() const {
  auto* self = const_cast<SawPlace*>(this);
  return {&self->list_, &self->cut_, &self->lost_};
}

std::array<TitleCell, 3> SawPlace::cells() const {
  TitleCell job{"Job", sheet_ ? q(sheet_->job.name) : QString("none planned"), 234, 320};
  TitleCell sawn{"Sawn", "nothing", 130, 180};
  TitleCell lies{"Board as it lies", "none", 250, 320};
  if (sheet_) {
    const std::size_t all = sheet_->boards.size();
    sawn.value = QString("%1 of %2 boards").arg(all - sheet_->unsawn()).arg(all);
  }
  if (const OpenedBoard* opened = board()) {
    lies.value = tagOf(opened->board) + ", face A up, tag right";
  }
  return {job, sawn, lies};
}

void SawPlace::lay() {
  const int h = height(), w = width();
  job_.setGeometry(16, 12, listWidth - 32, 30);
  for (QWidget* widget :
       std::initializer_list<QWidget*>{&job_, &list_, &view_, &all_, &cut_, &back_, &next_}) {
    widget->setVisible(!onPaper_ && (widget != &job_ || !jobs_.empty()));
  }
  const OpenedBoard* opened = board();
  lost_.setVisible(!onPaper_ && opened != nullptr && !opened->sawn);
  paper_.setVisible(onPaper_);
  enter_.setVisible(onPaper_);
  if (onPaper_) {
    const int band = band_.isHidden() ? 0 : band_.heightFor(w);
    band_.setGeometry(0, h - footHeight - band, w, band);
    paper_.setGeometry(16, 50, w - 32, h - 50 - footHeight - band - 4);
    enter_.setGeometry(16, h - 52, std::max(330, enter_.sizeHint().width()), 40);
    fromPaper_.setLabel("Back");
    fromPaper_.setGeometry(w - 16 - 150, 10, 150, 30);
    update();
    return;
  }
  fromPaper_.setLabel({});
  all_.setGeometry(16, h - 104, listWidth - 32, 40);
  fromPaper_.setGeometry(16, h - 56, listWidth - 32, 40);
  list_.setGeometry(16, 84, listWidth - 32, std::max(40, h - 84 - 120));
  const int band = band_.isHidden() ? 0 : band_.heightFor(w - listWidth);
  band_.setGeometry(listWidth, h - footHeight - band, w - listWidth, band);
  view_.setGeometry(listWidth + 1, 0, w - listWidth - 1, h - footHeight - band - 4);
  int x = listWidth + 24;
  const int y = h - 52;
  for (auto [button, least] : {std::pair{&cut_, 210}, {&back_, 140}, {&next_, 140}}) {
    const int wide = std::max(least, button->sizeHint().width());
    button->setGeometry(x, y, wide, 40);
    x += wide + 10;
  }
  lost_.setGeometry(x, y, std::clamp(w - 24 - x, 120, 300), 40);
  update();
}

void SawPlace::resizeEvent(QResizeEvent*) { lay(); }

void SawPlace::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (onPaper_) {
    drawText(painter, 16, 32, "From paper", 22, true, c.ink);
    drawText(painter, 32 + textWidth("From paper", 22, true), 32,
             elided("type only what went otherwise; an empty line means: as planned", 13, false,
                    width() - 380),
             13, false, c.soft);
    drawRule(painter, 0, height() - footHeight, width(), height() - footHeight, c.edge);
    const int after = enter_.x() + enter_.width() + 20;
    drawText(painter, after, height() - 27,
             elided("Nothing is booked before this key.  no · B3 lost · B3 C1 lost", 13, false,
                    width() - after - 16),
             13, false, c.soft);
    return;
  }
  drawRule(painter, listWidth, 0, listWidth, height(), c.edge);
  drawRule(painter, listWidth, height() - footHeight, width(), height() - footHeight, c.edge);
  drawText(painter, 16, 70, "Pull list", 17, true, c.ink);
  if (sheet_) {
    const auto count = static_cast<int>(sheet_->boards.size());
    drawText(painter, listWidth - 16, 70,
             count == 1 ? QString("1 board") : QString("%1 boards").arg(count), 13, false, c.soft,
             Qt::AlignRight);
  }
}

}  // namespace flitch::desktop
