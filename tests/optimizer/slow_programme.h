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
/// Shown able to fail: with the kerf left out of the strip graph's piece arcs 61 of the 400 random
/// boards of the test disagreed; with edge zones not looked at 23 did.
[[nodiscard]] Worth bestByGraph(const Problem& problem, const Stock& stock,
                                std::span<const Priced> priced);

/// Best value within the caps by listing, for every section, strip and chain, what every
/// attainable set of counts is worth at most. For boards of some 10 x 6 ticks and small caps.
///
/// Shown able to fail: with counts clipped at the caps instead of cut off at them 140 of 300
/// disagreed.
[[nodiscard]] Worth bestByListing(const Problem& problem, const Stock& stock,
                                  std::span<const Priced> priced);

}  // namespace flitch::optimizer::slow
