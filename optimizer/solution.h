#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "optimizer/pattern.h"
#include "optimizer/problem.h"

namespace flitch::optimizer {

/// Why the solver came back. It always comes back with a plan, possibly an empty one.
enum class Ending {
  closed,      ///< cost equals bound
  goodEnough,  ///< the gap is within Limits::goodEnough
  timeUp,
  effortSpent,
  stopped  ///< the stop token
};

/// What stands under the cost.
enum class BoundKind {
  none,     ///< bound is 0 or trivially weak
  area,     ///< every unit supplied from the cheapest area
  relaxed,  ///< pattern bound with caps dropped
  exact     ///< pattern bound with caps kept
};

struct StockCut {
  int stock = 0;
  int times = 1;  ///< copies cut so
  Pattern pattern;
};

struct Shortage {
  int need = 0;
  std::int64_t amount = 0;
  friend bool operator==(const Shortage&, const Shortage&) = default;
};

struct RecipeUse {
  int recipe = 0;
  std::int64_t times = 0;
};

struct Statistics {
  double seconds = 0;
  double firstPlanSeconds = 0;
  std::uint64_t effort = 0;
  std::uint64_t priced = 0;  ///< boards priced
  std::uint64_t nodes = 0;
};

struct Solution {
  Ending ending = Ending::timeUp;
  std::vector<StockCut> cuts;  ///< in order of stock; only stock that is opened
  std::vector<RecipeUse> recipes;
  std::vector<Shortage> shortages;  ///< needs not fully supplied
  Worth cost = 0;                   ///< stock, cuts, extras, recipes, shortages, less offcuts
  Worth bound = 0;                  ///< no solution costs less
  BoundKind boundKind = BoundKind::none;
  Statistics statistics;
};

/// Cost of a solution from its parts, for tests and assertions.
[[nodiscard]] Worth costOf(const Solution& solution, const Problem& problem);

/// How far a cost can be from the best possible.
struct Gap {
  Worth absolute = 0;   ///< cost - bound, never below 0
  double relative = 0;  ///< absolute / cost; 0 when absolute is 0; infinity when cost is 0 or less
};
/// The one gap function: window, paper, command and stored plan all use it.
[[nodiscard]] Gap gap(Worth cost, Worth bound);

/// The one wording of the claim. `costText`, `openText`: money as the caller writes it (open sum
/// rounded up to whole money). With a gap of zero: "This is the cheapest way of cutting."; with
/// bound kind none: "Best so far $1,428; not proved yet."; else "Best so far $1,199.40; no way of
/// cutting can save more than $9."
[[nodiscard]] std::string sentence(Worth cost, Worth bound, BoundKind kind,
                                   const std::string& costText, const std::string& openText);
/// The claim with its terms: "No plan that these cutting rules, grid, stock and marks allow can
/// save more than $9 (0.8 %)." or "Not proved yet."; with a gap of zero that of sentence().
[[nodiscard]] std::string claim(Worth cost, Worth bound, BoundKind kind,
                                const std::string& openText);

}  // namespace flitch::optimizer
