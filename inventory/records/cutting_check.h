#pragma once
#include <map>
#include <set>
#include <vector>

#include "inventory/records/plan_check.h"

/// Parts of check(), for plan_check alone.
namespace flitch {

/// The shape of the tree: tiling, stages, kerfs, end trims, grid. O(pieces²).
void checkTree(const CuttingCase& at, std::vector<Fault>& faults);

/// What every blank and offcut is and where it lies: size, species, outline, thickness, marks,
/// looked-at faces. O(pieces² + pieces x marks).
void checkPieces(const CuttingCase& at, std::vector<Fault>& faults);

/// The blanks of all cuttings put together to parts: every layup's place, panels filled by their
/// staves, sections within the planer. O(layups log layups).
void checkLayups(const CutPlan& plan, const PlanRequest& request, std::vector<Fault>& faults);

/// What the maker settled, as the plan or the request says it: boards kept out and pinned, locks,
/// blanks laid by hand. O(choices x cuttings x pieces).
void checkChoices(const CutPlan& plan, const Choices& choices, std::vector<Fault>& faults);

/// Copies the plan makes, by part line: blanks that are one, and copies whose layups are complete
/// with what was made before.
[[nodiscard]] std::map<int, std::set<int>> copiesPlanned(const CutPlan& plan,
                                                         const PlanRequest& request);

}  // namespace flitch
