#include "optimizer/best_pattern.h"

#include <algorithm>

#include "optimizer/pricer.h"

namespace flitch::optimizer {

Best bestPattern(const Problem& problem, const Stock& stock, std::span<const Priced> priced,
                 Caps caps) {
  Pricer pricer(problem, stock);
  return pricer.best(priced, {.caps = caps});
}

}  // namespace flitch::optimizer
