#pragma once
#include "inventory/records/board.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

/// The board that a rectangle of `parent` becomes, in coordinates of its own (its tag end is toward
/// the parent's tag end). Marks and outline are clipped, faces stay as looked at as they were, warp
/// shrinks as thicknessOver() says, crook has gone into the outline. An end is as bought only where
/// the parent's was and nothing was trimmed from it. Wood, cost, feet and tag are for the caller.
/// Where a face of the parent has good zones and none reaches here, that face is marked unsound: a
/// zone that bars all outside it must not be lost with the zone.
/// Throws std::logic_error when `at` lies off the board.
[[nodiscard]] Board offcutOf(const Board& parent, const Rect& at);
/// True where the piece is what the parent's tag hangs on: no cut took the tag end off it, and it
/// is at least half as wide as the wood there.
[[nodiscard]] bool holdsTagEnd(const Board& parent, const Rect& at);
/// Adds what offcutOf() gave, its wood and feet filled in, to the book: with the parent's tag, if
/// it has one, where that still hangs on it, else with the next.
BoardId addRemainder(store::Writer& writer, const Board& parent, Board offcut);

/// The part of an outline inside `at`, moved so that its corner is the origin.
[[nodiscard]] Outline clipped(const Outline& outline, const Rect& at);

}  // namespace flitch::desk
