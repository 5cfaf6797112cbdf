#pragma once
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/shop.h"
#include "inventory/records/table.h"
#include "inventory/wood/species.h"

namespace flitch::pages {

/// A running mark from the fresh end, and what falls there if it is no length to work on: "keep",
/// "waste".
struct ChalkMark {
  Length at;
  std::string falls;
};
/// The crosscuts of one board at the rough saw.
struct RoughCuts {
  std::string tag, bay, wood;  ///< "cherry 4/4"
  Length off;                  ///< squares the fresh end; zero where the end stands
  std::vector<ChalkMark> chalk;
  bool ripped = false;  ///< ripped before it is cut into lengths: no chalk marks
  std::string rest;     ///< "22 1/8 keep", "7 throw"
};
/// What is done at one setting of a machine, over all boards.
struct MachineSetting {
  Length measure;      ///< thickness, fence or stop
  std::string pieces;  ///< hand marks, "C1 to C4, D1"; for rips also strips, offcuts and waste
  int cuts = 0;        ///< passes of the saw, pieces planed or cut to length
};

/// The cuts of a plan by station: every numbered cut of sawSteps() stands in exactly one of rough,
/// fences and strips.
struct WorkLists {
  std::string job;
  std::size_t boards = 0;
  std::vector<RoughCuts> rough;             ///< in the order of the plan's sheets
  std::vector<MachineSetting> thicknesses;  ///< finished thickness, thickest first
  std::vector<MachineSetting> fences;       ///< widest first
  std::vector<MachineSetting> strips;       ///< rough lengths cut from ripped strips, longest first
  std::vector<MachineSetting> stops;        ///< finished lengths, longest first
  /// As on the cut sheets; one that does not hold for all boards is headed by their tags. The last
  /// defers to the machine's manual and the local rules.
  std::vector<std::string> cautions;
};

/// `boards` in any order; each cutting's board must be among them, else std::invalid_argument.
/// O(boards x pieces²), as the steps.
[[nodiscard]] WorkLists workLists(const CutPlan& plan, const std::vector<Board>& boards,
                                  const Job& job, const ShopProfile& shop, Unit unit,
                                  const std::vector<Species>& ownSpecies);

/// A table per station, for people.
[[nodiscard]] std::vector<Table> workTables(const WorkLists& lists, Unit unit);
/// All stations in one table for files: station, setting, board, pieces, cuts.
[[nodiscard]] Table workRows(const WorkLists& lists);

/// "C1 to C4, D1, E2, E3": runs of three and more drawn together. Pairs of line and copy, rising.
[[nodiscard]] std::string joined(const std::vector<std::pair<int, int>>& blanks);

}  // namespace flitch::pages
