#pragma once
#include <map>
#include <optional>
#include <vector>

#include "inventory/store/database.h"
#include "inventory/store/snapshot.h"

namespace flitch::store {

[[nodiscard]] std::optional<StoredPlan> readPlan(Database& database, PlanId id);
/// `plan.id` must be new.
void insertPlan(Database& database, const CutPlan& plan, EntryId entry);

/// `entry` is none for a planned cutting. `became`: boards that its offcuts are now, by piece.
CuttingId insertCutting(Database& database, const Cutting& cutting, PlanId plan, EntryId entry,
                        const std::map<int, BoardId>& became, const std::map<int, BinId>& binned);

[[nodiscard]] std::vector<SpoiledPiece> readSpoiled(Database& database, std::optional<JobId> job);

/// Done cuttings that stand, of one job or all, oldest first.
[[nodiscard]] std::vector<DoneCutting> readDone(Database& database, std::optional<JobId> job);

}  // namespace flitch::store
