#pragma once
#include <string>

#include "inventory/records/board.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/table.h"
#include "labels/page.h"

namespace flitch::pages {

/// What stands on a part's passport besides its table of words: where it lay in its board.
struct PassportFacts {
  std::string handMark, part, job, customer;
  std::string book;     ///< the shop's name
  std::string printed;  ///< date
};

/// One A4 sheet for the customer, or for a repair ten years on: the part, the table's words, and
/// the board as it was, with the place of the part. No money stands on it.
[[nodiscard]] Page passportPage(const Table& words, const Board& board, const Piece& piece,
                                const PassportFacts& facts);

}  // namespace flitch::pages
