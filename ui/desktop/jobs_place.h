#pragma once
#include <QElapsedTimer>
#include <QTimer>

#include "ui/desktop/band.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/glue_view.h"
#include "ui/desktop/parts_view.h"
#include "ui/desktop/place.h"
#include "ui/desktop/plan_facts.h"
#include "ui/desktop/plan_head.h"
#include "ui/desktop/plan_view.h"
#include "ui/desktop/price_view.h"
#include "ui/desktop/said_line.h"
#include "ui/desktop/session.h"
#include "ui/desktop/sheet_table.h"
#include "ui/desktop/table_model.h"

namespace flitch::desktop {

/// Choose the boards of a job, and know how good the choice is.
class JobsPlace : public Place {
  Q_OBJECT
 public:
  JobsPlace(Session& session, const Look& look, const Actions& actions, QWidget* parent);

  [[nodiscard]] std::array<TitleCell, 3> cells() const override;
  [[nodiscard]] Where where() const override {
    return session_.planning() ? whilePlanning : inJobs;
  }
  [[nodiscard]] bool can(Act act) const override;
  void carryOut(Act act) override;
  void refresh() override;
  bool find(const QString& text) override;
  [[nodiscard]] std::vector<QWidget*> areas() const override;
  [[nodiscard]] bool canUndoTyping() const override {
    return shown_ == Shown::panels && panels_.changed();
  }
  void undoTyping() override { panels_.takeBack(); }
  /// How long planning may take, seconds.
  void setSeconds(double seconds) { seconds_ = seconds; }
  [[nodiscard]] const std::optional<PlanSheet>& sheet() const { return sheet_; }
  void showJob(JobId which);
  /// Labels of the plan's blanks as PDF; trouble is said.
  void writePartLabels(const QString& path);
  /// What the job costs as PDF; trouble is said.
  void writeEstimate(const QString& path);
  /// Gives a quote at the estimate's price and writes it as PDF; trouble is said.
  void writeQuote(const QString& path);
  /// What the job costs beside its lumber, from a CSV file; trouble is said.
  void takeLines(const QString& path);
  [[nodiscard]] const PriceView& price() const { return price_; }

 signals:
  void boardWanted(BoardId board);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  enum class Shown { boards, price, twoPlans, panels };
  void lay();
  void readJob();
  void showPlanning();
  void takeJob();
  void cutSheets();
  void partLabels();
  void askSaw();
  void askQuote();
  void readPrice();
  void readBeside();
  /// What stands below the head: the boards, the price or the two plans.
  [[nodiscard]] QWidget& shownArea();
  void turnTo(Shown shown);
  /// Where a PDF of the job goes, as the maker says; empty: nowhere.
  [[nodiscard]] QString pdfPath(const QString& title, const QString& name);
  void setTrust(bool trust);
  void settle(Settled settled);
  void showSettled();
  /// Kept for the next plan where it can lie there; else the reason is told.
  bool layByHand(const LaidByHand& laid, const std::optional<LaidByHand>& before);
  void takeUp(const LaidByHand& laid);
  /// What the line says, told beside it.
  std::optional<LaidByHand> laidSaid();
  /// A cell of the parts list was typed over; a count of 0 takes the part out. Trouble is said.
  void changePart(int line, int column, const QString& text);
  /// A cell of another part was typed; once its sizes are there it joins the job. Trouble is said.
  void addPart(int column);
  /// Whether its parts may be changed; if not, why is said.
  bool canChange();
  /// The job asks for this instead, what was settled stands as far as it can. Trouble is said.
  bool changeTo(const Job& changed, const QString& what);
  /// Asks for the first part of a new job, then for its name.
  void askFirstPart();
  void readFirstPart();
  /// Reads the clipboard and asks for the job's name; trouble is said.
  void pasteParts();
  /// Asks for the name of the job that what is pasted becomes.
  void askName();
  void titleName();
  void dropPasted();
  void namePasted();
  void openLaying(bool open);
  void layAsSaid();
  [[nodiscard]] const OpenedBoard* chosenBoard() const;
  [[nodiscard]] const Job* job() const;
  [[nodiscard]] QRect boardsHead() const;
  [[nodiscard]] int partsWidth() const { return width() >= wideFrom ? 568 : 404; }

  Session& session_;
  const Look& look_;
  const Actions& actions_;
  std::vector<Job> jobs_;
  JobId chosen_;
  ShopProfile shop_;
  std::optional<PlanSheet> sheet_;
  bool trust_ = false;
  SettledBoards settled_;
  std::pair<JobId, PlanId> settledFrom_;  ///< the plan whose choices it began with
  double seconds_ = 10;
  QTimer clock_;  ///< the seconds shown while planning
  QElapsedTimer since_;
  PartsModel model_;
  Choice choice_;
  PartsView parts_;
  PlanHead head_;
  Band band_;
  PlanView view_;
  GlueView panels_;
  SaidLine naming_;           ///< below all while pasted parts wait for a name
  std::vector<Part> pasted_;  ///< not in the book yet
  bool firstPart_ = false;    ///< the line asks for the first part of a new job
  bool refusedPart_ = false;  ///< the new part's row was whole and could not be read
  SaidLine laying_;           ///< below the boards while open
  bool layingOpen_ = false;
  QString offered_;  ///< what the line began with
  PriceView price_;
  std::optional<Estimate> estimate_;  ///< while the price is open
  TableModel besideModel_;
  SheetTable beside_;      ///< the two newest plans
  std::size_t plans_ = 0;  ///< kept for the job
  Shown shown_ = Shown::boards;
  PlanFacts facts_;
  Button take_;
};

}  // namespace flitch::desktop
