#include "inventory/records/board_weight.h"

#include <algorithm>

namespace flitch {

double moistureOf(const Board& board) {
  constexpr double usual = 12;
  const auto at = std::find_if(board.readings.rbegin(), board.readings.rend(),
                               [](const Reading& reading) { return reading.tenthsPercent > 0; });
  return at == board.readings.rend() ? usual : at->tenthsPercent / 10.0;
}

double kilogramsOf(const Board& board, std::span<const Species> ownSpecies) {
  const auto species = speciesNamed(board.species, ownSpecies);
  return kilograms(volumeOf(board), species ? &*species : nullptr, moistureOf(board));
}

std::string weightText(const Board& board, std::span<const Species> ownSpecies, Unit unit) {
  const auto species = speciesNamed(board.species, ownSpecies);
  return (species && species->gravity ? "about " : "up to about ") +
         weightText(kilogramsOf(board, ownSpecies), unit);
}

}  // namespace flitch
