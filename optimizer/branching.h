#pragma once
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

#include "optimizer/bound.h"
#include "optimizer/rounding.h"

namespace flitch::optimizer {

/// Branch and price for a better bound. The nodes of the tree say how many boards are opened, of
/// each stock and of groups of stocks, how often a recipe is made and how many units of a need a
/// single board supplies. Only the last changes what a board is worth at some multipliers, and only
/// that board, so nearly every pricing serves the whole tree. Needs are rounded one by one
/// (rounding.h); a board counts in such a row by the units it supplies, which its pricing takes
/// into account exactly (unit_worths.h). Bounds are Lagrangian and exact at every node: after any
/// number of rounds, whatever CLP says. Barnhart, Johnson, Nemhauser, Savelsbergh and Vance 1998
/// for the method.
class Branching {
 public:
  /// Begins where `root` has come to its end. The problem outlives it.
  Branching(const Problem& problem, const Multipliers& root);
  ~Branching();
  Branching(Branching&&) noexcept;
  Branching(const Branching&) = delete;
  Branching& operator=(Branching&&) = delete;
  Branching& operator=(const Branching&) = delete;

  /// Works on the node with the lowest bound and divides it. Ways of cutting that pay are learned
  /// by `known`. Halted: bounds so far.
  void step(Multipliers& known, Pricers& pricers, Worth cheapest, const Halt& halt, Filling& spent);
  /// No plan costs less than this, or it costs no less than the last `cheapest`.
  [[nodiscard]] Worth bound() const;
  /// No node can be divided further, or none is open.
  [[nodiscard]] bool ended() const;

 private:
  class Tree;
  std::unique_ptr<Tree> tree_;
};

}  // namespace flitch::optimizer
