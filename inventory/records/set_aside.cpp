#include "inventory/records/set_aside.h"

#include <algorithm>

namespace flitch {

std::vector<std::string> takenFromOthers(const CutPlan& plan, const PlanRequest& request) {
  std::vector<std::string> sentences;
  for (const KeptWood& kept : request.keptForOthers) {
    Feet left = kept.elsewhere;
    bool takes = false;
    for (const Board& board : request.boards) {
      const bool opened =
          std::any_of(plan.cuttings.begin(), plan.cuttings.end(),
                      [&](const Cutting& cutting) { return cutting.board == board.id; });
      const bool same = board.species == kept.species && board.nominal == kept.nominal;
      if (!same || board.reservedFor) continue;
      if (opened) {
        takes = true;
      } else {
        left += board.measuredFeet;
      }
    }
    if (!takes || left >= kept.feet) continue;
    sentences.push_back("Of " + kept.species + " " + text(kept.nominal) + " " + text(left) +
                        " bf would be left free, and " + text(kept.feet) +
                        " bf are set aside for " + kept.jobs);
  }
  return sentences;
}

}  // namespace flitch
