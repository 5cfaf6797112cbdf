#include "tests/desk/hand_plans.h"

#include <map>

#include "inventory/records/account.h"

namespace flitch::desk::sample {

Piece piece(int depth, PieceKind kind, const Rect& at, int line, int copy) {
  Piece p;
  p.depth = depth;
  p.kind = kind;
  p.at = at;
  p.line = line;
  p.copy = copy;
  return p;
}

Cutting cutInOrder(const Board& board, const std::vector<Wanted>& blanks) {
  using K = PieceKind;
  const Length kerf = Length::sixtyFourths(8), edge = kerf, trim = Length::inches(1);
  const Rect whole = boundsOf(board);
  Cutting cutting;
  cutting.board = board.id;
  const auto add = [&](int depth, K kind, Length x0, Length y0, Length x1, Length y1,
                       const Wanted& blank = {}) {
    if (x0 >= x1 || y0 >= y1) return;
    cutting.pieces.push_back(
        piece(depth, kind, {x0, y0, x1 - x0, y1 - y0}, blank.line, blank.copy));
  };
  const Length tag = whole.x + (board.sawnEnd[0] ? Length() : trim);
  const Length far = whole.right() - (board.sawnEnd[1] ? Length() : trim);
  const Length low = whole.y, high = whole.top();
  add(0, K::cut, whole.x, low, whole.right(), high);
  add(1, K::endTrim, whole.x, low, tag, high);
  add(1, K::cut, tag, low, far, high);
  Length x = tag;
  for (const Wanted& blank : blanks) {
    const Length right = x + blank.length, top = low + edge + blank.width;
    add(2, K::cut, x, low, right, high);
    add(3, K::kerf, x, low, right, low + edge);
    add(3, K::blank, x, low + edge, right, top, blank);
    add(3, K::kerf, x, top, right, std::min(top + kerf, high));
    add(3, K::unusable, x, top + kerf, right, high);
    add(2, K::kerf, right, low, std::min(right + kerf, far), high);
    x = right + kerf;
  }
  const bool keeps = far - x >= Length::inches(12);
  add(2, keeps ? K::offcut : K::unusable, x, low, far, high);
  add(1, K::endTrim, far, low, whole.right(), high);
  return cutting;
}

planning::PlanResult planOf(const Book& book, JobId job, const std::vector<Cutting>& cuttings) {
  planning::PlanResult result;
  result.request = desk::request(book, job, {});
  CutPlan& plan = result.plan;
  plan.tick = Length::sixtyFourths(8);
  plan.cuttings = cuttings;
  std::map<int, int> given;
  for (const auto& [line, copies] : result.request.made) {
    given[line] = static_cast<int>(copies.size());
  }
  for (const Cutting& cutting : cuttings) {
    for (const Board& board : result.request.boards) {
      if (board.id != cutting.board) continue;
      const Breakdown b =
          account(cutting, board, result.request.job, result.request.shop, plan.tick);
      plan.woodCost += b.woodCost;
      plan.cutCost += b.cutCost;
      plan.offcutWorth += b.offcutWorth;
    }
    for (const Piece& p : cutting.pieces) {
      if (p.kind == PieceKind::blank) ++given[p.line];
    }
  }
  for (const Part& wanted : result.request.job.parts) {
    const int missing = wanted.wanted() - given[wanted.line];
    if (missing <= 0) continue;
    plan.shorts.push_back({wanted.line, missing, false, "for the test"});
    plan.shortageCost += shortagePrice(wanted, result.request) * missing;
  }
  return result;
}

}  // namespace flitch::desk::sample
