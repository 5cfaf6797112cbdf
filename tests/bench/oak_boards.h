#pragma once
#include <string>
#include <vector>

#include "inventory/wood/grade.h"

namespace flitch::bench {

/// A board of the oak set (tests/bench/data/red_oak_boards_1998) with the grade of the data bank.
struct OakBoard {
  std::string name;
  std::string recorded;  ///< FAS, F1F, SEL, 1C, 2AC, 3AC, or - where the copy has none
  GradeBoard board;
};

/// Reads boards.txt of a set in the text format of tests/bench/data/README.md. What lies outside a
/// board's outline (VOID) becomes its edges, all else marks. Its width is that a third of the
/// length from its narrow end. Throws std::runtime_error with the line.
[[nodiscard]] std::vector<OakBoard> readOakBoards(const std::string& folder);

/// The bank's word for a grade.
[[nodiscard]] std::string bankWord(Grade grade);

}  // namespace flitch::bench
