#pragma once
#include <string>
#include <vector>

#include "optimizer/problem.h"

namespace flitch::bench {

/// What is asked of an instance.
enum class Goal {
  mostValue,     ///< cut what is worth most from the boards there are
  fewestBoards,  ///< cut everything from as few boards as possible
  fits           ///< can everything be cut from the one board? 1 or 0
};

/// One published instance in the text format of tests/bench/data/README.md. A bar of a
/// one-dimensional set is a board of width 1.
struct Instance {
  static constexpr std::int64_t any = -1;  ///< any number of pieces or boards

  struct Piece {
    optimizer::Tick l = 0, w = 0;
    optimizer::Worth value = 0;
    std::int64_t least = 0;
    std::int64_t most = any;
  };
  struct Defect {
    optimizer::Rect where;
    std::string type;
    bool onBack = false;
  };

  std::string name, grade;
  optimizer::Tick length = 0, width = 0;
  std::int64_t copies = 1;
  bool oneDimensional = false;
  std::vector<Piece> pieces;
  std::vector<Defect> defects;

  [[nodiscard]] Goal goal() const;
};

/// Reads instances.txt or boards.txt of a set. Boards of the oak set carry no pieces: they get the
/// cutting bill CB1 of the set's README. Throws std::runtime_error with the line.
[[nodiscard]] std::vector<Instance> readSet(const std::string& folder);

/// The variant of the rules a value belongs to.
struct Variant {
  static constexpr int unlimited = 1000;  ///< stages

  int stages = 3;  ///< 2, 3 or unlimited
  optimizer::FirstCut first = optimizer::FirstCut::any;
  bool trim = false;
  bool rotation = false;
  optimizer::Tick kerf = 0;
  friend bool operator==(const Variant&, const Variant&) = default;
};
/// Every plan under the rules `inner` obeys the rules `outer` too. Fewer stages are within more of
/// them with the same first cut, trimmed or not (the further cut is the trim), and untrimmed or
/// trimmed alike within more of them with the other first cut (which then does nothing).
[[nodiscard]] bool holds(const Variant& outer, const Variant& inner);

/// A row of expected.csv.
struct Known {
  std::string instance;
  Variant variant;
  bool anyVariant = false;  ///< one-dimensional: the variants do not differ
  optimizer::Worth value = 0;
  std::string kind;    ///< optimal, best_known, lower_bound, upper_bound
  std::string source;  ///< where the value was published or computed
};

/// All rows of expected.csv. Throws std::runtime_error with the line.
[[nodiscard]] std::vector<Known> readKnown(const std::string& file);

}  // namespace flitch::bench
