#pragma once
#include <cstdint>
#include <span>
#include <vector>

namespace flitch {

/// A rectangle of grid cells, a quarter inch a side: x and length along the board.
struct Cells {
  int x = 0, y = 0, length = 0, width = 0;
  [[nodiscard]] constexpr int right() const { return x + length; }
  [[nodiscard]] constexpr int top() const { return y + width; }
  [[nodiscard]] constexpr std::int64_t area() const {
    return static_cast<std::int64_t>(length) * width;
  }
  friend constexpr bool operator==(const Cells&, const Cells&) = default;
};

/// One face as cells that may lie in a clear cutting, and cells that may not.
class ClearFace {
 public:
  /// All clear. Sizes above zero.
  ClearFace(int length, int width);
  [[nodiscard]] int length() const { return length_; }
  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] bool clear(int x, int y) const { return cells_[index(x, y)] != 0; }
  /// Parts of the rectangle off the face are passed over.
  void bar(const Cells& where) { set(where, 0); }
  void free(const Cells& where) { set(where, 1); }

 private:
  [[nodiscard]] std::size_t index(int x, int y) const {
    return static_cast<std::size_t>(y) * static_cast<std::size_t>(length_) +
           static_cast<std::size_t>(x);
  }
  void set(const Cells& where, char value);
  int length_, width_;
  std::vector<char> cells_;
};

/// More cuttings than any grade asks for in one set.
inline constexpr int mostCuttings = 9;

/// A cutting is large enough when it is at least as wide and as long as one of these.
struct LeastCutting {
  int width = 0, length = 0;  ///< cells, above zero
};

/// How long a search may take, counted so that a run repeats exactly.
struct CuttingEffort {
  int decide = 2'000'000;  ///< changes looked at before the question of `enough` is left open
  int improve = 100'000;   ///< changes looked at for a better set than one that is enough
};

struct CuttingSet {
  std::vector<Cells> cuttings;  ///< in order of x, then y
  std::int64_t area = 0;        ///< cells in them
  std::int64_t bound = 0;       ///< no set has more; equal to area: the set is the best there is
};

/// The largest area of at most `count` clear rectangles that are large enough and do not overlap:
/// whole cells, anywhere, not bound to cuts from edge to edge. A set of at least `enough` cells is
/// looked for first; when there is none, `bound` comes out below `enough`, unless the effort ran
/// out. NP-hard in general; boards have few marks, so most searches end in milliseconds.
/// `count` from 0 to mostCuttings.
[[nodiscard]] CuttingSet bestCuttings(const ClearFace& face, std::span<const LeastCutting> least,
                                      int count, std::int64_t enough, CuttingEffort effort = {});

/// Clear rectangles, large enough, that no side of can be moved out. O(width² length).
[[nodiscard]] std::vector<Cells> largestClear(const ClearFace& face,
                                              std::span<const LeastCutting> least);

}  // namespace flitch
