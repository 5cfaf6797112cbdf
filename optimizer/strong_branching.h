#pragma once
#include <cstdint>
#include <functional>

#include "optimizer/halt.h"
#include "optimizer/problem.h"

class ClpSimplex;

namespace flitch::optimizer {

/// How hard it is looked for a branch.
struct Trying {
  std::size_t branches = 8;
  int pivots = 40;  ///< of each side
};

struct Strongest {
  std::size_t place = 0;     ///< among the branches
  bool upperCheaper = true;  ///< its upper side costs no more than the lower
};

/// The branch whose worse side raises the programme's cost most, and the other side too: each of
/// the first few is tried for some pivots from the programme's optimum (strong branching:
/// Applegate, Bixby, Chvatal and Cook 1995). `apply` sets the programme's bounds to one side of a
/// branch; they are left at the last. A side without a plan counts as `most`. Adds to work.
[[nodiscard]] Strongest strongest(ClpSimplex& model, std::size_t branches, Worth most,
                                  const Trying& trying,
                                  const std::function<void(std::size_t place, bool upper)>& apply,
                                  const Halt& halt, std::uint64_t& work);

}  // namespace flitch::optimizer
