#pragma once
#include <cstddef>

namespace flitch::optimizer {

/// A count or a number of the problem (they are ints, never below zero) as a place in a vector.
[[nodiscard]] constexpr std::size_t index(int value) { return static_cast<std::size_t>(value); }

}  // namespace flitch::optimizer
