#pragma once
#include <cstdint>
#include <random>
#include <span>

#include "optimizer/draft.h"

namespace flitch::optimizer {

/// One try at a better plan: a few boards are freed and filled again together with some unopened
/// ones, at worths a little disturbed. Keeps the draft when the try is no better. True: better.
bool replan(Draft& draft, const Problem& problem, std::span<const Worth> unit, Pricers& pricers,
            std::mt19937_64& random, const Halt& halt, Filling& spent);

}  // namespace flitch::optimizer
