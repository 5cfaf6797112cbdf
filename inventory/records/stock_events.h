#pragma once
#include <string>
#include <vector>

#include "inventory/records/account.h"
#include "inventory/records/ids.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/money.h"
#include "inventory/wood/tag_code.h"

namespace flitch {

/// A board sent back to its supplier, and what came for it.
struct BoardReturn {
  ReturnId id;
  BoardId board;
  std::string reason;
  Money cost;             ///< what stood on the board
  Money expected;         ///< the credit asked
  Money received;         ///< credits so far
  bool credited = false;  ///< a credit came, be it of nothing
};

/// How a bay was found when it was counted.
struct BayCount {
  std::string bay;
  std::vector<BoardId> seen, missing, unexpected;
  int untagged = 0;
};

/// Board feet of one wood kept for a job before its boards are chosen.
struct SetAside {
  JobId job;
  std::string species;
  Nominal nominal;
  Feet feet;
};

/// A bin of untagged shorts of one species.
struct Bin {
  BinId id;
  std::string name, species, note;
  CubicMillimetres wood;  ///< what lies in it, as far as it was told
};

/// How a board left the rack.
struct LeftRack {
  AccountKind to =
      AccountKind::parts;  ///< parts and kin when sawn; returned, retired, missing, ...
  CubicMillimetres volume;
  Money cost;
  EntryId entry;
};

}  // namespace flitch
