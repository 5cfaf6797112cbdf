#pragma once
#include <stop_token>
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/records/recipe.h"
#include "optimizer/solve.h"

namespace flitch::planning {

/// What the job would have come to, had one part been made by another of its recipes alone.
struct OtherRecipe {
  int line = 0;
  RecipeKind recipe = RecipeKind::solid;
  bool supplied = false;  ///< as many copies of all parts as in the plan
  bool near = false;      ///< the best plan found so is within a fiftieth of the cheapest there is
  Money more;             ///< than the plan's total, by the best plan found; 0 where none is dearer
  Money atLeast;          ///< and no such plan comes to less more than this
};

/// The recipes that made the planned copies of a part, in the order it allows them.
[[nodiscard]] std::vector<RecipeKind> recipesUsed(const CutPlan& plan, const Part& part,
                                                  const ShopProfile& shop);

/// Plans again, briefly, for each part that allows several recipes and each that alone did not make
/// it: a fifth of the time or effort of the plan for each, at most a second, at most eight of them.
/// Nothing once `stop` is asked for.
[[nodiscard]] std::vector<OtherRecipe> otherRecipes(const CutPlan& plan, const PlanRequest& request,
                                                    const optimizer::Limits& limits,
                                                    const std::stop_token& stop);

/// "Centre bearer (V): laminated. Solid would have come to $3.20 more."
[[nodiscard]] std::vector<std::string> otherRecipesText(const std::vector<OtherRecipe>& others,
                                                        const CutPlan& plan,
                                                        const PlanRequest& request);

}  // namespace flitch::planning
