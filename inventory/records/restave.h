#pragma once
#include "inventory/records/cut_plan.h"

namespace flitch {

/// A stave of a copy: its part's line, the copy, its place in the panel.
struct StavePlace {
  int line = 0, copy = 0, slot = 0;
};

/// The plan with the stave at place `to` of its copy, those between moved up one. Sections keep
/// their places. Nothing changes where either is no place of a stave. Not judged: a stave that goes
/// into another section may make it too wide; check() tells. O(layups).
[[nodiscard]] CutPlan staveMoved(CutPlan plan, const StavePlace& stave, int to);

enum class StaveTurn {
  over,      ///< its other face up
  endForEnd  ///< its other edge becomes the front one
};
/// The plan with the stave turned. Not judged: that face or edge may not be what the part asks.
/// O(layups).
[[nodiscard]] CutPlan staveTurned(CutPlan plan, const StavePlace& stave, StaveTurn turn);

}  // namespace flitch
