#include "ui/desktop/plan_sheet.h"

#include <algorithm>
#include <cmath>

#include "labels/board_drawing.h"
#include "optimizer/solution.h"

namespace flitch::desktop {
namespace {

optimizer::BoundKind kindOf(PlanBound bound) {
  switch (bound) {
    case PlanBound::none: return optimizer::BoundKind::none;
    case PlanBound::area: return optimizer::BoundKind::area;
    case PlanBound::relaxed: return optimizer::BoundKind::relaxed;
    case PlanBound::exact: return optimizer::BoundKind::exact;
  }
  return optimizer::BoundKind::none;
}

std::string endingText(PlanEnding ending) {
  switch (ending) {
    case PlanEnding::closed: return "Cost and bound met.";
    case PlanEnding::goodEnough:
      return "Stopped by itself: less can still be saved than the sum that you set.";
    case PlanEnding::timeUp: return "Stopped when its time was up.";
    case PlanEnding::effortSpent: return "Stopped when the effort that was asked for was spent.";
    case PlanEnding::stopped: return "Stopped by hand; the best plan so far is kept.";
  }
  return {};
}

double areaOf(const Rect& r) {
  return static_cast<double>(r.dx.nm()) * static_cast<double>(r.dy.nm());
}

const Part* partOf(const Job& job, int line) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(),
                                  [line](const Part& p) { return p.line == line; });
  return found == job.parts.end() ? nullptr : &*found;
}

}  // namespace

std::size_t PlanSheet::unsawn() const {
  return static_cast<std::size_t>(
      std::count_if(boards.begin(), boards.end(), [](const OpenedBoard& b) { return !b.sawn; }));
}

std::optional<PlanSheet> planSheet(const store::Snapshot& snapshot, JobId jobId,
                                   const std::string& sign) {
  const std::optional<Job> job = snapshot.job(jobId);
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(jobId);
  if (!job || !stored) return std::nullopt;
  PlanSheet sheet;
  sheet.job = *job;
  sheet.plan = stored->plan;
  sheet.shop = snapshot.profile(stored->plan.profile).value_or(snapshot.shop());
  const std::vector<store::DoneCutting> done = snapshot.doneCuttings(jobId);

  double shown = 0, unseen = 0;
  for (const Cutting& cutting : sheet.plan.cuttings) {
    OpenedBoard opened;
    opened.cutting = cutting;
    const auto was = std::find_if(done.begin(), done.end(), [&](const store::DoneCutting& d) {
      return d.board.id == cutting.board;
    });
    opened.sawn = was != done.end();
    const std::optional<Board> board =
        opened.sawn ? std::optional<Board>(was->board) : snapshot.board(cutting.board);
    if (!board) continue;
    opened.board = *board;
    opened.account = account(cutting, opened.board, sheet.job, sheet.shop, sheet.plan.tick);
    double blanks = 0;
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind != PieceKind::blank) continue;
      blanks += areaOf(piece.at);
      const Part* part = partOf(sheet.job, piece.line);
      const Demand* demand = part == nullptr ? nullptr : findDemand(sheet.shop, part->faceA);
      if (demand == nullptr || demand->unseen) continue;
      shown += areaOf(piece.at);
      if (opened.board.looked[static_cast<std::size_t>(piece.faceUp)] != Looked::no) continue;
      unseen += areaOf(piece.at);
      sheet.unseen.push_back(handMark(piece.line, piece.copy) + " on " +
                             (opened.board.tag ? text(*opened.board.tag) : "a board without tag"));
    }
    const Outline& outline = opened.board.outline[0];
    double whole = 0;
    const auto points = outline.points();
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
      whole += static_cast<double>(
                   (points[i].far - points[i].near + points[i + 1].far - points[i + 1].near).nm()) /
               2 * static_cast<double>((points[i + 1].x - points[i].x).nm());
    }
    opened.usedPermille = whole > 0 ? static_cast<int>(std::lround(1000 * blanks / whole)) : 0;
    for (const pages::SawStep& step :
         pages::sawSteps(cutting, opened.board, sheet.job, sheet.shop)) {
      opened.cuts = std::max(opened.cuts, step.number);
    }
    sheet.feet += opened.board.measuredFeet;
    sheet.offcuts += opened.account.offcutWorth;
    sheet.boards.push_back(std::move(opened));
  }
  sheet.unseenPermille = shown > 0 ? static_cast<int>(std::ceil(1000 * unseen / shown)) : 0;
  const Money cost = sheet.plan.total();
  const Money open = std::max(Money{}, cost - sheet.plan.bound);
  sheet.sentence =
      optimizer::sentence(cost.raw(), sheet.plan.bound.raw(), kindOf(sheet.plan.boundKind),
                          text(cost, sign), wholeText(open, sign));
  sheet.why = endingText(sheet.plan.ending);
  return sheet;
}

}  // namespace flitch::desktop
