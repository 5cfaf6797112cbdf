#pragma once
#include <functional>
#include <stop_token>
#include <string>
#include <vector>

#include "inventory/planning/frame.h"
#include "inventory/planning/other_recipes.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/plan_check.h"
#include "optimizer/solve.h"

namespace flitch::planning {

/// A finished plan with all that a maker is told about it.
struct PlanResult {
  PlanRequest request;
  CutPlan plan;                     ///< checked: check() found no fault
  std::string sentence;             ///< the plain proof sentence, money written
  std::string claim;                ///< with its terms
  std::string why;                  ///< why it stopped
  int unseenPermille = 0;           ///< share of the show faces that rest on unseen faces
  std::vector<std::string> unseen;  ///< "A9 on T0061-9"
  std::vector<std::string> notes;   ///< what the maker should know: waiting parts, both ways out
                                    ///< of parts short only for unseen faces, cautions
  std::vector<OtherRecipe> others;  ///< what parts of several recipes would have cost otherwise
  optimizer::Statistics statistics;
};

/// Writes sentence, claim, why, unseen and notes of result.plan, whatever stood there before.
void tellPlan(PlanResult& result);

/// Progress in money, as the window and the command show it, wishes counted in.
struct PlanProgress {
  double seconds = 0;
  int plan = 0;
  Money cost, bound;  ///< in the prices of CutPlan::total(); the cost may rise as less is short
  PlanBound boundKind = PlanBound::none;
  std::string sentence;
};

/// Frames, solves, brings back and checks. Any thread, on its own copy. A pinned board that the
/// cheapest plan found leaves without a blank is planned by itself, as many parts from it as it
/// gives, and the rest beside it; the bound is then that of plans that open it.
/// Throws Refusal when the request cannot be planned at all (no part, no stock) or what the maker
/// settled cannot stand: refuseUnsettled(); std::logic_error
/// when check() rejects the plan (our bug; the plan reaches nobody). Short parts, time up, stopped
/// are fields of the result.
[[nodiscard]] PlanResult makePlan(const PlanRequest& request, const optimizer::Limits& limits,
                                  std::stop_token stop = {},
                                  const std::function<void(const PlanProgress&)>& progress = {});

}  // namespace flitch::planning
