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
    case LayupKind::lamina: return "lamina";
    case LayupKind::gang: return "gang";
    case LayupKind::whole: return "whole";
  }
  throw std::logic_error("no such layup");
}

std::vector<Layup> layupsOf(const Cutting& cutting, std::size_t piece) {
  std::vector<Layup> found;
  std::copy_if(cutting.layups.begin(), cutting.layups.end(), std::back_inserter(found),
               [piece](const Layup& l) { return static_cast<std::size_t>(l.piece) == piece; });
  return found;
}

void bring(std::map<int, Brought>& copies, const Layup& layup) {
  Brought& here = copies[layup.copy];
  here.kind = layup.kind;
  here.sum += layup.gives;
}

MadeBefore madeBefore(const Part& part, const PlanRequest& request) {
  MadeBefore before;
  if (const auto made = request.made.find(part.line); made != request.made.end()) {
    before.copies = made->second;
  }
  std::map<int, Brought> brought;
  for (const LaidBefore& l : request.laid) {
    if (l.line != part.line) continue;
    before.copies.erase(l.layup.piece);
    bring(brought, l.layup);
  }
  for (const auto& [copy, what] : brought) {
    if (what.completes(part)) {
      before.copies.insert(copy);
    } else {
      before.begun.emplace(copy, what);
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
