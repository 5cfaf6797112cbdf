#include "ui/desktop/saw_place.h"

#include <QSignalBlocker>
#include <algorithm>

#include "inventory/records/refusal.h"
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
      changes_(session.facts().unit, session.facts().sign, this),
      changesTable_(look, "Boards then and now", this),
      all_(look, actions.at(Act::allAsPlanned), this),
      fromPaper_(look, actions.at(Act::fromPaper), this),
      cut_(look, actions.at(Act::cutAsDrawn), this),
      knot_(look, actions.at(Act::knotFound), this),
      lost_(look, actions.at(Act::blankLost), this),
      offcut_(look, actions.at(Act::otherOffcut), this),
      other_(look, actions.at(Act::anotherBoard), this),
      back_(look, actions.at(Act::lookBack), this),
      next_(look, actions.at(Act::nextBoard), this),
      enter_(look, actions.at(Act::allAsPlanned), this),
      bar_(look, this) {
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
  connect(&bar_, &SawLine::edited, this, [this] {
    if (bar_.about() == SawLine::About::otherwise) readLine();
  });
  connect(&bar_, &SawLine::entered, this, &SawPlace::enterLine);
  connect(&bar_, &SawLine::left, this, [this] {
    list_.setFocus();
    showBoard();
    lay();
  });
  changesTable_.setModel(&changes_);
  changesTable_.setVisible(false);
  connect(&changesTable_, &SheetTable::left, this, [this] { showChanges(false); });
  connect(&band_, &Band::changed, this, [this] {
    if (band_.isHidden()) showChanges(false);
    lay();
  });
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
  fetched_ = {};
  if (!sheet_) return;
  readTicks();
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
    if (onPaper_) paper_.setBoards(&*sheet_, order_, session_.readingRules());
  }
  lay();
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

QString SawPlace::stateOf(const OpenedBoard& opened) const {
  const BoardId id = opened.board.id;
  if (opened.sawn) return "sawn ✓";
  const auto at = atSaw_.find(id);
  if (at != atSaw_.end() && at->second.made > 0) return QString("%1 made").arg(at->second.made);
  const bool here =
      std::any_of(fetched_.lines.begin(), fetched_.lines.end(),
                  [&](const PullLine& line) { return line.here && line.board.id == id; });
  return here || id == board_ ? "at the saw" : "to fetch";
}

void SawPlace::tellStates() {
  std::vector<PullRow> rows;
  int current = -1;
  for (const std::size_t b : order_) {
    const OpenedBoard& opened = sheet_->boards[b];
    PullRow row{q(opened.board.bay), tagOf(opened.board),
                q(opened.board.species) + " " + q(text(opened.board.nominal)), stateOf(opened),
                opened.sawn};
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
  if (bar_.about() == SawLine::About::spoiled && bar_.typing()) return;
  bar_.showTyped(at == atSaw_.end() ? QString() : at->second.otherwise);
  readLine();
}

bool SawPlace::atOpenBoard() const { return board() != nullptr && !board()->sawn; }

bool SawPlace::can(Act act) const {
  switch (act) {
    case Act::cutAsDrawn:
    case Act::knotFound:
    case Act::blankLost:
    case Act::otherOffcut:
    case Act::anotherBoard:
    case Act::boardFetched: return atOpenBoard() && !onPaper_;
    case Act::partSpoiled: return sheet_ && !onPaper_ && sheet_->unsawn() < sheet_->boards.size();
    case Act::lookBack: return atOpenBoard() && view_.made() > 0 && !onPaper_;
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
    case Act::knotFound: begin(SawLine::About::otherwise, stopWord() + "knot "); break;
    case Act::blankLost: begin(SawLine::About::otherwise, ""); break;
    case Act::otherOffcut: begin(SawLine::About::otherwise, "keep "); break;
    case Act::anotherBoard: begin(SawLine::About::otherwise, "used "); break;
    case Act::partSpoiled: begin(SawLine::About::spoiled, ""); break;
    case Act::boardFetched: tickFetched(stateOf(*board()) != "at the saw"); break;
    case Act::nextBoard: chooseBoard(nextUnsawn()->board.id); break;
    case Act::allAsPlanned: onPaper_ ? recordPaper() : askAll(); break;
    case Act::planAround: askAround("Planned again: "); break;
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
  if (bar_.typing() && bar_.typed().endsWith("used", Qt::CaseInsensitive)) {
    bar_.append(q(flitch::text(reading.code)));
    return true;
  }
  const std::optional<Board> scanned = session_.book().read().boardByTag(reading.code);
  if (!scanned) return false;
  const auto opened =
      std::find_if(sheet_->boards.begin(), sheet_->boards.end(),
                   [&](const OpenedBoard& each) { return each.board.id == scanned->id; });
  if (opened != sheet_->boards.end()) {
    chooseBoard(opened->board.id);
    list_.setFocus(Qt::OtherFocusReason);
    if (!opened->sawn) tickFetched(true);
    return true;
  }
  // The pull list knows what is wanted in the wrong one's stead, and where that lies.
  try {
    tick(fetched_, *scanned);
  } catch (const Refusal& refusal) {
    const Complaint& complaint = refusal.complaints().front();
    emit said(q(complaint.sentence) + ". Wanted: " + q(complaint.accepted) + ".", true);
  }
  return true;
}

std::vector<QWidget*> SawPlace::areas() const {
  auto* self = const_cast<SawPlace*>(this);
  std::vector<QWidget*> areas{&self->list_, &self->cut_};
  if (!bar_.isHidden()) areas.push_back(&self->bar_);
  return areas;
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

}  // namespace flitch::desktop
