#pragma once
#include <optional>
#include <random>

#include "optimizer/bound.h"
#include "optimizer/draft.h"

namespace flitch::optimizer {

/// A whole plan from the linear programme (Sadykov, Vanderbeck, Pessoa, Tahiri, Uchoa, Primal
/// heuristics for branch and price: the assets of diving methods, 2019): boards opened by large
/// shares are taken as they are, the programme is solved again with new prices for what is still
/// missing, and so on; the last few boards are planned as a corner. `random` shakes which boards
/// are taken first. Nothing: halted.
[[nodiscard]] std::optional<Draft> dive(const Problem& problem, const Multipliers& root,
                                        Pricers& pricers, std::mt19937_64& random, const Halt& halt,
                                        Filling& spent);

}  // namespace flitch::optimizer
