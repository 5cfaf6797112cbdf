#include "ui/desktop/plan_sheet.h"

#include <algorithm>
#include <cmath>

#include "inventory/desk/learned.h"
#include "labels/board_drawing.h"

namespace flitch::desktop {
namespace {

double areaOf(const Rect& r) {
  return static_cast<double>(r.dx.nm()) * static_cast<double>(r.dy.nm());
}

}  // namespace

std::size_t PlanSheet::unsawn() const {
  return static_cast<std::size_t>(
      std::count_if(boards.begin(), boards.end(), [](const OpenedBoard& b) { return !b.sawn; }));
}

std::optional<PlanSheet> planSheet(const store::Snapshot& snapshot, JobId jobId,
                                   const std::string& sign, Unit unit) {
  const std::optional<Job> job = snapshot.job(jobId);
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(jobId);
  if (!job || !stored) return std::nullopt;
  PlanSheet sheet;
  sheet.job = *job;
  sheet.plan = stored->plan;
  sheet.shop = snapshot.profile(stored->plan.profile).value_or(snapshot.shop());
  const std::vector<store::DoneCutting> done = snapshot.doneCuttings(jobId);

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
      if (piece.kind == PieceKind::blank) blanks += areaOf(piece.at);
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
    for (const SawStep& step : sawSteps(cutting, opened.board, sheet.job, sheet.shop)) {
      opened.cuts = std::max(opened.cuts, step.number);
    }
    sheet.feet += opened.board.measuredFeet;
    sheet.offcuts += opened.account.offcutWorth;
    sheet.boards.push_back(std::move(opened));
  }
  std::vector<Board> boards;
  for (const OpenedBoard& opened : sheet.boards) boards.push_back(opened.board);
  sheet.unseen = planning::unseenShare(sheet.plan, boards, sheet.job, sheet.shop, unit);
  sheet.sentence = planning::headline(sheet.plan, sign);
  sheet.why = planning::endingText(sheet.plan, sheet.shop, sign);
  planning::PlanResult told;
  told.plan = sheet.plan;
  told.request = requestOf(sheet, unit);
  told.request.boards = std::move(boards);
  desk::addLessons(told, snapshot);
  sheet.lessons = std::move(told.notes);
  return sheet;
}

PlanRequest requestOf(const PlanSheet& sheet, Unit unit) {
  PlanRequest request;
  request.job = sheet.job;
  request.shop = sheet.shop;
  request.choices = sheet.plan.choices;
  request.unit = unit;
  return request;
}

}  // namespace flitch::desktop
