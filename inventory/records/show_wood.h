#pragma once
#include "inventory/records/cut_plan.h"

namespace flitch {

/// What a wish counts unless a sum is given; common practice, no source.
inline constexpr Money usualWish = Money::units(3);

/// Whether the part leaves wood that is marked for show to others of its job: its stricter face
/// bars fewer kinds of mark than that of the part which bars most. Parts of equal demands leave
/// none.
[[nodiscard]] bool leavesShowWood(const Part& part, const Job& job, const ShopProfile& shop);

/// Whether a blank lies on wood of the board marked `show`, on either face, to whole steps outward.
[[nodiscard]] bool onShowWood(const Board& board, const Rect& blank, Length tick);

/// Blanks of the plan that lie on wood marked for show and would leave it to others, staves and
/// laminae apart, which may lie anywhere, as may what is locked or laid by hand. Each counts
/// `usualWish` more in the choice.
[[nodiscard]] std::vector<std::pair<BoardId, Piece>> onOthersShowWood(const CutPlan& plan,
                                                                      const PlanRequest& request);

/// Whether such wishes count in plans of this request: wood is marked for show, and some part of
/// the job leaves it to others.
[[nodiscard]] bool showWoodCounts(const PlanRequest& request);

/// All that wishes count beside the price of a plan: boards passed over, and show wood.
[[nodiscard]] Money allWishes(const CutPlan& plan, const PlanRequest& request);

}  // namespace flitch
