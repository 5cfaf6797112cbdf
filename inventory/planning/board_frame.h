#pragma once
#include <vector>

#include "inventory/records/blank.h"
#include "inventory/records/cut_plan.h"
#include "optimizer/problem.h"

namespace flitch::planning {

/// Whole ticks at or below, at or above a length; it may be below zero.
[[nodiscard]] optimizer::Tick ticksDown(Length length, Length tick);
[[nodiscard]] optimizer::Tick ticksUp(Length length, Length tick);

/// The usable cells of a board and where they lie on it, in ticks: wholly inside both lying
/// outlines, reference edge and the trim of ends as bought off.
struct UsableWood {
  optimizer::Profile profile;
  optimizer::Rect origin;  ///< x, y of cell (0, 0) on the board; dx, dy the profile's extent
};
[[nodiscard]] UsableWood usableWood(const Board& board, const ShopProfile& shop, Length tick);

/// What the marks, faces and kinks of a board bar to the blanks of `parts`.
struct Barring {
  std::array<std::vector<optimizer::Zone>, optimizer::orientations> zones;
  std::vector<int> partClass;  ///< one for each part; noClass: it cannot come from this board
  int offcutClass = optimizer::noClass;
};

/// Parts that ask the same of faces and edges and are as sensitive to the board's kink share a
/// class; the last class is that of offcuts. `blanks` are those of `parts`, in their order; zones
/// are in cells of `wood`, every mark rounded outward and grown by the shop's margin for faces.
/// Only species, thickness once flat, and faces decide the class, not the blank's length or width.
/// `offShow`: for each part whether it keeps off wood marked for show; empty: none does.
/// Throws Refusal for more than 63 different classes or a demand the shop's table does not have.
[[nodiscard]] Barring barring(const Board& board, const UsableWood& wood,
                              const std::vector<const Part*>& parts,
                              const std::vector<Blank>& blanks, const ShopProfile& shop,
                              bool trustUnseen, Length tick, const std::vector<bool>& offShow = {});

}  // namespace flitch::planning
