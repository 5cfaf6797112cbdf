#pragma once
#include "inventory/desk/sawn_boards.h"
#include "inventory/planning/planner.h"
#include "inventory/records/learned.h"
#include "inventory/records/table.h"

namespace flitch::desk {

/// What the boards sawn have taught. O(their pieces).
[[nodiscard]] Learned learnedFrom(const std::vector<SawnBoard>& boards,
                                  const store::Snapshot& snapshot);

/// Adds to the notes of a plan what the boards sawn so far have to say to it.
void addLessons(planning::PlanResult& result, const store::Snapshot& snapshot);

/// Planned against actual, to learn from.
struct LearnedTables {
  /// By supplier and grade: what the plans promised of the wood used up, what came.
  Table yield;
  /// By length of the finished part: blanks planned, and lost at the saw or since.
  Table lengths;
  Table rows;  ///< both for files, a row each
};
[[nodiscard]] LearnedTables learnedReport(const std::vector<SawnBoard>& boards,
                                          const store::Snapshot& snapshot);

}  // namespace flitch::desk
