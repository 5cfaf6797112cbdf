#pragma once
#include <span>
#include <vector>

#include "optimizer/draft.h"
#include "optimizer/unit_worths.h"

namespace flitch::optimizer {

/// How sharply a board's worth is bounded.
enum class Depth {
  free,      ///< every unit counts: the free programme
  rationed,  ///< units past what is wanted bring less (ration.h)
  listed     ///< exact, while labels last (listing.h)
};

struct BoardAsk {
  const UnitWorths& worths;
  Depth depth = Depth::listed;
  Caps caps = Caps::drop;  ///< of the first, free pricing
  Reach reach = Reach::all;
  std::span<const Worth> rations = {};  ///< prices on units to begin with
  Worth floor = 0;                      ///< a figure at most this is as good as any
  Worth cost = 0;                       ///< patterns worth more pay
  const Halt* halt = nullptr;
};

struct BoardWorth {
  Worth most = 0;                 ///< no pattern is worth more
  std::vector<Pattern> patterns;  ///< that pay, as plans keep them; the first in any case
  std::vector<Worth> rations;     ///< prices on units that bound the board; empty: not looked for
  Filling spent;
};

/// What a board is worth at most, each step sharper than the one before and taken only while it can
/// show more than is reached by patterns that plans can use. `prices`: of items where every unit
/// has its steepest worth (pricesAt).
[[nodiscard]] BoardWorth boardWorth(Pricers& pricers, const Problem& problem, int stock,
                                    std::span<const Priced> prices, const BoardAsk& ask);

}  // namespace flitch::optimizer
