#pragma once
#include <chrono>
#include <stop_token>

namespace flitch::optimizer {

/// When long work must give up: a stop asked for, or the clock.
struct Halt {
  using Clock = std::chrono::steady_clock;
  std::stop_token stop;
  Clock::time_point until = Clock::time_point::max();
  [[nodiscard]] bool now() const { return stop.stop_requested() || Clock::now() >= until; }
};

}  // namespace flitch::optimizer
