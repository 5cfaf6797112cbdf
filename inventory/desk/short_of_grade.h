#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/table.h"
#include "inventory/wood/grade.h"

namespace flitch::desk {

/// A board that looks like less than the grade it was paid as.
struct ShortBoard {
  Board board;
  Grade paidAs = Grade::below, looksLike = Grade::below;
  Money worth;           ///< what it would have been charged as what it looks like
  bool byPrice = false;  ///< by a price the book knows, else by the clear wood a grade promises
  [[nodiscard]] Money atStake() const {
    return worth < board.price ? board.price - worth : Money();
  }
};

struct ShortOfGrade {
  std::vector<ShortBoard> boards;
  int undecided = 0;  ///< that may be short: their search ran out first
  [[nodiscard]] Money paid() const;
  [[nodiscard]] Money atStake() const;
};

/// Those of `boards` whose estimate (gradeOf()) lies below the grade as bought, where that is one
/// of the hardwood grades and something was charged. A board paid as FAS that looks like F1F is
/// none: the two are sold together (from memory). What it is worth is its board feet as billed at
/// the newest price the book knows for that grade of its species and thickness, of its supplier
/// first; without one, its price by the units a grade promises for each foot of surface measure
/// (10, 8, 6, 4; below 3). `known`: the boards to learn prices from. One estimate a board.
[[nodiscard]] ShortOfGrade shortOfGrade(const std::vector<Board>& boards,
                                        const std::vector<Board>& known,
                                        int decide = CuttingEffort{}.decide);
/// "2 boards look short of the grade paid, about $17.00 at stake: an inspector decides"; empty
/// where none does.
[[nodiscard]] std::string sentence(const ShortOfGrade& shorts, std::string_view sign);
/// A row per board: tag, species, quarters, size, paid as, looks like, billed, paid, worth, at
/// stake, by what; totals of the money.
[[nodiscard]] Table shortTable(const ShortOfGrade& shorts, Unit unit);

}  // namespace flitch::desk
