#pragma once
#include <cstdint>
#include <random>

namespace flitch::optimizer {

/// Random draws equal on every machine.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  /// low to high, both included.
  int operator()(int low, int high) {
    return low + static_cast<int>(engine_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool oneIn(int n) { return (*this)(1, n) == 1; }

 private:
  std::mt19937_64 engine_;
};

}  // namespace flitch::optimizer
