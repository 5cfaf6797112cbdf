#pragma once
#include <vector>

#include "inventory/records/board.h"

namespace flitch::desktop {

/// Draws a place that is pulled near something to it: ends and edges of the face, sides and middles
/// of its marks; else whole inches, or centimetres.
class Snap {
 public:
  /// `besides`: index of the mark that is pulled, which draws nothing to itself; -1: none.
  Snap(const Board& board, Face face, Unit unit, int besides = -1);

  struct Place {
    Length x, y;
    bool toX = false, toY = false;  ///< drawn to an end, edge or mark
  };
  /// The nearest of what lies within `reach`, along and across by themselves; the edges are those
  /// at the x found. A place drawn to an end, edge or mark stays.
  [[nodiscard]] Place at(Length x, Length y, Length reach) const;

 private:
  const Outline& outline_;
  Length step_;
  std::vector<Length> xs_, ys_;
};

}  // namespace flitch::desktop
