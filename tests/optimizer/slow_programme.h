#pragma once
#include <map>
#include <optional>
#include <span>
#include <vector>

#include "optimizer/best_pattern.h"

namespace flitch::optimizer::slow {

/// Best value of one board by the definition, word for word: Boost's shortest path through a graph
/// of all positions on each of the three levels; no dominance, no bound, caps not looked at. Shares
/// no code with the programme but the value types. For boards of some 30 x 15 ticks.
///
/// Shown able to fail: with the kerf left out of the strip graph's piece arcs 192 of the 3,000
/// random boards of the test disagreed; with near edges not looked at in both oracles 70 of 5,000
/// did.
[[nodiscard]] Worth bestByGraph(const Problem& problem, const Stock& stock,
                                std::span<const Priced> priced);

/// Best value within the caps by listing, for every section, strip and chain, what every
/// attainable set of counts is worth at most. For boards of some 10 x 6 ticks and small caps.
///
/// Shown able to fail: with counts clipped at the caps instead of cut off at them 574 of 2,000
/// disagreed; with the cut of an offcut in a strip left out 302 did.
/// `ruled`: offcuts end only where optimizer/offcut_rule.h lets them.
[[nodiscard]] Worth bestByListing(const Problem& problem, const Stock& stock,
                                  std::span<const Priced> priced, bool ruled = false);

/// Least cost of a whole shop of some boards of 8 x 4 ticks, by listing what every board can supply
/// and all ways of choosing one for each. Every item supplies one unit of a need of its own.
/// Offcuts end where their rule lets them.
[[nodiscard]] Worth bestShop(const Problem& problem);

}  // namespace flitch::optimizer::slow
