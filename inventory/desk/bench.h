#pragma once
#include <set>
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

/// A job's newest kept plan with all it takes to put it on paper.
struct BenchPlan {
  Job job;
  store::StoredPlan stored;
  ShopProfile shop;           ///< the plan's
  std::vector<Board> boards;  ///< of its cuttings, in their order; those sawn since as they were
  std::string keptOn;         ///< the day it was kept, 2026-05-31
  [[nodiscard]] std::set<BoardId> sawn() const { return {stored.sawn.begin(), stored.sawn.end()}; }
};
/// Throws Refusal when no plan is kept or the newest opens no board.
[[nodiscard]] BenchPlan benchPlan(const store::Snapshot& snapshot, JobId job);

/// The shop's day, 2026-05-31, at a time of the book (UTC).
[[nodiscard]] std::string dayAt(const std::string& utc);

}  // namespace flitch::desk
