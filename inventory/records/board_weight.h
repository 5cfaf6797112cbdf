#pragma once
#include <span>
#include <string>

#include "inventory/records/board.h"
#include "inventory/wood/weight.h"

namespace flitch {

/// Moisture a board's weight is reckoned at: its newest reading, else 12 %.
[[nodiscard]] double moistureOf(const Board& board);

/// Kilograms of the whole board. A species without a figure is taken for a heavy one.
[[nodiscard]] double kilogramsOf(const Board& board, std::span<const Species> ownSpecies);

/// `about 57 lb`, or `up to about 71 lb` where the species has no figure.
[[nodiscard]] std::string weightText(const Board& board, std::span<const Species> ownSpecies,
                                     Unit unit);

}  // namespace flitch
