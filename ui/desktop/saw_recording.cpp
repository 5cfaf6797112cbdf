#include <algorithm>
#include <stdexcept>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/replan.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/desk/ticks.h"
#include "inventory/records/refusal.h"
#include "ui/desktop/saw_place.h"

namespace flitch::desktop {
namespace {

/// A mark alone, that the saw has not met yet: what can still be planned around.
bool onlyFound(const desk::PaperLine& line) {
  return !line.found.empty() && !line.otherwise.any() && line.lost.empty() && line.used.empty();
}

QString boardsText(std::size_t count) {
  return count == 1 ? QString("1 board") : QString("%1 boards").arg(count);
}

}  // namespace

void SawPlace::readTicks() {
  std::vector<Board> boards;
  std::set<BoardId> sawn;
  for (const OpenedBoard& opened : sheet_->boards) {
    boards.push_back(opened.board);
    if (opened.sawn) sawn.insert(opened.board.id);
  }
  fetched_ = pullList(sheet_->plan, boards, sawn, sheet_->job, session_.book().read().ownSpecies(),
                      session_.facts().unit);
  desk::recallTicks(session_.book(), fetched_);
}

void SawPlace::tickFetched(bool here) {
  session_.attempt([&] {
    for (PullLine& line : fetched_.lines) {
      if (line.board.id == board_) line.here = here;
    }
    desk::keepTicks(session_.book(), fetched_);
  });
  tellStates();
}

void SawPlace::begin(SawLine::About about, const QString& word) {
  band_.close();
  const bool otherwise = about == SawLine::About::otherwise;
  if (otherwise && word.startsWith("stop")) {
    // Said before at an earlier cut: this one holds.
    QStringList items = atSaw_[board_].otherwise.split(',', Qt::SkipEmptyParts);
    items.removeIf(
        [](const QString& item) { return item.trimmed().startsWith("stop", Qt::CaseInsensitive); });
    atSaw_[board_].otherwise = items.join(',');
  }
  bar_.begin(about, otherwise ? atSaw_[board_].otherwise : QString(), word);
  if (otherwise) {
    readLine();
  } else {
    bar_.tell({}, false);
  }
  lay();
}

QString SawPlace::stopWord() const {
  desk::Deviation stopped;
  stopped.stoppedAfter = view_.lastCut();
  const PlanRequest request = requestOf(*sheet_, session_.facts().unit);
  if (board()->sawn) return {};
  try {
    static_cast<void>(
        desk::asSawn(stopped, {board()->cutting, board()->board, request, sheet_->plan.tick}));
  } catch (const Refusal&) {
    return {};  // no cut made, or none left, or the board is whole yet
  }
  return QString("stop %1, ").arg(*stopped.stoppedAfter);
}

void SawPlace::readLine() {
  line_ = desk::PaperLine{};
  std::vector<Defect> found;
  const OpenedBoard* opened = board();
  if (opened == nullptr || opened->sawn) {
    bar_.tell({}, false);
    return;
  }
  if (bar_.typing() || !bar_.typed().isEmpty()) atSaw_[board_].otherwise = bar_.typed();
  const PlanRequest request = requestOf(*sheet_, session_.facts().unit);
  const CuttingCase at{opened->cutting, opened->board, request, sheet_->plan.tick};
  try {
    line_ = desk::readPaper(bar_.typed().toStdString(), opened->cutting, session_.readingRules());
    if (!line_->sawn) {
      throw Refusal("bad-line", Complaint{"", "At the saw a board is cut, or another one chosen",
                                          "no", desk::paperWords});
    }
    found = desk::placed(
        opened->board, desk::fromTagEnd(line_->found, opened->cutting, request.unit), request.unit);
    bar_.tell(q(desk::readingOf(*line_, at)), false);
  } catch (const Refusal& refusal) {
    line_.reset();
    bar_.tell(q(text(refusal.complaints().front())), true);
  }
  view_.setFound(std::move(found));
}

void SawPlace::enterLine() {
  if (bar_.about() == SawLine::About::spoiled) {
    spoil();
    return;
  }
  readLine();
  list_.setFocus();
  if (line_ && onlyFound(*line_) && view_.made() == 0) {
    markFound();
  } else if (line_ && line_->otherwise.stoppedAfter) {
    record();
  }
  lay();
}

/// Before the first cut a mark goes into the book, and the plan around it.
void SawPlace::markFound() {
  const OpenedBoard& opened = *board();
  const Unit unit = session_.facts().unit;
  const bool done = session_.attempt([&] {
    Board marked = session_.book().read().board(opened.board.id).value();
    const auto found =
        desk::placed(marked, desk::fromTagEnd(line_->found, opened.cutting, unit), unit);
    marked.defects.insert(marked.defects.end(), found.begin(), found.end());
    desk::survey(session_.book(), marked, session_.hand());
  });
  if (!done) return;
  // It is in the book now: entered with the board once more it would be there twice.
  atSaw_[board_].otherwise.clear();
  bar_.showTyped({});
  readLine();
  askAround("Planned again around the mark: ");
}

void SawPlace::spoil() {
  std::vector<std::string> marks;
  for (const QString& word :
       bar_.typed().toUpper().replace(',', ' ').split(' ', Qt::SkipEmptyParts))
    marks.push_back(word.toStdString());
  desk::Spoiled spoiled;
  const bool done = session_.attempt([&] {
    spoiled = desk::spoil(session_.book(), chosen_, marks, "at the bench", session_.hand());
  });
  if (!done) return;
  list_.setFocus();
  session_.look();
  askAround(q(desk::areText(marks)) + " wanted again, wood for " +
            q(text(spoiled.cost, session_.facts().sign)) + " is lost. ");
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
  readLine();
  if (!line_) {
    // The cuts stand; what cannot be read is put right and entered with one key.
    tellStates();
    emit said(bar_.reading(), true);
    return;
  }
  const desk::PaperLine line = *line_;
  const std::optional<int> stopped = line.otherwise.stoppedAfter;
  if (stopped && view_.made() > 0 && *stopped != view_.lastCut()) {
    tellStates();
    emit said(QString("The line says stop %1, the last cut made here is %2. Put one of them right: "
                      "Backspace takes a cut back.")
                  .arg(*stopped)
                  .arg(view_.lastCut()),
              true);
    return;
  }
  const bool done = session_.attempt([&] {
    const desk::Turn turn =
        desk::turnOf(session_.book().read(), sawn, line, false, session_.facts().unit);
    desk::saw(session_.book(), chosen_, {turn}, session_.hand(), {line.lost, ""});
  });
  if (!done) {
    tellStates();
    return;
  }
  atSaw_.erase(sawn);
  board_ = then;
  session_.look();
  if (line.cutOtherwise() || !line.lost.empty()) askAround("Planned again: ");
}

void SawPlace::askAll() {
  showChanges(false);
  band_.ask(QString("Record %1 as sawn as drawn? Undo takes it back while nothing stands on it.")
                .arg(boardsText(sheet_->unsawn())),
            "Record as sawn", [this] {
              if (session_.attempt([this] {
                    desk::sawAsPlanned(session_.book(), chosen_, {}, session_.hand());
                  })) {
                atSaw_.clear();
                session_.look();
              }
            });
}

void SawPlace::showPaper(bool shown) {
  onPaper_ = shown;
  band_.close();
  if (shown) paper_.setBoards(&*sheet_, order_, session_.readingRules());
  lay();
  (shown ? static_cast<QWidget*>(&paper_) : &list_)->setFocus();
}

void SawPlace::recordPaper() {
  paper_.commit();
  if (!paper_.trouble().isEmpty()) {
    emit said(paper_.trouble(), true);
    return;
  }
  std::vector<desk::Turn> turns;
  desk::Lost lost;
  bool otherwise = false;
  const bool done = session_.attempt([&] {
    const store::Snapshot now = session_.book().read();
    for (const SawPaper::Line& line : paper_.lines()) {
      if (!line.read.sawn) continue;
      turns.push_back(desk::turnOf(now, line.board, line.read, false, session_.facts().unit));
      lost.marks.insert(lost.marks.end(), line.read.lost.begin(), line.read.lost.end());
      otherwise = otherwise || line.read.cutOtherwise() || !line.read.lost.empty();
    }
    if (turns.empty()) {
      throw Refusal("nothing-to-saw", Complaint{"", "No board is said to be sawn", "", ""});
    }
    desk::saw(session_.book(), chosen_, turns, session_.hand(), lost);
  });
  if (!done) return;
  for (const desk::Turn& turn : turns) atSaw_.erase(turn.planned);
  session_.look();
  showPaper(false);
  if (otherwise) askAround("Planned again: ");
}

void SawPlace::askAround(const QString& why) {
  constexpr double soon = 0.9;
  showChanges(false);
  desk::Replanned again;
  try {
    if (!session_.attempt([&] { again = desk::replanned(session_.book(), chosen_, soon); })) return;
  } catch (const std::logic_error& fault) {
    // What was sawn is in the book; a plan that the checker rejects is a fault of ours to be told.
    emit said(why + "no plan around it was found; plan the job anew. " + q(fault.what()), true);
    return;
  }
  const bool changes = again.count(desk::Fate::stays) < static_cast<int>(again.changes.size());
  if (!changes) {
    emit said(why + q(desk::aroundText(again)), !again.result.plan.shorts.empty());
    return;
  }
  band_.ask(why + q(desk::aroundText(again)), "Take it", [this, again] {
    session_.attempt(
        [&] { desk::keep(session_.book(), again.result, again.reserved, session_.hand()); });
    session_.look();
    list_.setFocus();
  });
  changes_.setTable(desk::changesTable(again));
  band_.offer("Show both", [this] { showChanges(changesTable_.isHidden()); });
}

void SawPlace::showChanges(bool shown) {
  if (changesTable_.isHidden() == !shown) return;
  changesTable_.setVisible(shown);
  lay();
}

}  // namespace flitch::desktop
