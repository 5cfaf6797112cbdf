#pragma once
#include <algorithm>
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
  bool listedInVain = false;      ///< labels came to an end before anything new was known
  Filling spent;
};

/// Boards whose ways were listed in vain are listed again after a while only, at each failure in a
/// row after a longer one: with so many ways that takes most of the time there is.
class ListingPauses {
 public:
  explicit ListingPauses(std::size_t stocks) : pauses_(stocks) {}
  [[nodiscard]] Depth depth(std::size_t stock) const {
    return pauses_[stock].left > 0 ? Depth::rationed : Depth::listed;
  }
  /// A board was asked at that depth.
  void told(std::size_t stock, const BoardWorth& answer) {
    Pause& pause = pauses_[stock];
    if (pause.left > 0)
      --pause.left;
    else if (answer.listedInVain)
      pause.left = pause.next = std::min(2 * pause.next + 1, longest);
    else
      pause.next = 0;
  }

 private:
  static constexpr int longest = 31;
  struct Pause {
    int left = 0, next = 0;  ///< times it is asked
  };
  std::vector<Pause> pauses_;
};

/// What a board is worth at most, each step sharper than the one before and taken only while it can
/// show more than is reached by patterns that plans can use. `prices`: of items where every unit
/// has its steepest worth (pricesAt).
[[nodiscard]] BoardWorth boardWorth(Pricers& pricers, const Problem& problem, int stock,
                                    std::span<const Priced> prices, const BoardAsk& ask);

}  // namespace flitch::optimizer
