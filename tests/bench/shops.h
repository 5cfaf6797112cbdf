#pragma once
#include <cstdint>

#include "optimizer/problem.h"

namespace flitch::bench {

/// A seeded shop of random boards and parts, for timing plans. Grid 1/8 in, kerf 1/8 in.
struct ShopSize {
  int boards = 15, types = 8, pieces = 40;
  /// The usual sizes: 15 boards (8 types, 40 pieces), 60 (20, 150), from 300 on (40, 500).
  [[nodiscard]] static ShopSize of(int boards);
};

/// Boards: species in turn (two up to 60 boards, else four), 70 % in 4/4 and 30 % in 8/4, 72 to 144
/// in long, 4 to 14 in wide, three grades at 1, 0.74 and 0.52 of the species' price with 0-4, 3-9
/// and 6-15 marks. Parts: 1 3/4 to 7 in wide, 10 to 46 in long and a fifth of them up to 80 in;
/// clear on two faces, on one, or sound; one in five needs thick stock; from 20 types on two panels
/// take staves of 2 to 5 in in quarter inches. Offcuts from 12 x 3 in on are worth 0.4 of their
/// area's share; a missing part costs six times its wood. All figures are made up.
[[nodiscard]] optimizer::Problem randomShop(const ShopSize& size, std::uint64_t seed);

}  // namespace flitch::bench
