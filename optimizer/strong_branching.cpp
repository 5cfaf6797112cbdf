#include "optimizer/strong_branching.h"

#include <ClpSimplex.hpp>
#include <algorithm>
#include <vector>

namespace flitch::optimizer {

Strongest strongest(ClpSimplex& model, std::size_t branches, Worth most, const Trying& trying,
                    const std::function<void(std::size_t place, bool upper)>& apply,
                    const Halt& halt, std::uint64_t& work) {
  const double from = model.objectiveValue(), all = static_cast<double>(most);
  const int pivots = model.maximumIterations();
  const auto entries = static_cast<std::size_t>(model.numberRows() + model.numberColumns());
  const std::vector<unsigned char> basis(model.statusArray(), model.statusArray() + entries);
  model.setMaximumIterations(trying.pivots);
  Strongest best;
  double bestScore = -1;
  for (std::size_t place = 0; place < std::min(branches, trying.branches) && !halt.now(); ++place) {
    double gain[2];
    for (const bool upper : {false, true}) {
      apply(place, upper);
      model.dual();
      work += 100 * static_cast<std::uint64_t>(std::max(0, model.numberIterations())) + 300;
      const double to = model.status() == 1 ? all : std::min(all, model.objectiveValue());
      gain[upper ? 1 : 0] = std::max(to - from, 1.0);
      std::copy(basis.begin(), basis.end(), model.statusArray());
    }
    const double score = gain[0] * gain[1];
    if (score <= bestScore) continue;
    bestScore = score;
    best = {place, gain[1] <= gain[0]};
  }
  model.setMaximumIterations(pivots);
  return best;
}

}  // namespace flitch::optimizer
