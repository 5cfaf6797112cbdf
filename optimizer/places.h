#pragma once
#include <array>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::optimizer {

/// Consecutive places, both ends included.
struct Run {
  Tick from = 0, to = 0;
  friend constexpr bool operator==(const Run&, const Run&) = default;
};
using Runs = std::vector<Run>;  ///< rising, never touching

/// First place of the runs at or after `from`; none: -1. O(runs).
[[nodiscard]] Tick nextPlace(const Runs& runs, Tick from);

/// The places of [0, last] that none of `taken` covers. O(taken log taken).
[[nodiscard]] Runs complement(Runs taken, Tick last);
/// The places of either. O(runs log runs).
[[nodiscard]] Runs unite(Runs a, const Runs& b);
/// All that lies outside a profile, as rectangles over runs of equal columns.
[[nodiscard]] std::vector<Rect> outside(const Profile& profile);

/// Where items may lie on one board, seen along the first cut: u is divided first, v second.
/// Crosscut first: u = x.
class Places {
 public:
  Places(const Problem& problem, const Stock& stock, FirstCut first);

  FirstCut first;
  Tick length = 0, width = 0;  ///< along u and v
  Tick kerfU = 0, kerfV = 0;
  std::vector<Tick> itemLength, itemWidth;  ///< along u and v; 0: does not fit

  /// Lowest orientation in which the item may lie there; -1: none. O(zones).
  [[nodiscard]] int orientationAt(int item, Tick u, Tick v) const;
  /// Where along u it may start in some orientation, for one v. O(zones log zones).
  [[nodiscard]] Runs startsAt(int item, Tick v) const;
  [[nodiscard]] Rect turned(const Rect& onBoard) const;

 protected:
  /// Starts (u, v), all four limits included, that a mark forbids.
  struct Barred {
    Tick u0, u1, v0, v1;
  };
  [[nodiscard]] const std::array<std::vector<Barred>, orientations>& barred(int item) const {
    return barred_[static_cast<std::size_t>(item)];
  }

 private:
  void barStarts(const Problem& problem, const Stock& stock);
  std::vector<std::array<std::vector<Barred>, orientations>> barred_;  ///< for each item
};

}  // namespace flitch::optimizer
