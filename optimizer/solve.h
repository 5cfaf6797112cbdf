#pragma once
#include <cstdint>
#include <functional>
#include <stop_token>

#include "optimizer/problem.h"
#include "optimizer/solution.h"

namespace flitch::optimizer {

struct Limits {
  double seconds = 10;       ///< wall clock of this call
  std::uint64_t effort = 0;  ///< counted work; 0: no limit
  std::int64_t seed = 1;
  Worth goodEnough = 0;        ///< stop when cost - bound is at most this
  int goodEnoughPermille = 0;  ///< or at most this share of the cost
  int threads = 0;             ///< 0: one for each processor, at most 8
};

struct Progress {
  double seconds = 0;
  int plan = 0;  ///< number of plans found so far
  Worth cost = 0, bound = 0;
  BoundKind boundKind = BoundKind::none;
  std::vector<Shortage> shortages = {};  ///< of the best plan so far, in order of need
};
/// Called in the solving thread at each better plan or bound; must return soon.
using ProgressSink = std::function<void(const Progress&)>;

/// Solves anytime: the first plan at once, then better ones until a limit, the stop token or a
/// closed gap. Any thread; no globals, no printing; never throws for hard problems.
/// Same problem, seed and effort limit (with time to spare): same solution.
/// `known`: a plan to start from, such as the careful hand's, which is then not asked again; read
/// before solve comes back, its cost and bound are not believed. Throws what validate() throws, and
/// std::invalid_argument for a known plan that breaks the problem's rules.
[[nodiscard]] Solution solve(const Problem& problem, const Limits& limits,
                             std::stop_token stop = {}, const ProgressSink& progress = {},
                             const Solution* known = nullptr);

}  // namespace flitch::optimizer
