#pragma once
#include <vector>

#include "inventory/records/plan_check.h"

namespace flitch {

/// One cutting before the judge: parts of check(), for plan_check alone.
struct CuttingCase {
  const Cutting& cutting;
  const Board& board;
  const PlanRequest& request;
  Length tick;
};

/// The shape of the tree: tiling, stages, kerfs, end trims, grid. O(pieces²).
void checkTree(const CuttingCase& at, std::vector<Fault>& faults);

/// What every blank and offcut is and where it lies: size, species, outline, thickness, marks,
/// looked-at faces. O(pieces² + pieces x marks).
void checkPieces(const CuttingCase& at, std::vector<Fault>& faults);

}  // namespace flitch
