#include "inventory/desk/bench.h"

#include <QDateTime>
#include <algorithm>

#include "inventory/records/refusal.h"

namespace flitch::desk {

BenchPlan benchPlan(const store::Snapshot& snapshot, JobId jobId) {
  BenchPlan bench;
  bench.job = snapshot.job(jobId).value();
  std::optional<store::StoredPlan> stored = snapshot.newestPlan(jobId);
  if (!stored || stored->plan.cuttings.empty()) {
    throw Refusal("no-plan", Complaint{"", "There is no plan with boards for " + bench.job.name,
                                       bench.job.name, "a job planned with flitch plan"});
  }
  bench.stored = *std::move(stored);
  bench.shop = snapshot.profile(bench.stored.plan.profile).value();
  bench.keptOn = dayAt(snapshot.entry(bench.stored.kept).value().at);
  const std::vector<store::DoneCutting> done = snapshot.doneCuttings(jobId);
  for (const Cutting& cutting : bench.stored.plan.cuttings) {
    const auto sawn = std::find_if(done.begin(), done.end(), [&](const store::DoneCutting& each) {
      return each.board.id == cutting.board;
    });
    bench.boards.push_back(sawn == done.end() ? snapshot.board(cutting.board).value()
                                              : sawn->board);
  }
  return bench;
}

std::string dayAt(const std::string& utc) {
  return QDateTime::fromString(QString::fromStdString(utc), Qt::ISODateWithMs)
      .toLocalTime()
      .date()
      .toString(Qt::ISODate)
      .toStdString();
}

}  // namespace flitch::desk
