#pragma once
#include <cstdint>
#include <limits>
#include <span>

#include "optimizer/pattern.h"
#include "optimizer/problem.h"

namespace flitch::optimizer {

/// What one more copy of an item is worth to the caller on this board.
struct Priced {
  int item = 0;
  Worth value = 0;  ///< extras of the item already taken off
  std::int64_t cap = std::numeric_limits<std::int64_t>::max();  ///< most copies on this board
};

/// The best pattern of one board under given values.
struct Best {
  Pattern pattern;
  Worth value = 0;       ///< of `pattern`: item values + offcut worth - cuts; never below 0 (empty)
  Worth upperBound = 0;  ///< no pattern of the class within the caps is worth more
  bool capsKept = true;  ///< `pattern` obeys every cap
  std::uint64_t work = 0;  ///< states visited: a repeatable measure of effort
};

/// How far caps are followed.
enum class Caps {
  drop,  ///< ignored: fastest; upperBound is that of the free programme (relaxed)
  keep   ///< obeyed: prices on the broken caps, then states that count copies
};

/// The exact programme for one board: maximises item values + worth of offcuts - cost of cuts over
/// all patterns of at most saw.stages guillotine stages, both orders of cutting (saw.first). Every
/// grid step is a legal position. A place is legal when it lies in the profile, the item's class
/// fits, no zone of its orientation that bars the class overlaps its interior, and no edge zone
/// that bars it meets its side; an offcut keeps clear of what bars its class in any orientation.
/// The class of patterns does not depend on the values: sections may have any length, strips of
/// pieces have the width of an item. Offcuts are exact where one cell of offcut is worth at least
/// one unit of Worth. Ties are settled the same way every time. Stock.cost and Stock.copies play no
/// part. Plans cut for offcuts in fewer places (offcut_rule.h), so what is worked out here bounds
/// them. Time: at worst O(nx² · ny · widths) for the sections and O(nx · ny · widths · items) for
/// the strips, far less by bounds (programme.h); limits inside the board may take far longer, and
/// past some millions of states upperBound stays above value. Gilmore and Gomory 1965; Hahn 1968
/// for defects.
[[nodiscard]] Best bestPattern(const Problem& problem, const Stock& stock,
                               std::span<const Priced> priced, Caps caps = Caps::keep);

}  // namespace flitch::optimizer
