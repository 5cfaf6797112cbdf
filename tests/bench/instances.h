#pragma once
#include <iosfwd>
#include <string>
#include <vector>

#include "optimizer/best_pattern.h"
#include "optimizer/problem.h"

namespace flitch::bench {

/// One published instance in the text format of tests/bench/data/README.md.
struct Instance {
  struct Piece {
    optimizer::Tick l = 0, w = 0;
    optimizer::Worth value = 0;
    std::int64_t least = 0;
    std::int64_t most = -1;  ///< -1: any number
  };
  std::string name;
  optimizer::Tick length = 0, width = 0;
  bool oneBoard = true;  ///< exactly one board, of which there is one copy
  bool oneDimensional = false;
  std::vector<Piece> pieces;
  std::vector<optimizer::Rect> defects;
};

/// Reads instances.txt or boards.txt of a set. Boards of the oak set carry no pieces: they get the
/// cutting bill CB1 of the set's README. Throws std::runtime_error with the line.
[[nodiscard]] std::vector<Instance> readSet(const std::string& folder);

/// The variant of the rules a known value belongs to.
struct Variant {
  int stages = 3;
  optimizer::FirstCut first = optimizer::FirstCut::any;
  bool trim = false;
  bool rotation = false;
  optimizer::Tick kerf = 0;
  friend bool operator==(const Variant&, const Variant&) = default;
};

struct Known {
  std::string instance;
  Variant variant;
  optimizer::Worth value = 0;
  std::string kind;    ///< optimal, best_known, lower_bound, upper_bound
  std::string source;  ///< where the value was published or computed
};

/// The rows of expected.csv with 2 or 3 stages, an unlimited number of copies and one board.
[[nodiscard]] std::vector<Known> readKnown(const std::string& file);

/// The instance as a problem of one stock, items in order (turned copies behind), values beside.
struct Case {
  optimizer::Problem problem;
  std::vector<optimizer::Priced> priced;
};
[[nodiscard]] Case makeCase(const Instance& instance, const Variant& variant);

/// Why single-board pricing cannot serve the instance; empty when it can.
[[nodiscard]] std::string unsupported(const Instance& instance);

}  // namespace flitch::bench
