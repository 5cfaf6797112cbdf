#pragma once
#include <span>
#include <vector>

#include "optimizer/pricer.h"

namespace flitch::optimizer {

/// What one board is worth where no more units of a need count than are wanted.
struct Rationed {
  Worth most = 0;                 ///< no pattern is worth more
  std::vector<Worth> prices;      ///< on a unit of each need, at which `most` was found
  std::vector<Pattern> patterns;  ///< best at some prices, the last found last
  std::uint64_t work = 0, asked = 0;
};

struct Ration {
  std::span<const Worth> unit;           ///< multiplier of each need
  std::span<const std::int64_t> wanted;  ///< units of each need that count
  std::span<const Worth> prices;         ///< to begin with; empty: none
  Reach reach = Reach::all;
  Worth floor = 0;  ///< a figure at most this is as good as any
  int turns = 12;   ///< most pricings
  const Halt* halt = nullptr;
};

/// For any prices rho of 0 to unit,
///   min(units, wanted) unit <= units (unit - rho) + wanted rho,
/// so the best pattern at the lowered multipliers and wanted rho bound what a board can be worth.
/// Looks for the prices at which that is least by cutting planes: each pattern found is a line
/// below the bound, and the next prices lie half-way from the best so far to where all lines
/// together are least (Kelley 1960; stabilised as by Ben-Ameur and Neto 2007). `free`: the best
/// pattern at no prices, units not rationed. Exact integers, valid whatever the linear programme
/// says. Quick patterns lead to the prices, few exact ones tell the bound there.
[[nodiscard]] Rationed ration(Pricer& pricer, const Problem& problem, const Stock& stock,
                              const Best& free, const Ration& ask);

}  // namespace flitch::optimizer
