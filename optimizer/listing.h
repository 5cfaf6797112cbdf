#pragma once
#include <algorithm>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "optimizer/halt.h"
#include "optimizer/lay.h"
#include "optimizer/pattern.h"
#include "optimizer/problem.h"
#include "optimizer/unit_worths.h"
#include "optimizer/units.h"

namespace flitch::optimizer {

/// A way of cutting one board, by what it brings.
struct Listed {
  std::vector<std::int64_t> units;  ///< of each need of the problem, at most what is wanted
  Worth value = 0;                  ///< units at their worth + offcuts - cuts - extras
  Pattern pattern;
};

/// All that is worth knowing of one board at some multipliers.
struct Listing {
  std::vector<Listed> ways;  ///< falling in value
  /// No way of the class that is worth more than this was left out but such as bring no more than
  /// one listed and cost no less. The floor asked for; higher when enough was found before, or the
  /// labels came to an end.
  Worth above = std::numeric_limits<Worth>::max();
  std::uint64_t work = 0;
  /// No way at all is worth more.
  [[nodiscard]] Worth most() const {
    return ways.empty() ? above : std::max(above, ways.front().value);
  }
};

/// Lists the ways of cutting one board whose value passes a floor, units past what is wanted not
/// counted: exact where the programme of one board (best_pattern.h) counts every copy. Labels
/// (units, offcuts less cuts) go from left to right; what lies to the right of a place, or above a
/// row, is worth no more than a programme with one value says. For three stages without trim; other
/// saws are not listed. Baldacci, Christofides and Mingozzi 2008 (all columns within a gap).
class Lister {
 public:
  struct Ask {
    UnitWorths worths;
    /// Prices on the units of each need that bound a board well (ration.h), below their steepest
    /// worth; empty: looked for here.
    std::span<const Worth> prices = {};
    Worth floor = 0;
    /// true: every way that no other beats whatever its units are worth; false: only such as no
    /// other beats at these worths, the best among them, in a fraction of the time.
    bool all = true;
    std::size_t enough = std::numeric_limits<std::size_t>::max();  ///< ways, the best first
    std::size_t labels = 400000;                                   ///< most at a time
    const Halt* halt = nullptr;
  };

  /// `lays`: the board along each first cut; problem and lays outlive the lister.
  Lister(const Problem& problem, std::span<const Lay> lays) : problem_(problem), lays_(lays) {}

  [[nodiscard]] Listing list(const Ask& ask) const;
  /// Whether it can: the saw, and not too many needs that fit.
  [[nodiscard]] bool lists(std::span<const std::int64_t> wanted) const;

 private:
  const Problem& problem_;
  std::span<const Lay> lays_;
};

}  // namespace flitch::optimizer
