#pragma once
#include <string>

#include "inventory/exchange/columns.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// A board measured again: its thickness, the outlines of its faces, its warp and how steeply its
/// grain runs out, as typed. An
/// outline is `0:0-14; 48:1/2-15; end:0-16` (place along: near edge - far edge), or one or two
/// figures for a straight near edge: the width, or `8 3/4 - 8 1/4` from tag end to far end.
struct ShapeTyped {
  std::string thickness, outlineA, outlineB, bow, bentAt, crook, cup, twist, grain;
  Edge hollow = Edge::near;
  friend bool operator==(const ShapeTyped&, const ShapeTyped&) = default;
};
/// How the board stands, so written that it is read back the same where figures are whole 64ths.
[[nodiscard]] ShapeTyped shapeOf(const Board& board, Unit unit);

/// The board as it would be. Read as the tally reads it; throws one Refusal with every complaint:
/// crook in the warp of a board whose near edge is bent already, faces of two lengths, marks that
/// would lie off the board.
[[nodiscard]] Board reshaped(const Board& board, const ShapeTyped& typed,
                             const exchange::ReadingRules& rules);

/// Keeps it, its measured feet counted anew; what was billed stays. Its wood goes from its account
/// to `remeasured` and comes back as measured, at the same cost.
EntryId reshape(store::Book& book, Board board, const store::Hand& hand);

}  // namespace flitch::desk
