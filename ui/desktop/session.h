#pragma once
#include <QObject>
#include <QTimer>
#include <memory>
#include <optional>
#include <thread>
#include <vector>

#include "inventory/exchange/columns.h"
#include "inventory/planning/planner.h"
#include "inventory/store/book.h"

namespace flitch::desktop {

/// The shop's day, 2026-05-31.
[[nodiscard]] std::string today();

/// One step of a plan's making, for the thin bar and the curves.
struct Step {
  double seconds = 0;
  int plan = 0;
  Money cost, bound;
  PlanBound boundKind = PlanBound::none;
};

/// What stays known of the newest planning of a job in this window (the book keeps the plan
/// itself).
struct Planned {
  PlanId plan;
  std::vector<Step> steps;
};

/// The window's hold on a book: owns it in the window's thread, looks once a second whether another
/// station wrote, and plans in a thread of its own on a copy.
class Session : public QObject {
  Q_OBJECT
 public:
  Session(store::Book book, store::Hand hand);
  ~Session() override;

  [[nodiscard]] store::Book& book() { return book_; }
  [[nodiscard]] const store::Book& book() const { return book_; }
  [[nodiscard]] const store::Hand& hand() const { return hand_; }
  [[nodiscard]] const store::BookFacts& facts() const { return facts_; }
  [[nodiscard]] exchange::ReadingRules readingRules() const;

  /// Reads the last entry; emits bookChanged when it is not the one known.
  void look();
  /// The last thing done, as the title block says it.
  [[nodiscard]] QString lastDone() const { return lastDone_; }
  /// When it was done, local time: "10:42".
  [[nodiscard]] QString lastDoneAt() const { return lastDoneAt_; }
  [[nodiscard]] bool canUndo() const { return canUndo_; }
  /// The job that the last thing done was about, if any.
  [[nodiscard]] JobId lastJob() const { return lastJob_; }

  /// Carries `work` out on the book. A refusal or disk trouble becomes a sentence for the maker;
  /// returns whether it was done.
  bool attempt(const std::function<void()>& work);

  /// Starts planning the job on a copy; refusals are said. One plan at a time.
  void plan(JobId job, const Choices& choices, double seconds, std::int64_t seed);
  /// Answers at once: planning() is over for the window; the best plan so far is kept when the
  /// worker hands it over.
  void stop();
  [[nodiscard]] bool planning() const { return planningJob_.has_value(); }
  [[nodiscard]] JobId planningJob() const { return planningJob_.value_or(JobId{}); }
  [[nodiscard]] bool stopping() const { return stopping_; }
  [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }
  [[nodiscard]] const std::string& sentence() const { return sentence_; }
  [[nodiscard]] const Planned* planned(PlanId plan) const;

 signals:
  void bookChanged();
  void said(const QString& sentence, bool trouble);
  void planProgressed();
  /// Kept in the book, or given up (then a trouble was said).
  void planEnded();

 private:
  void readLast();
  void hear(int run, const planning::PlanProgress& progress);
  void take(int run, const std::shared_ptr<planning::PlanResult>& result, const QString& trouble);

  store::Book book_;
  store::Hand hand_;
  store::BookFacts facts_;
  EntryId seen_;
  QString lastDone_, lastDoneAt_;
  bool canUndo_ = false;
  JobId lastJob_;
  QTimer feed_;

  std::optional<JobId> planningJob_;
  bool stopping_ = false;
  int run_ = 0;
  std::vector<Step> steps_;
  std::string sentence_;
  std::vector<Planned> planned_;
  std::jthread worker_;  ///< last: ends before what it reports to
};

}  // namespace flitch::desktop
