#include "inventory/records/cut_plan.h"

namespace flitch {

std::optional<Money> CutPlan::savedOn(Money other) const {
  if (other <= Money()) return std::nullopt;
  return other - total();
}

std::vector<std::size_t> childrenOf(const Cutting& cutting, std::size_t at) {
  std::vector<std::size_t> children;
  const int depth = cutting.pieces.at(at).depth;
  for (std::size_t i = at + 1; i < cutting.pieces.size(); ++i) {
    if (cutting.pieces[i].depth <= depth) break;
    if (cutting.pieces[i].depth == depth + 1) children.push_back(i);
  }
  return children;
}

}  // namespace flitch
