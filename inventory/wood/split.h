#pragma once
#include <cstdint>
#include <span>
#include <vector>

#include "inventory/wood/wide.h"

namespace flitch {

/// Shares `whole` out in proportion to `shares` by largest remainder: each part is the exact share
/// rounded down or up, the parts sum to `whole`, equal remainders favour the earlier share, a
/// share of zero gets zero. The only splitter of money and volume.
/// `whole` may be negative (a credit); its parts then are. `shares` are zero or more, at least one
/// above zero unless `whole` is zero, their sum below 2^126. The product is taken bit by bit, so
/// nothing overflows. O(64 n + n log n).
/// Throws std::invalid_argument for a negative share or nothing to share by.
[[nodiscard]] std::vector<std::int64_t> split(std::int64_t whole, std::span<const Wide> shares);

/// floor(a * b / divisor) without overflow for 0 <= a < 2^63, 0 <= b, divisor < 2^126.
/// Throws std::overflow_error when the result does not fit int64.
[[nodiscard]] std::int64_t mulDiv(std::int64_t a, Wide b, Wide divisor);

}  // namespace flitch
