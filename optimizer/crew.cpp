#include "optimizer/crew.h"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace flitch::optimizer {

void Crew::each(std::size_t count, const std::function<void(std::size_t)>& work) const {
  std::atomic<std::size_t> next{0};
  const auto takeTurns = [&] {
    for (std::size_t at = next++; at < count; at = next++) work(at);
  };
  const std::size_t helpers =
      std::min(count, static_cast<std::size_t>(std::max(1, threads_))) - (count > 0 ? 1 : 0);
  std::vector<std::jthread> others;
  for (std::size_t h = 0; h < helpers; ++h) others.emplace_back(takeTurns);
  takeTurns();
}

}  // namespace flitch::optimizer
