#pragma once
#include <functional>
#include <optional>
#include <string>

#include "optimizer/solve.h"

namespace flitch::bench {

/// How well one problem was planned.
struct PlanRow {
  double seconds = 0, firstPlanSeconds = 0, carefulSeconds = 0, stopMs = 0;
  optimizer::Worth cost = 0, bound = 0, handRule = 0, carefulHand = 0;
  int shortNeeds = 0, faults = 0;
  std::uint64_t priced = 0, nodes = 0, effort = 0;
  long memoryMb = 0;  ///< greatest resident size of the process that planned

  [[nodiscard]] double gap() const { return optimizer::gap(cost, bound).relative; }
};

struct PlanOrder {
  optimizer::Limits limits;
  double stopAt = 0;  ///< seconds after which to ask to stop; 0: never
  bool verbose = false;
};

/// Plans in a process of its own, so that memory is that of this problem and an abort costs one
/// row. Faults and progress go to stderr. Empty when that process died.
[[nodiscard]] std::optional<PlanRow> planApart(const std::function<optimizer::Problem()>& problem,
                                               const PlanOrder& order);

}  // namespace flitch::bench
