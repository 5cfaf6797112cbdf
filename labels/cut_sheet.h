#pragma once
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/wood/species.h"
#include "labels/board_drawing.h"
#include "labels/page.h"

namespace flitch::pages {

struct CutSheetFacts {
  std::string sentence;  ///< the proof
  std::string planned;   ///< date, for the title block
  Unit unit = Unit::inches;
  bool letter = false;              ///< US Letter instead of A4; content keeps to 186 x 255 mm
  std::string sign = "$";           ///< of the book's currency
  std::vector<Species> ownSpecies;  ///< the book's, for weights
};

/// A landscape page per opened board, boards drawn as they lie at the saw, steps, cautions.
/// `boards` in any order; each cutting's board must be among them.
[[nodiscard]] std::vector<Page> cutSheets(const CutPlan& plan, const std::vector<Board>& boards,
                                          const Job& job, const ShopProfile& shop,
                                          const CutSheetFacts& facts);
/// First page of a plan: the proof sentence and claim, boards opened, cost, shorts and waiting
/// parts.
[[nodiscard]] Page planSummary(const CutPlan& plan, const std::vector<Board>& boards,
                               const Job& job, const ShopProfile& shop, const CutSheetFacts& facts,
                               const std::vector<std::string>& notes);

/// The usual cautions for a cutting: short, narrow, thin, heavy, bowed stock; the last sentence
/// defers to the machine's manual and local rules. From reference/safety.md alone.
[[nodiscard]] std::vector<std::string> cautions(const Cutting& cutting, const Board& board,
                                                const Job& job, const ShopProfile& shop,
                                                Unit unit = Unit::inches,
                                                const std::vector<Species>& ownSpecies = {});

}  // namespace flitch::pages
