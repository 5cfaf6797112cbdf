#pragma once
#include <map>
#include <set>

#include "inventory/desk/saw_paper.h"
#include "inventory/records/pull_list.h"
#include "ui/desktop/band.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/pull_list.h"
#include "ui/desktop/saw_line.h"
#include "ui/desktop/saw_paper.h"
#include "ui/desktop/saw_sheet.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// At the saw: the boards of a job's plan by bay, one of them large, cut by cut. A board whose last
/// cut is made is recorded as sawn in one entry, with what was said to have gone otherwise; cuts
/// made and what was typed are kept in the window until then. After a surprise what is left is
/// planned again and offered.
class SawPlace : public Place {
  Q_OBJECT
 public:
  SawPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent);

  [[nodiscard]] std::array<TitleCell, 3> cells() const override;
  [[nodiscard]] Where where() const override { return inSaw; }
  [[nodiscard]] bool can(Act act) const override;
  void carryOut(Act act) override;
  void refresh() override;
  /// A scanned board of the plan is ticked off the pull list and laid on the saw; another one is
  /// refused with the bay of the board wanted, unless it was asked for as the one really used.
  bool find(const QString& text) override;
  [[nodiscard]] std::vector<QWidget*> areas() const override;
  /// The board at the saw, null: none.
  [[nodiscard]] const OpenedBoard* board() const;
  [[nodiscard]] const std::optional<PlanSheet>& sheet() const { return sheet_; }
  void showJob(JobId job);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  /// How far a board is, until it is recorded.
  struct AtSaw {
    int made = 0;
    QString otherwise;  ///< as typed
  };
  void readJobs();
  void readPlan();
  void chooseBoard(BoardId board);
  void showBoard();
  void tellStates();
  void cut();
  void record();
  void askAll();
  void showPaper(bool shown);
  void recordPaper();
  void begin(SawLine::About about, const QString& word);
  /// "stop 3, " amid the cuts of a board, once it lies in several pieces.
  [[nodiscard]] QString stopWord() const;
  /// Reads the line of the board at the saw and tells how it was understood.
  void readLine();
  void enterLine();
  void markFound();
  void spoil();
  /// Plans what is left again and offers it; says so where nothing changes.
  void askAround(const QString& why);
  void readTicks();
  void tickFetched(bool here);
  [[nodiscard]] QString stateOf(const OpenedBoard& opened) const;
  [[nodiscard]] const OpenedBoard* nextUnsawn() const;
  void lay();

  static constexpr int listWidth = 268;
  static constexpr int footHeight = 64;
  [[nodiscard]] bool atOpenBoard() const;
  void layPaper();
  /// The boards that a plan made again does not leave as they were, in place of the board.
  void showChanges(bool shown);
  void layKeys();
  void paintPaper(QPainter& painter) const;

  Session& session_;
  const Look& look_;
  std::vector<Job> jobs_;  ///< with a plan, the newest first
  JobId chosen_;
  std::optional<PlanSheet> sheet_;
  std::vector<std::size_t> order_;  ///< boards of the sheet by bay, as listed
  BoardId board_;
  std::map<BoardId, AtSaw> atSaw_;
  std::optional<desk::PaperLine> line_;  ///< of the board at the saw; none: it cannot be read
  flitch::PullList fetched_;
  Choice job_;
  PullList list_;
  SawSheet view_;
  SawPaper paper_;
  bool onPaper_ = false;
  Band band_;
  TableModel changes_;
  SheetTable changesTable_;
  Button all_, fromPaper_, cut_, knot_, lost_, offcut_, other_, back_, next_, enter_;
  SawLine bar_;
};

}  // namespace flitch::desktop
