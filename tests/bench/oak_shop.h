#pragma once
#include "tests/bench/instances.h"
#include "tests/bench/shops.h"

namespace flitch::bench {

/// A shop of real boards: `size.boards` of the graded boards of red_oak_boards_1998, drawn without
/// putting back, with their marks. Grid 1/8 in (the data's is 1/4), all 4/4. $6 a board foot for
/// FAS, 0.95 of it for F1F and SEL, 0.65 for 1C, 0.45 for 2AC and 0.3 for 3AC (made up); the parts
/// are those of randomShop, none of thick stock. Sound knots and stain bar the clear faces they
/// show on, everything else bars all. Throws std::invalid_argument when there are too few boards.
[[nodiscard]] optimizer::Problem oakShop(const std::vector<Instance>& boards, const ShopSize& size,
                                         std::uint64_t seed);

}  // namespace flitch::bench
