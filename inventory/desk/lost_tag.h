#pragma once
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

/// A board that one found without its tag may be.
struct Likely {
  Board board;
  Length lengthOff, widthOff;  ///< how far the book's figures are from those measured
  bool missing = false;        ///< counted as missing by the book
};
/// Which board is this? Those that words ask for (rackFilter()), within 2 in (50 mm) of the length
/// and 3/8 in (10 mm) of the width measured: the missing first, then the rack, the nearest first.
/// O(boards).
[[nodiscard]] std::vector<Likely> likelyBoards(const store::Snapshot& snapshot,
                                               const std::string& words, Unit unit, Length length,
                                               Length width);
/// As a table, a row a board.
[[nodiscard]] Table likelyTable(const std::vector<Likely>& likely, Unit unit);

}  // namespace flitch::desk
