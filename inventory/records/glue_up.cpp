#include "inventory/records/glue_up.h"

#include <algorithm>
#include <tuple>

namespace flitch {

std::vector<GlueUp> glueUpsOf(const CutPlan& plan) {
  std::vector<Glued> all;
  for (const Cutting& cutting : plan.cuttings) {
    for (const Layup& l : cutting.layups) {
      all.push_back({cutting.board, cutting.pieces.at(static_cast<std::size_t>(l.piece)), l});
    }
  }
  std::stable_sort(all.begin(), all.end(), [](const Glued& a, const Glued& b) {
    return std::tie(a.blank.line, a.layup.copy, a.layup.section, a.layup.slot) <
           std::tie(b.blank.line, b.layup.copy, b.layup.section, b.layup.slot);
  });
  std::vector<GlueUp> ups;
  int section = 0;
  for (Glued& glued : all) {
    const bool same =
        !ups.empty() && ups.back().line == glued.blank.line && ups.back().copy == glued.layup.copy;
    if (!same) ups.push_back({glued.blank.line, glued.layup.copy, {}});
    if (!same || section != glued.layup.section) ups.back().sections.emplace_back();
    section = glued.layup.section;
    ups.back().sections.back().push_back(glued);
  }
  return ups;
}

}  // namespace flitch
