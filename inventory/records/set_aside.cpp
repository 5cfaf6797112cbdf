#include "inventory/records/set_aside.h"

#include <algorithm>

namespace flitch {

std::vector<std::string> takenFromOthers(const CutPlan& plan, const PlanRequest& request) {
  std::vector<std::string> sentences;
  for (const KeptWood& kept : request.keptForOthers) {
    Feet left = kept.elsewhere;
    for (const Board& board : request.boards) {
      const bool opened =
          std::any_of(plan.cuttings.begin(), plan.cuttings.end(),
                      [&](const Cutting& cutting) { return cutting.board == board.id; });
      const bool same = board.species == kept.species && board.nominal == kept.nominal;
      if (same && !opened && !board.reservedFor) left += board.measuredFeet;
    }
    if (left >= kept.feet) continue;
    sentences.push_back("Of " + kept.species + " " + text(kept.nominal) + " " + text(left) +
                        " bf would be left free, and " + text(kept.feet) +
                        " bf are set aside for " + kept.jobs);
  }
  return sentences;
}

}  // namespace flitch
