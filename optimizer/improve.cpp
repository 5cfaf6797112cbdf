#include "optimizer/improve.h"

#include <algorithm>

namespace flitch::optimizer {
namespace {

/// Equal on every machine, unlike the standard distributions.
std::size_t below(std::mt19937_64& random, std::size_t count) {
  return static_cast<std::size_t>(random() % count);
}

}  // namespace

bool replan(Draft& draft, const Problem& problem, std::span<const Worth> unit, Pricers& pricers,
            std::mt19937_64& random, const Halt& halt, Filling& spent) {
  Draft tried = draft;
  std::vector<int> allowed;
  const std::size_t most = std::min<std::size_t>(tried.boards().size(), 5);
  const std::size_t freed = most == 0 ? 0 : 1 + below(random, most);
  for (std::size_t f = 0; f < freed; ++f)
    allowed.push_back(tried.remove(below(random, tried.boards().size())).stock);
  const std::size_t fresh = 6 + 2 * freed;
  for (std::size_t f = 0; f < fresh && !problem.stock.empty(); ++f)
    allowed.push_back(static_cast<int>(below(random, problem.stock.size())));
  std::sort(allowed.begin(), allowed.end());
  allowed.erase(std::unique(allowed.begin(), allowed.end()), allowed.end());

  std::vector<Worth> disturbed(unit.begin(), unit.end());
  for (Worth& worth : disturbed)  // 3/4 to 5/4, in 64ths
    worth = worth / 64 * static_cast<Worth>(48 + below(random, 33));
  const Filling filling = fill(tried, problem, allowed, disturbed, pricers, halt);
  spent.effort += filling.effort + 100;  // a try that asks no board counts too
  spent.priced += filling.priced;
  tried.tidy();
  openForced(tried, problem);
  if (tried.cost() >= draft.cost()) return false;
  draft = std::move(tried);
  return true;
}

}  // namespace flitch::optimizer
