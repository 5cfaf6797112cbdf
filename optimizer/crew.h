#pragma once
#include <cstddef>
#include <functional>

namespace flitch::optimizer {

/// Does independent pieces of work on a few threads. What each piece gives must not depend on the
/// others; results are then the same whatever the number of threads.
class Crew {
 public:
  explicit Crew(int threads = 1) : threads_(threads) {}
  /// work(0) to work(count - 1), each once, in any order and at the same time. Comes back when all
  /// are done. The work must not throw.
  void each(std::size_t count, const std::function<void(std::size_t)>& work) const;

 private:
  int threads_;
};

}  // namespace flitch::optimizer
