#pragma once
#include <map>
#include <set>
#include <string>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// Blanks of a group of parts, set-up pieces apart: those may be of any wood.
struct GroupBlanks {
  std::set<int> lines;  ///< of the parts they are of
  std::set<BoardId> boards;
  BoardId lastBoard;  ///< of the last blank met
  int lastPiece = -1;
};
/// By the group's name.
using Groups = std::map<std::string, GroupBlanks>;

/// Adds what a cutting has of the job's groups. O(pieces x layups).
void addGroupBlanks(const Cutting& cutting, const Job& job, Groups& groups);

}  // namespace flitch
