#pragma once
#include <functional>
#include <stop_token>

#include "inventory/planning/frame.h"
#include "optimizer/solve.h"

namespace flitch::planning {

/// The best solution found for a framing, and what a hand would have made of it.
struct Found {
  optimizer::Solution solution;
  optimizer::Solution handRule;
  optimizer::Solution carefulHand;  ///< finished by the hand rule where there was no time for it
};

/// Solves within limits.seconds in all: the hand rule at once, the careful hand within a quarter of
/// the time, the solver with the rest; the cheapest is kept. Stops by itself at the smaller of the
/// shop's sum and share, whatever `limits` holds good enough. Once `stop` is asked for, nothing but
/// the hand rule is begun.
/// A part's shortage price is in proportion to its wood, so it may be lower than a board that must
/// be opened for its last copy. A need that has a place on some board asks at least as much as
/// opening the dearest board it fits: `framing` keeps the prices asked.
[[nodiscard]] Found search(Framing& framing, const PlanRequest& request,
                           const optimizer::Limits& limits, std::stop_token stop,
                           const optimizer::ProgressSink& progress);

}  // namespace flitch::planning
