#pragma once
#include <array>
#include <cstdint>
#include <vector>

namespace flitch::optimizer {

/// A whole grid step: position or size. x along the board, y across.
using Tick = std::int32_t;
/// Money in ten-thousandths of a unit, or the value of a published instance.
using Worth = std::int64_t;
/// Bit c set: the class c is in the set. At most 64 classes.
using ClassSet = std::uint64_t;

inline constexpr int noClass = -1;
[[nodiscard]] constexpr bool has(ClassSet set, int cls) {
  return cls != noClass && ((set >> cls) & 1U) != 0;
}

struct Rect {
  Tick x = 0, y = 0, dx = 0, dy = 0;
  friend constexpr bool operator==(const Rect&, const Rect&) = default;
};

/// How a piece lies on its board. A blank may be turned over lengthwise (face B up) and end for end
/// (its front edge at the board's far edge); its grain never turns.
/// Index = 2 x (face B up) + (front edge at the far edge).
inline constexpr int orientations = 4;

/// A place that some classes may not touch, for one orientation.
struct Zone {
  Rect where;
  ClassSet barred = 0;  ///< pieces of these classes may not overlap it
  ClassSet nearEdge =
      0;  ///< their side at low y may not meet it: 0 < common length, where.y <= y <= where.y+dy
  ClassSet farEdge = 0;  ///< likewise their side at high y
  friend bool operator==(const Zone&, const Zone&) = default;
};

/// Usable cells: column x (0 <= x < low.size()) offers rows low[x] <= y < high[x].
/// low[x] >= high[x]: none. End trim, reference edge and all outside the outline are off already.
struct Profile {
  std::vector<Tick> low, high;
  [[nodiscard]] static Profile rectangle(Tick length, Tick width);
  [[nodiscard]] Tick length() const { return static_cast<Tick>(low.size()); }
  [[nodiscard]] Tick width() const;  ///< greatest high
  friend bool operator==(const Profile&, const Profile&) = default;
};

/// Offcuts worth keeping. Worth of one of l x w cells: floor(rate l w / 2^30) with the rate of the
/// longest band whose `from` is at most l; zero when l < leastLength or w < leastWidth.
struct KeepRule {
  struct Band {
    Tick from = 0;
    std::int64_t rate = 0;
    friend bool operator==(const Band&, const Band&) = default;
  };
  Tick leastLength = 0, leastWidth = 0;
  std::vector<Band> bands;  ///< rising in from; empty: offcuts are worth nothing
  int cls = noClass;        ///< zones that bar this class bar offcuts; noClass: none does
  [[nodiscard]] Worth worth(Tick l, Tick w) const;
  friend bool operator==(const KeepRule&, const KeepRule&) = default;
};

/// A rectangle already laid by hand: the cut tree must contain it, all else keeps clear of it.
struct Laid {
  Rect where;
  int item = 0;
  int orientation = 0;
  friend bool operator==(const Laid&, const Laid&) = default;
};

enum class FirstCut { x, y, any };  ///< x: crosscut first; y: rip first; any: the better

/// One board, or `copies` equal ones.
struct Stock {
  int copies = 1;
  Worth cost = 0;  ///< of opening one: landed, pulling, squaring
  Profile profile;
  std::array<std::vector<Zone>, orientations> zones;
  std::vector<int> itemClass;  ///< one for each item of the problem; noClass: does not fit
  KeepRule offcuts;
  int least = 0;  ///< copies that must be opened
  std::vector<Laid> fixed;
  /// Narrows the saw's: stock that is part of a board whose first cuts are made.
  FirstCut first = FirstCut::any;
};

/// Something wanted: pieces, or ticks of stave width.
struct Need {
  std::int64_t amount = 0;  ///< 0 for what recipes use; below it where some is left over already
  Worth shortage = 0;       ///< price of one unit not supplied
};

/// A rectangle that may be cut, any number of times on a board as long as its need still wants it.
struct Item {
  Tick length = 0, width = 0;
  int need = 0;
  std::int64_t supplies = 1;  ///< units of its need
  Worth extra = 0;            ///< cost of one beside its cuts (a resaw); may be negative
};

struct Supply {
  int need = 0;
  std::int64_t amount = 0;
};
/// A way to make one unit of a need from others: a laminate from laminae, a panel from stave width.
/// What it uses is wanted for it alone.
struct Recipe {
  Worth cost = 0;            ///< of one making, cuts and boards apart
  std::vector<Supply> uses;  ///< of needs whose own amount is 0
  int makes = 0;             ///< the need that gains a unit
};

/// The cutting rules. The product uses the defaults; the rest serves published instances.
struct Saw {
  Tick kerfX = 0;      ///< lost between neighbours along x (crosscut)
  Tick kerfY = 0;      ///< lost between neighbours along y (rip)
  Worth crosscut = 0;  ///< cost of a cut across (nodes divided along x)
  Worth rip = 0;       ///< cost of a cut along
  int stages = 3;      ///< 2 or 3
  FirstCut first = FirstCut::any;
  bool trim = false;  ///< nonexact: one further cut on either side of a piece
};

struct Problem {
  Saw saw;
  std::vector<Stock> stock;
  std::vector<Need> needs;
  std::vector<Item> items;
  std::vector<Recipe> recipes;
};

/// Whether stock may be cut that way first.
[[nodiscard]] bool allows(const Problem& problem, const Stock& stock, FirstCut first);

/// Throws std::invalid_argument naming the field and index: sizes not above zero, indices out of
/// range, classes past 63, itemClass of the wrong length, needs below zero, a need that two recipes
/// use or that is used and wanted or made as well, stock that may be cut in no order, a copy of
/// stock that could cost or earn past 2^52, sums that could pass 2^62.
void validate(const Problem& problem);

}  // namespace flitch::optimizer
