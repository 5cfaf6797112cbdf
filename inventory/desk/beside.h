#pragma once
#include <string>

#include "inventory/records/table.h"
#include "inventory/store/snapshot.h"

namespace flitch::desk {

/// The two newest plans of a job, a row each: what they cost, boards and cuts, how much of the wood
/// becomes parts, offcuts, faces taken on trust, what can still be saved (empty: not proved), what
/// was settled. Boards sawn since count as they were. Throws Refusal when fewer than two are kept.
/// O(pieces²).
[[nodiscard]] Table plansBeside(const store::Snapshot& snapshot, const Job& job, Unit unit);

/// The same for people: a column for each plan, the older first.
[[nodiscard]] Table sideBySide(const Table& plans, Unit unit, const std::string& sign);

}  // namespace flitch::desk
