#include "inventory/records/cut_plan.h"

#include <stdexcept>

namespace flitch {

std::string_view word(PlanBound kind) {
  switch (kind) {
    case PlanBound::none: return "none";
    case PlanBound::area: return "area";
    case PlanBound::relaxed: return "relaxed";
    case PlanBound::exact: return "exact";
  }
  throw std::logic_error("no such bound");
}

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
