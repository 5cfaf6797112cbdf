#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdint>

namespace flitch::optimizer {

/// Units supplied of each need that matters on one board, none counted past what is wanted.
/// Loops over a fixed number of lanes, which the compiler turns into vector instructions.
struct Units {
  static constexpr std::size_t lanes = 16;
  static constexpr std::int64_t largest = 16000;  ///< two of them still fit a lane
  alignas(16) std::array<std::int16_t, lanes> n{};

  /// At least as many of each.
  [[nodiscard]] bool covers(const Units& other) const {
    int less = 0;
    for (std::size_t l = 0; l < lanes; ++l) less |= n[l] < other.n[l] ? 1 : 0;
    return less == 0;
  }
  /// The sum, no lane past `wanted`; cut: whether that took anything off.
  [[nodiscard]] Units plus(const Units& other, const Units& wanted, bool& cut) const {
    Units sum;
    int over = 0;
    for (std::size_t l = 0; l < lanes; ++l) {
      const auto both = static_cast<std::int16_t>(n[l] + other.n[l]);
      over |= both > wanted.n[l] ? 1 : 0;
      sum.n[l] = std::min(both, wanted.n[l]);
    }
    cut = over != 0;
    return sum;
  }
  friend bool operator==(const Units&, const Units&) = default;
};

}  // namespace flitch::optimizer
