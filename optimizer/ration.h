#pragma once
#include <span>
#include <vector>

#include "optimizer/pricer.h"
#include "optimizer/unit_worths.h"

namespace flitch::optimizer {

/// What one board is worth where no more units of a need count than are wanted.
struct Rationed {
  Worth most = 0;                 ///< no pattern is worth more
  std::vector<Worth> prices;      ///< off a unit of each need, at which `most` was found
  std::vector<Pattern> patterns;  ///< best at some prices, the last found last
  std::uint64_t work = 0, asked = 0;
};

struct Ration {
  const UnitWorths& worths;
  std::span<const Worth> prices;  ///< to begin with; empty: none
  Reach reach = Reach::all;
  Worth floor = 0;  ///< a figure at most this is as good as any
  int turns = 12;   ///< most pricings
  const Halt* halt = nullptr;
};

/// For any price p of a unit,
///   worth(units) <= units p + over(p)        (over: the most that any number is worth more than p
/// each; of units alike up to what is wanted, at unit - rho each, it is wanted rho),
/// so the best pattern where units are worth p each, and over(p), bound what a board can be worth.
/// p is the steepest worth less a price rho of 0 or more.
/// Looks for the prices at which that is least by cutting planes: each pattern found is a line
/// below the bound, and the next prices lie half-way from the best so far to where all lines
/// together are least (Kelley 1960; stabilised as by Ben-Ameur and Neto 2007). `free`: the best
/// pattern at no prices, each unit at its steepest worth. Exact integers, valid whatever the linear
/// programme says. Quick patterns lead to the prices, few exact ones tell the bound there.
[[nodiscard]] Rationed ration(Pricer& pricer, const Problem& problem, const Stock& stock,
                              const Best& free, const Ration& ask);

}  // namespace flitch::optimizer
