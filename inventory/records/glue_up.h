#pragma once
#include <vector>

#include "inventory/records/blank.h"
#include "inventory/records/cut_plan.h"

namespace flitch {

/// A blank in its copy.
struct Glued {
  BoardId board;
  Piece blank;
  Layup layup;
};

/// A copy of a part put together from blanks of a plan: a panel of staves, flat or turned, laminae,
/// or loose boards side by side.
struct GlueUp {
  int line = 0;
  int copy = 0;
  LayupKind kind = LayupKind::stave;
  bool glued = true;                         ///< false: loose boards
  std::vector<std::vector<Glued>> sections;  ///< in order, each in order of slots; one of laminae
};

/// All that the plan puts together, by line and copy. What was sawn for an older plan is not in it.
/// O(layups log layups).
[[nodiscard]] std::vector<GlueUp> glueUpsOf(const CutPlan& plan);

/// A blank that becomes several pieces, or lies otherwise than they do.
struct Parted {
  BoardId board;
  Piece blank;
  Blank rough;                 ///< its sizes, and into how many pieces it is cut
  std::vector<Layup> becomes;  ///< in order
  [[nodiscard]] bool resawn() const { return rough.showing == Showing::sawnToo; }
};

/// The blanks that are cut apart once they are planed, and those resawn, board by board. O(layups).
[[nodiscard]] std::vector<Parted> partedOf(const CutPlan& plan, const Job& job,
                                           const ShopProfile& shop);
/// The same of one board, sizes on the plan's grid.
[[nodiscard]] std::vector<Parted> partedOf(const Cutting& cutting, const Job& job,
                                           const ShopProfile& shop, Length tick);
/// "after planing crosscut into 4 of 4 in"; "resawn into 2": what is done to it at last.
[[nodiscard]] std::string partingText(const Parted& parted, const Part& part, Unit unit);

/// Where the joints of a glue-up that long get marks for biscuits or dowels, from its end: 3 in
/// (75 mm) from either end and between as near 7 in (175 mm) apart as comes out even (every 6 to
/// 8 in: common practice, no source). One in the middle of a short one.
[[nodiscard]] std::vector<Length> alignmentMarks(Length length, Unit unit);
/// Where its clamps go: one near each end and no more than 10 in (250 mm) apart (common practice,
/// no source).
[[nodiscard]] std::vector<Length> clampPlaces(Length length, Unit unit);

}  // namespace flitch
