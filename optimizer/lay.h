#pragma once
#include <vector>

#include "optimizer/places.h"

namespace flitch::optimizer {

/// What the strips of one width see of a board: where along u each of its items may start, for
/// every v at which the strip may start.
struct StripKind {
  /// Strips that start at rows of one view see the same.
  struct View {
    std::vector<Runs> starts;  ///< for each of `items`
    Runs clear;                ///< cells along u free of marks that bar offcuts, over all rows
    int like = -1;             ///< an earlier view that differs in nothing from `likeFrom` on
    Tick likeFrom = 0;
    bool apart = true;  ///< no place of an item takes a cell that is not clear
    [[nodiscard]] bool same(const View& o) const { return starts == o.starts && clear == o.clear; }
  };
  Tick width = 0;
  std::vector<int> items;
  std::vector<View> views;
  std::vector<int> viewAt;  ///< for each start row v, index into views
  /// Worth of an offcut in the strip by its extent along u; empty: the strip is too narrow for one.
  std::vector<Worth> offcutWorth;
};

/// The view of a kind changes between the rows `row` and `row` + 1.
struct ViewChange {
  Tick row = 0;
  int kind = 0;
  int below = 0, above = 0;  ///< views
};

/// Rows that see the same cells barred to offcuts.
struct Band {
  Tick from = 0, to = 0;  ///< `to` is the first row that does not belong to it
  Runs clear;             ///< along u
};

/// All of one board that does not depend on values, so that it serves any number of pricings.
class Lay : public Places {
 public:
  Lay(const Problem& problem, const Stock& stock, FirstCut first);

  Worth cutU = 0, cutV = 0;
  std::vector<StripKind> kinds;  ///< rising in width
  std::vector<Rect> hard;        ///< cells barred to offcuts, as rectangles with x = u, y = v
  std::vector<Rect> marks;  ///< everything that makes places differ: outline and zones, likewise
  std::vector<Band> bands;  ///< rising, all rows
  std::vector<ViewChange> viewChanges;  ///< by row + width of the kind, falling
  std::vector<Worth> wholeOffcut;       ///< worth of an offcut over all rows, by extent along u
  std::vector<Tick> offcutSteps;  ///< extents of an offcut along v at which its rate steps, rising
  bool plain = false;             ///< a rectangle without any zone

  /// Back to the board's own axes.
  [[nodiscard]] Rect onBoard(Tick u, Tick v, Tick du, Tick dv) const;
  [[nodiscard]] Worth offcutWorth(Tick du, Tick dv) const;
  /// No offcut is worth more than its cells times this, in 2^-fraction.
  [[nodiscard]] Worth cellWorth(int fraction) const;
  /// Least extents of an offcut worth anything; above the board's size when none is.
  [[nodiscard]] Tick leastU() const { return leastU_; }
  [[nodiscard]] Tick leastV() const { return leastV_; }
  [[nodiscard]] Runs clearAlong(Tick v, Tick dv) const;  ///< free of hard cells, rows v to v+dv

 private:
  void findMarks(const Stock& stock);
  /// `anywhere`: pieces may be narrower than the strip and lie anywhere across it.
  void addKind(Tick width, std::vector<int> items, bool anywhere);
  [[nodiscard]] bool liesApart(const StripKind& kind, const StripKind::View& view) const;
  void findBands();
  void findChanges();

  const KeepRule* rule_;
  Tick leastU_ = 0, leastV_ = 0;
};

}  // namespace flitch::optimizer
