#include "inventory/records/cut_plan.h"

#include <algorithm>
#include <iterator>
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

std::string_view word(LayupKind kind) {
  switch (kind) {
    case LayupKind::stave: return "stave";
  }
  throw std::logic_error("no such layup");
}

std::vector<Layup> layupsOf(const Cutting& cutting, std::size_t piece) {
  std::vector<Layup> found;
  std::copy_if(cutting.layups.begin(), cutting.layups.end(), std::back_inserter(found),
               [piece](const Layup& l) { return static_cast<std::size_t>(l.piece) == piece; });
  return found;
}

MadeBefore madeBefore(const Part& part, const PlanRequest& request) {
  MadeBefore before;
  if (const auto made = request.made.find(part.line); made != request.made.end()) {
    before.copies = made->second;
  }
  std::map<int, Length> given;
  for (const LaidBefore& l : request.laid) {
    if (l.line != part.line) continue;
    before.copies.erase(l.layup.piece);
    given[l.layup.copy] += l.layup.gives;
  }
  for (const auto& [copy, width] : given) {
    if (width >= part.width) {
      before.copies.insert(copy);
    } else {
      before.begun.emplace(copy, width);
    }
  }
  return before;
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
