#pragma once
#include <cstdint>
#include <vector>

#include "optimizer/clear_board.h"
#include "optimizer/ladder.h"
#include "optimizer/offcuts_in.h"
#include "optimizer/pattern.h"
#include "optimizer/pricing.h"

namespace flitch::optimizer {

/// What the strips of one section can be worth: a chain of pieces and offcuts along each. Asked for
/// one start of sections after another, and for each for one end after another. Bounds are cheap:
/// the best chain of pieces, and with offcuts the best of pieces less the offcut they lie on, plus
/// all clear cells as offcut.
class Strips {
 public:
  void price(const Pricing& pricing, const ClearBoard& clear);
  /// Sections from u1 on, none of which ends behind `horizon`.
  void start(Tick u1, Tick horizon);
  /// The section at hand ends at u2.
  void end(Tick u2, OffcutsIn offcuts);

  /// The number of what strips of this kind and view see from u1 on: equal for views that differ
  /// before it only.
  [[nodiscard]] std::size_t sight(std::size_t kind, int view) const {
    return sight_[pricing_->firstView[kind] + static_cast<std::size_t>(view)];
  }
  /// No strip of the section is worth more; its own cut not taken off. Once: O(steps · items).
  Worth bound(std::size_t kind, int view);
  /// Some bound of this section may be above the worth itself.
  [[nodiscard]] bool loose() const { return loose_; }
  /// The worth itself where it passes `need`, else a figure from the worth up to `need`.
  Worth worth(std::size_t kind, int view, Worth need);
  /// Adds the strip's cells, the strip's own first.
  void build(std::size_t kind, int view, Tick at, Pattern& pattern);

  std::uint64_t work = 0;

 private:
  struct Rung {
    Tick next;
    Worth value;
  };
  struct Chain {  ///< rungs in rungs_
    std::uint64_t start = 0;
    std::size_t from = 0, to = 0;
  };
  struct Found {
    std::uint64_t section = 0;
    Worth pieces = 0;  ///< without offcuts
    Worth most = 0;    ///< no strip is worth more
  };
  /// A state of a search along a strip: what ends before `next`.
  struct Link {
    Tick next = 0;
    Worth value = 0;
    int before = -1;
    int item = -1;  ///< the piece that ends here; -1: none
    Tick at = 0;
    Tick offcutFrom = 0, offcutTo = 0;  ///< an offcut just before the piece; equal: none
  };
  struct Path {  ///< of the best chain
    int last = 0;
    Tick from = 0, to = 0;  ///< the offcut that ends it; equal: none
  };

  [[nodiscard]] const StripKind::View& viewOf(std::size_t kind, std::size_t sight) const;
  void climb(std::size_t kind, const StripKind::View& view, bool lifted, Chain& chain);
  [[nodiscard]] Worth reached(const Chain& chain) const;
  Worth single(std::size_t kind, const StripKind::View& view, int* item, Tick* at) const;
  /// The best chain worth more than `need`; else `need`.
  Worth search(std::size_t kind, const StripKind::View& view, Worth need, Path& path);
  void put(const Link& link, Worth need);
  void offcutsBefore(std::size_t kind, const StripKind::View& view, int from, Worth need,
                     Worth& most, Path& path);

  const Pricing* pricing_ = nullptr;
  const ClearBoard* clear_ = nullptr;
  Tick u1_ = 0, u2_ = 0, horizon_ = 0;
  OffcutsIn offcuts_ = OffcutsIn::anywhere;
  bool loose_ = false;
  std::uint64_t start_ = 0, section_ = 0;  ///< numbers of the ones at hand
  std::vector<std::size_t> sight_;
  std::vector<Chain> pieces_, lifted_;  ///< by sight
  std::vector<Found> found_;            ///< by sight
  std::vector<Rung> rungs_;
  std::vector<std::size_t> cursor_;
  Ladder ladder_;
  std::vector<Link> links_, arrivals_;  ///< gone on from; by place, the best that reaches it
  const Worth* ahead_ = nullptr;        ///< of a search: by length, what is left is worth at most
};

}  // namespace flitch::optimizer
