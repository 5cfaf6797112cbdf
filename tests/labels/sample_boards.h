#pragma once
#include <random>
#include <vector>

#include "inventory/records/board.h"

namespace flitch::test {

/// Boards as a shop may have them, some with names far too long for a label.
[[nodiscard]] std::vector<Board> sampleBoards(unsigned seed, int count);
/// A plain board of cherry 4/4, 126 in long, 8 3/4 in tapering to 8 1/4 in, tag T0042-F.
[[nodiscard]] Board mapChestBoard();

}  // namespace flitch::test
