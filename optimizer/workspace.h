#pragma once
#include <limits>

#include "optimizer/programme.h"
#include "optimizer/rest.h"

namespace flitch::optimizer {

/// What one pricing needs while it runs. One for each thread and order of cutting, whatever the
/// number of boards; it keeps the bounds of the last board and values it was used for.
struct Workspace {
  [[nodiscard]] static Workspace& of(FirstCut first);

  std::uint64_t owner = 0;  ///< id of the programme it was last used by
  std::vector<Worth> values;
  Pricing pricing;
  Rest rest;
  bool sharp = false;
  ClearBoard clear;
  Sections sections;

  // One run.
  std::vector<Worth> best, bestAfterOffcut;
  std::vector<Programme::Reached> reached, reachedByOffcut;
  Worth incumbent = 0;
  std::vector<Tick> breaks;       ///< ends of the ranges in which a longer section is worth more
  std::vector<Tick> freshStarts;  ///< just behind hard cells
  Runs whole;                     ///< columns that one offcut may take whole
  const Halt* halt = nullptr;
  bool halted = false;
  std::uint64_t mostWork = std::numeric_limits<std::uint64_t>::max();
  std::uint64_t nextLook = 0;  ///< the halt is asked again at this work

  [[nodiscard]] std::uint64_t work() const {
    return rest.work() + clear.work() + sections.work + sections.strips.work;
  }
  /// Looks at the halt and the work now and then.
  bool stopped() {
    if (halted || work() < nextLook) return halted;
    constexpr std::uint64_t lookEvery = 20000;
    nextLook = work() + lookEvery;
    return halted = work() > mostWork || (halt != nullptr && halt->now());
  }
  [[nodiscard]] Worth needed(Tick next) const {
    const auto at = static_cast<std::size_t>(next);
    return std::max(best[at], incumbent - rest.from(next));
  }
  void reach(Tick at, Worth value, const Programme::Reached& how);
  void findBreaks();
};

}  // namespace flitch::optimizer
