#pragma once
#include <span>
#include <vector>

#include "optimizer/lay.h"

namespace flitch::optimizer {

/// Bits behind the point in bounds by area.
inline constexpr int fraction = 8;

/// What the pieces of a board are worth in one pricing, ordered for the programme.
struct Pricing {
  /// An item worth cutting, as its kind of strip sees it.
  struct Live {
    Tick size = 0;  ///< along u, a kerf behind it included
    Worth net = 0;  ///< the piece's own cut taken off
    int item = 0;
    std::size_t place = 0;  ///< in the kind's items and its views' starts
  };

  const Lay* lay = nullptr;
  const Saw* saw = nullptr;
  std::vector<Worth> net;               ///< of each item, its own cut taken off
  std::vector<std::vector<Live>> live;  ///< for each kind
  std::vector<std::size_t> kinds;       ///< with a live item; rising in width
  std::vector<std::size_t> firstView;   ///< of each kind, in a numbering of the views of all kinds
  std::vector<std::vector<std::size_t>> changes;  ///< kinds in use whose view changes at a row
  std::size_t views = 0;
  Tick widest = 0;
  Worth cell = 0;  ///< a cell of offcut is worth at most this, 2^-fraction

  void set(const Lay& lay, const Saw& saw, std::span<const Worth> values);
};

}  // namespace flitch::optimizer
