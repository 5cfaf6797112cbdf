#pragma once
#include <span>
#include <vector>

#include "optimizer/lay.h"

namespace flitch::optimizer {

/// What a section of a board would be worth if no mark lay in it: a bound on every real section as
/// long, tighter than columns alone since pieces do not come in fractions. Two offcuts that no mark
/// parts are worth no more than one as large as both, so one for each strip and stack is enough.
class ClearBoard {
 public:
  ClearBoard(const Lay& lay, const Saw& saw) : lay_(lay), saw_(saw) {}

  /// net: value of each item, the piece's own cut taken off; kinds: those with an item above zero.
  /// O(kinds · length · items).
  void price(std::span<const Worth> net, std::span<const std::size_t> kinds);
  /// Worth of a section so long at most, its own cut not taken off. O(width · kinds) once.
  [[nodiscard]] Worth section(Tick length);

 private:
  void fillStrips(const StripKind& kind, std::span<const Worth> net);
  [[nodiscard]] Worth stacked(Tick length);
  [[nodiscard]] Worth offcut(Tick du, Tick dv) const;  ///< at most, whatever its size

  static constexpr int fraction = 8;

  struct Strips {
    Tick width = 0;
    std::vector<Worth> by;  ///< worth by the section's length
  };
  const Lay& lay_;
  const Saw& saw_;
  Worth cell_ = 0;
  std::vector<Strips> strips_;
  std::vector<Worth> section_;  ///< by length; -1: not yet
  std::vector<Worth> row_, chain_;
};

}  // namespace flitch::optimizer
