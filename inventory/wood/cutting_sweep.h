#pragma once
#include <array>
#include <cstdint>
#include <limits>
#include <map>
#include <string>
#include <vector>

#include "inventory/wood/clear_cuttings.h"

namespace flitch {

/// The shortest a cutting of each width may be.
class LeastLengths {
 public:
  static constexpr int never = std::numeric_limits<int>::max() / 2;
  LeastLengths(std::span<const LeastCutting> least, int width);
  [[nodiscard]] int at(int width) const { return byWidth_[static_cast<std::size_t>(width)]; }

 private:
  std::vector<int> byWidth_;
};

[[nodiscard]] std::vector<Cells> largestClear(const ClearFace& face, const LeastLengths& least);

/// The exact search behind bestCuttings(): walks along the board from column to column and keeps,
/// for each way the board may be open there (which cuttings are running, between which rows), the
/// best area behind. What makes it small:
///
/// In a best set every cutting can be taken to be as large as the others let it be, and every line
/// along which cuttings meet can be slid (the area changes evenly) until a side on it touches a
/// mark or an edge, or a cutting beside it reaches its least size. So lines lie at the edges of
/// marks, or at sums of least sizes from one, and
/// - a cutting opens only where a mark, an edge or a cutting that closes there touches its side,
///   closes likewise, and has met something on both long sides;
/// - where no mark begins or ends, cuttings change only if one of them has exactly its least
///   length: one that closes, or one that opens and is bound to close there (`fixed`).
/// Branches whose area, with all that the columns ahead can still give, is no better than the
/// floor are dropped.
class CuttingSweep {
 public:
  /// `reach`: how many least sizes a line may lie from a mark. `count` of them lose no best set.
  CuttingSweep(const ClearFace& face, std::span<const LeastCutting> least, int count, int reach);

  struct Found {
    std::vector<Cells> cuttings;
    std::int64_t area = 0;  ///< zero: none above the floor
    bool complete = true;   ///< nothing was left out: there is no better one above the floor
  };
  /// The best set of more than `floor` cells. Looks at about `effort` changes at most (the column
  /// under way is finished state by state); with a `beam`, at so many states a column.
  [[nodiscard]] Found run(std::int64_t floor, int effort, int beam = 0);
  /// No set has more.
  [[nodiscard]] std::int64_t bound() const { return bound(0, count_); }

 private:
  /// A cutting that is running.
  struct Strip {
    std::int16_t y0 = 0, y1 = 0, start = 0;
    std::int16_t ripe = 0;           ///< column from which it is long enough; zero once passed
    bool fixed = false;              ///< closes at `ripe`
    bool low = false, high = false;  ///< that side has met something
  };
  struct State {
    std::array<Strip, mostCuttings> strips;
    int open = 0;   ///< strips in use, in order of y
    int begun = 0;  ///< cuttings, running and closed
    std::int64_t area = 0;
    int behind = -1;  ///< last closed cutting, in closed_
  };
  struct Closed {
    int before;
    Cells where;
  };
  /// A change of strips at one column, being chosen.
  struct Change {
    State state;  ///< what stays and what has been opened
    std::array<Strip, mostCuttings> closed;
    int closings = 0, openings = 0;
    bool exact = false;  ///< one that takes part has exactly its least length
  };
  using Bucket = std::map<std::string, std::vector<State>>;

  void findLines(int reach);
  void findBounds();
  [[nodiscard]] std::int64_t bound(int x, int more) const;
  [[nodiscard]] std::int64_t hope(int x, const State& state) const;
  [[nodiscard]] int runEnd(int x, int y) const;
  [[nodiscard]] int runEnd(int x, int y0, int y1) const;
  [[nodiscard]] std::vector<State> taken(Bucket& bucket, int x, int beam);
  void closeFrom(int x, const State& state, int strip, Change& change);
  void openFrom(int x, int y, Change& change);
  void settle(int x, const Change& change);
  void walk(int x, State state);
  void keep(int x, const State& state);

  const ClearFace& face_;
  LeastLengths least_;
  std::vector<LeastCutting> sizes_;
  int count_;
  std::vector<int> runs_;             ///< per row and column, where clear cells end
  std::vector<char> marked_, lines_;  ///< per column: a mark begins or ends; cuttings may change
  std::vector<char> rows_;            ///< per row: a side may lie there
  std::vector<std::array<std::int64_t, mostCuttings + 1>> bounds_;  ///< per column and count
  std::map<int, Bucket> ahead_;
  std::vector<Closed> closed_;
  std::int64_t work_ = 0;  ///< changes that may still be looked at
  std::int64_t best_ = 0;
  int bestBehind_ = -1;
};

}  // namespace flitch
