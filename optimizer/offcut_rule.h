#pragma once
#include <vector>

#include "optimizer/lay.h"
#include "optimizer/pattern.h"

namespace flitch::optimizer {

/// Where a plan may cut for the sake of an offcut. Pieces lie anywhere; an offcut ends where
/// something ends anyway, as a maker would cut it:
/// - at the end of the board, section or strip it lies in, just before cells barred to offcuts (or
///   up to a kerf short of them), or a kerf before what begins just behind a mark or as far on as
///   it can: a section at a place of `fresh` or `late`, rows at one of `changes` or `lateRows`, a
///   piece at the first of its possible starts;
/// - a section with an offcut in it begins at the board's end, where its neighbour ends, or at a
///   place of `fresh`, and is as long as an item that fits the board, or ends at one of `edges`.
/// All lists follow from board and items alone, whatever the values; rising.
struct OffcutRule {
  explicit OffcutRule(const Lay& lay);

  /// A section so may hold offcuts (where it begins is not looked at).
  [[nodiscard]] bool allows(Tick from, Tick to) const;

  bool keeps = false;          ///< offcuts can be worth something at all
  std::vector<Tick> lengths;   ///< of the items that fit, along u
  std::vector<Tick> edges;     ///< the board's end along u, and where barred cells begin
  std::vector<Tick> fresh;     ///< along u, behind marks and barred cells
  std::vector<Tick> changes;   ///< rows at which the view of a kind of strip changes
  std::vector<Tick> late;      ///< along u, at which a section of one item's length ends at an edge
  std::vector<Tick> lateRows;  ///< at which a strip of some kind ends at the board's side
  Runs whole;                  ///< columns that one offcut may take over all rows
};

/// The pattern without the offcuts that the rule does not allow, and without nodes left empty.
/// `lay`: the board along the pattern's first cut.
[[nodiscard]] Pattern keptToRule(const Pattern& pattern, const Lay& lay);

}  // namespace flitch::optimizer
