#pragma once
#include <string>
#include <vector>

#include "optimizer/best_pattern.h"
#include "tests/bench/instances.h"

namespace flitch::bench {

/// An instance as a problem of one stock. Each kind of piece is a need and one item, two where it
/// may be turned. A value is the price of a piece not supplied; a board of a cutting stock costs
/// `board`, a piece short of one twice that. One-dimensional sets are cut in two stages, crosscut
/// first: then a section is a piece.
struct Case {
  static constexpr optimizer::Worth board = 10000;

  optimizer::Problem problem;
  std::vector<optimizer::Priced> priced;  ///< values and limits of the items
  bool limited = false;                   ///< some kinds of piece are
  bool capsEachItem = true;               ///< the limits say all: no limited kind has two items
};
[[nodiscard]] Case makeCase(const Instance& instance, const Variant& variant);

/// What was found for an instance, in the units of its known values. Value and bound are equal when
/// it is proven. Pieces short of a cutting stock count as two boards each.
struct Outcome {
  optimizer::Worth value = 0, bound = 0;
  bool timeUp = false;
  double seconds = 0;
  std::vector<std::string> faults;  ///< of the plan; empty
  [[nodiscard]] const char* status() const {
    return value == bound ? "optimal" : timeUp ? "timeup" : "feasible";
  }
};

struct Budget {
  double seconds = 60;
  std::uint64_t effort = 0;  ///< as Limits::effort; 0: no limit
  int threads = 1;
};
/// Solves an instance: bars by cutBars() with counted work alone, a single board by the programme
/// for one board, and whatever that leaves open and all else by solve().
[[nodiscard]] Outcome run(const Instance& instance, const Variant& variant, const Budget& budget);

}  // namespace flitch::bench
