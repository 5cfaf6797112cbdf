#pragma once
#include <string>
#include <vector>

#include "inventory/records/estimate.h"
#include "labels/page.h"

namespace flitch::pages {

struct EstimateFacts {
  std::string sentence;  ///< of the plan: how good it is; empty without one
  std::string sign = "$";
};

/// What a job costs, for the shop only: A4 upright, lumber, other materials, work, together, each
/// at what it cost and at the prices of the day; then the wood by part. Goes on over as many sheets
/// as it takes.
[[nodiscard]] std::vector<Page> estimatePages(const Estimate& estimate, const Job& job,
                                              const EstimateFacts& facts);

}  // namespace flitch::pages
