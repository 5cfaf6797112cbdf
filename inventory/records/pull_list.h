#pragma once
#include <set>
#include <span>
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/records/refusal.h"
#include "inventory/records/table.h"
#include "inventory/wood/weight.h"

namespace flitch {

/// A board of a plan to be fetched.
struct PullLine {
  Board board;
  double kilograms = 0;
  std::string weight;  ///< "about 57 lb"
  Lifting lifting = Lifting::alone;
  std::string trouble;  ///< why it cannot be sawn as it is: "no longer on the rack"; else empty
  bool here = false;    ///< ticked off
};

/// What to fetch for a job, bay by bay.
struct PullList {
  std::string job;
  JobId jobId;
  std::vector<PullLine> lines;  ///< by bay (B2 before B10), then by species, thickness and tag
  std::vector<Board> sawn;      ///< boards of the plan sawn already
  Feet feet;                    ///< of the lines
  double kilograms = 0;         ///< of the lines
  [[nodiscard]] std::size_t left() const;  ///< lines not ticked off
};

/// The boards of a plan not sawn yet. `boards` in any order; each cutting's board must be among
/// them, else std::invalid_argument. O(n log n).
[[nodiscard]] PullList pullList(const CutPlan& plan, const std::vector<Board>& boards,
                                const std::set<BoardId>& sawn, const Job& job,
                                std::span<const Species> ownSpecies, Unit unit);

/// Ticks a scanned board off. A wrong one throws Refusal and names the right one's bay: that of the
/// first board still to fetch of the same species, thickness and bay, else of the same species and
/// thickness, else of the same bay, else the first. A board ticked off before is no fault.
void tick(PullList& list, const Board& scanned);

/// A row per board: bay, tick, tag, species, quarters, size, board feet, weight, lifting, trouble.
[[nodiscard]] Table pullTable(const PullList& list, Unit unit);

/// The line that defers to what holds at the place.
inline constexpr std::string_view liftingRules =
    "Weights are reckoned from size, species and moisture. Your local rules on lifting come first.";

/// "B2" before "B10": figures in a name count as numbers.
[[nodiscard]] bool naturallyBefore(std::string_view a, std::string_view b);

}  // namespace flitch
