#include "inventory/records/price.h"

namespace flitch {

const ReplacementPrice* priceOn(std::span<const ReplacementPrice> prices,
                                const std::string& species, Nominal nominal,
                                const std::string& grade, const std::string& day) {
  const ReplacementPrice* best = nullptr;
  for (const ReplacementPrice& row : prices) {
    const bool fits = row.species == species && row.nominal == nominal && row.since <= day &&
                      (row.grade == grade || row.grade.empty());
    if (!fits) continue;
    const bool closer = best == nullptr || (best->grade.empty() && !row.grade.empty());
    const bool newer = best != nullptr && best->grade == row.grade && best->since <= row.since;
    if (closer || newer) best = &row;
  }
  return best;
}

std::optional<Money> replacementOf(const Board& board, std::span<const ReplacementPrice> prices,
                                   const std::string& day) {
  const ReplacementPrice* price = priceOn(prices, board.species, board.nominal, board.grade, day);
  if (price == nullptr) return std::nullopt;
  const Feet feet = board.billed.thousandths > 0 ? board.billed : board.measuredFeet;
  return cost(price->perFoot, feet);
}

}  // namespace flitch
