#pragma once
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// Keeps board feet of a wood for a job before its boards are chosen; in place of what was kept of
/// it before, nothing any more where `wood` says 0. What is kept goes down by the boards of that
/// wood that are reserved for the job or were sawn for it. Throws Refusal: the job is unknown, the
/// book never had that species, more feet than a shop holds.
EntryId setAside(store::Book& book, const SetAside& wood, const store::Hand& hand);

/// What other jobs than this one have set aside and not covered yet. `planned`: the boards a plan
/// of the job may open; free ones beside them count as `elsewhere`. O(rack x planned) for each
/// wood.
[[nodiscard]] std::vector<KeptWood> keptForOthers(const store::Snapshot& snapshot, JobId job,
                                                  const std::vector<Board>& planned);

/// A row for each wood set aside for the job: feet, of these in boards, still open.
[[nodiscard]] Table setAsideTable(const store::Snapshot& snapshot, JobId job);

}  // namespace flitch::desk
