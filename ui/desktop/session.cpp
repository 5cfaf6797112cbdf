#include "ui/desktop/session.h"

#include <QDate>
#include <QDateTime>
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/saw.h"
#include "inventory/records/refusal.h"

namespace flitch::desktop {

std::string today() { return QDate::currentDate().toString(Qt::ISODate).toStdString(); }
namespace {

QString sentenceOf(const Refusal& refusal) {
  const std::vector<Complaint>& all = refusal.complaints();
  QString said = QString::fromStdString(text(all.front()));
  if (all.size() > 1) said += QString("  (and %1 more)").arg(all.size() - 1);
  return said;
}

QString entryText(const store::EntryLine& entry, const QString& job) {
  QString said = QString::fromStdString(entry.event);
  if (!said.isEmpty()) said[0] = said[0].toUpper();
  const QString note = QString::fromStdString(entry.note);
  if (!note.isEmpty()) said += ": " + note;
  if (!job.isEmpty() && !note.contains(job)) said += " · " + job;
  return said;
}

}  // namespace

Session::Session(store::Book book, store::Hand hand)
    : book_(std::move(book)), hand_(std::move(hand)), facts_(book_.facts()) {
  readLast();
  connect(&feed_, &QTimer::timeout, this, &Session::look);
  feed_.start(1000);
}

Session::~Session() { worker_.request_stop(); }

exchange::ReadingRules Session::readingRules() const { return desk::readingRules(book_); }

void Session::look() {
  if (book_.read().lastEntry() == seen_) return;
  readLast();
  emit bookChanged();
}

void Session::readLast() {
  const store::Snapshot now = book_.read();
  seen_ = now.lastEntry();
  const std::vector<store::EntryLine> entries = now.entries(1);
  canUndo_ = desk::undoable(now).has_value();
  if (entries.empty()) {
    lastDone_ = "Book made";
    lastDoneAt_.clear();
    return;
  }
  const store::EntryLine& last = entries.front();
  lastJob_ = last.job;
  QString job;
  if (last.job) {
    if (const std::optional<Job> named = now.job(last.job))
      job = QString::fromStdString(named->name);
  }
  lastDone_ = entryText(last, job);
  const QDateTime at = QDateTime::fromString(QString::fromStdString(last.at), Qt::ISODateWithMs);
  lastDoneAt_ = at.isValid() ? at.toLocalTime().toString("hh:mm") : QString();
}

bool Session::attempt(const std::function<void()>& work) {
  try {
    work();
  } catch (const Refusal& refusal) {
    look();
    emit said(sentenceOf(refusal), true);
    return false;
  } catch (const store::StoreError& error) {
    emit said(QString::fromUtf8(error.what()), true);
    return false;
  }
  look();
  return true;
}

void Session::plan(JobId job, const Choices& choices, double seconds, std::int64_t seed) {
  if (planning()) return;
  PlanRequest request;
  if (!attempt([&] { request = desk::request(book_, job, choices); })) return;
  planningJob_ = job;
  stopping_ = false;
  steps_.clear();
  sentence_.clear();
  const int run = ++run_;
  optimizer::Limits limits;
  limits.seconds = seconds;
  limits.seed = seed;
  worker_ = std::jthread([this, run, request = std::move(request),
                          limits](const std::stop_token& stop) {
    std::shared_ptr<planning::PlanResult> result;
    QString trouble;
    try {
      result = std::make_shared<planning::PlanResult>(planning::makePlan(
          request, limits, stop, [this, run](const planning::PlanProgress& progress) {
            QMetaObject::invokeMethod(
                this, [this, run, progress] { hear(run, progress); }, Qt::QueuedConnection);
          }));
    } catch (const Refusal& refusal) {
      trouble = sentenceOf(refusal);
    } catch (const std::exception& error) {
      trouble = QString("No plan was kept: %1").arg(QString::fromUtf8(error.what()));
    }
    QMetaObject::invokeMethod(
        this, [this, run, result, trouble] { take(run, result, trouble); }, Qt::QueuedConnection);
  });
  emit planProgressed();
}

void Session::stop() {
  if (!planning() || stopping_) return;
  stopping_ = true;
  worker_.request_stop();
  emit planProgressed();
}

void Session::hear(int run, const planning::PlanProgress& progress) {
  if (run != run_ || !planning()) return;
  steps_.push_back(
      {progress.seconds, progress.plan, progress.cost, progress.bound, progress.boundKind});
  sentence_ = progress.sentence;
  emit planProgressed();
}

void Session::take(int run, const std::shared_ptr<planning::PlanResult>& result,
                   const QString& trouble) {
  if (run != run_) return;
  planningJob_.reset();
  stopping_ = false;
  if (!result) {
    emit said(trouble, true);
  } else if (result->plan.cuttings.empty() && result->plan.shorts.empty() &&
             result->plan.waiting.empty()) {
    emit said("Stopped before a plan was found; nothing was kept.", true);
  } else {
    attempt([&] {
      const planning::PlanResult better = desk::better(book_, *result);
      const bool stays = better.plan.cuttings != result->plan.cuttings;
      const desk::Kept kept = desk::keep(book_, better, false, hand_);
      if (kept.plan != better.plan.id) planned_.push_back({kept.plan, steps_});
      if (stays) emit said(QString::fromStdString(better.notes.back()), false);
    });
  }
  emit planEnded();
}

const Planned* Session::planned(PlanId plan) const {
  const auto found = std::find_if(planned_.begin(), planned_.end(),
                                  [plan](const Planned& p) { return p.plan == plan; });
  return found == planned_.end() ? nullptr : &*found;
}

}  // namespace flitch::desktop
