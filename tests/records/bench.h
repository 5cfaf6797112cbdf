#pragma once
#include <array>
#include <random>
#include <string>
#include <vector>

#include "inventory/records/account.h"
#include "inventory/records/blank.h"
#include "inventory/records/plan_check.h"

/// Boards, parts and small plans for the tests of records and planning.
namespace flitch::bench {

inline Length in(std::int64_t whole, std::int64_t sixtyFourths = 0) {
  return Length::inches(whole) + Length::sixtyFourths(sixtyFourths);
}
inline Rect inRect(std::int64_t x, std::int64_t y, std::int64_t dx, std::int64_t dy) {
  return {in(x), in(y), in(dx), in(dy)};
}

/// A cherry 4/4 plank, 15/16 in thick, both faces looked at.
inline Board plank(std::int64_t id, Length length, Length widthAtTag, Length widthAtFar,
                   Money cost = Money::units(60)) {
  Board board;
  board.id = {id};
  board.tag = TagCode{TagKind::board, id};
  board.species = "cherry";
  board.nominal = Nominal::quarters(4);
  board.thickness = in(0, 60);
  board.measured = true;
  board.outline = {Outline::tapered(length, widthAtTag, widthAtFar),
                   Outline::tapered(length, widthAtTag, widthAtFar)};
  board.looked = {Looked::rough, Looked::rough};
  board.cost = cost;
  board.price = cost;
  board.wood = volumeOf(board);
  board.measuredFeet = volumeTally(board.nominal, widthAtTag, length);
  return board;
}

inline Part part(int line, int copies, Length length, Length width) {
  Part p;
  p.line = line;
  p.name = "part " + std::to_string(line);
  p.copies = copies;
  p.length = length;
  p.width = width;
  p.thickness = in(0, 52);
  p.species = {"cherry"};
  return p;
}

/// Money and counts of a plan whose cuttings are set: what makePlan would promise.
inline void promise(CutPlan& plan, const PlanRequest& request) {
  plan.woodCost = plan.cutCost = plan.offcutWorth = plan.shortageCost = Money();
  for (const Cutting& c : plan.cuttings) {
    for (const Board& b : request.boards) {
      if (b.id != c.board) continue;
      const Breakdown d = account(c, b, request.job, request.shop, plan.tick);
      plan.woodCost += d.woodCost;
      plan.cutCost += d.cutCost;
      plan.offcutWorth += d.offcutWorth;
    }
  }
  for (const ShortPart& s : plan.shorts) {
    for (const Part& p : request.job.parts) {
      if (p.line == s.line) plan.shortageCost += shortagePrice(p, request) * s.copies;
    }
  }
}

/// All that check() found, a line each.
inline std::string listed(const std::vector<Fault>& faults) {
  std::string out;
  for (const Fault& f : faults) {
    out += std::string(word(f.kind)) + " (piece " + std::to_string(f.piece) + "): " + f.sentence +
           "\n";
  }
  return out;
}

}  // namespace flitch::bench
