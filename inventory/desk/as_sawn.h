#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch::desk {

/// A blank that came out too short.
struct CutShort {
  std::string mark;  ///< "C2"
  Length length;
};
/// An offcut as the maker measured it.
struct OffcutSize {
  Length length, width;
};
/// What went otherwise than planned on one board, its blanks apart.
struct Deviation {
  std::vector<CutShort> cutShort;
  std::optional<std::vector<OffcutSize>> offcuts;  ///< all that were kept; none: as planned
  [[nodiscard]] bool any() const { return !cutShort.empty() || offcuts; }
};

/// The cut tree as the board was really sawn. A blank cut short is an offcut of that length where
/// the shop keeps such a one, else waste. Offcuts lie inside what the plan leaves of the board
/// beside its blanks, each at the corner of the smallest remainder that holds it nearest the tag
/// end; other remainders are waste. Throws Refusal: no such blank, one not shorter than planned, an
/// offcut that no remainder holds. O(pieces²).
[[nodiscard]] Cutting asSawn(const Cutting& planned, const Deviation& deviation,
                             const ShopProfile& shop, Unit unit);

/// The same blanks at the same places from the tag end on another board; waste and offcuts take up
/// what differs. Throws Refusal where the board does not hold a blank, is of another species or
/// too thin. Marks are the maker's business: the wood is sawn.
[[nodiscard]] Cutting onBoard(const Cutting& planned, const Board& board,
                              const PlanRequest& request, Length tick);

}  // namespace flitch::desk
