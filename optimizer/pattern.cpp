#include "optimizer/pattern.h"

#include <algorithm>
#include <string>

#include "optimizer/index.h"

namespace flitch::optimizer {
namespace {

/// True where nodes of this depth lie one behind the other along x.
bool alongX(const Pattern& pattern, int depth) {
  return (pattern.first == FirstCut::x) == (depth % 2 == 1);
}

struct Span {
  Tick from, to;
};
Span spanOf(const Rect& where, bool x) {
  return x ? Span{where.x, where.x + where.dx} : Span{where.y, where.y + where.dy};
}

bool overlaps(const Rect& a, const Rect& b) {
  return a.dx > 0 && a.dy > 0 && b.dx > 0 && b.dy > 0 && a.x < b.x + b.dx && b.x < a.x + a.dx &&
         a.y < b.y + b.dy && b.y < a.y + a.dy;
}

bool meetsLine(const Rect& zone, const Rect& piece, Tick y) {
  return zone.x < piece.x + piece.dx && piece.x < zone.x + zone.dx && zone.y <= y &&
         y <= zone.y + zone.dy;
}

bool insideProfile(const Profile& profile, const Rect& where) {
  if (where.x < 0 || where.x + where.dx > profile.length()) return false;
  for (Tick x = where.x; x < where.x + where.dx; ++x)
    if (profile.low[index(x)] > where.y || profile.high[index(x)] < where.y + where.dy)
      return false;
  return true;
}

/// Walks a pattern and collects what is broken.
class Inspector {
 public:
  Inspector(const Pattern& pattern, const Problem& problem, const Stock& stock)
      : pattern_(pattern), problem_(problem), stock_(stock) {}

  std::vector<std::string> run() {
    if (pattern_.first == FirstCut::any) say(0, "the pattern names no first cut");
    if (!pattern_.cells.empty() && !allows(problem_, stock_, pattern_.first))
      say(0, "the pattern is cut in the other order");
    Rect board{0, 0, stock_.profile.length(), stock_.profile.width()};
    std::size_t next = 0;
    children(board, 1, next, -1);
    if (next != pattern_.cells.size()) say(next, "depth jumps");
    for (const Laid& laid : stock_.fixed) fixedPiece(laid);
    return std::move(faults_);
  }

 private:
  void say(std::size_t cell, const std::string& what) {
    faults_.push_back("cell " + std::to_string(cell) + ": " + what);
  }

  /// Inspects the cells from `next` that are children, at `depth`, of `parent`.
  void children(const Rect& parent, int depth, std::size_t& next, int owner) {
    const bool x = alongX(pattern_, depth);
    const Tick kerf = x ? problem_.saw.kerfX : problem_.saw.kerfY;
    const Span room = spanOf(parent, x);
    Tick free = room.from;
    bool any = false;
    while (next < pattern_.cells.size() && pattern_.cells[next].depth == depth) {
      const std::size_t at = next++;
      const Cell& cell = pattern_.cells[at];
      const Span own = spanOf(cell.where, x);
      if (own.from >= own.to) say(at, "is empty");
      if (own.from < free)
        say(at, any ? "lies closer than a kerf to its neighbour" : "leaves its parent");
      if (own.to > room.to) say(at, "leaves its parent");
      free = own.to + kerf;
      any = true;
      across(cell, at, parent, depth, x);
      if (cell.item == Cell::divided) {
        if (depth >= problem_.saw.stages) say(at, "is divided past the last stage");
        children(cell.where, depth + 1, next, static_cast<int>(at));
      } else {
        leaf(cell, at, depth);
      }
    }
    if (!any && owner >= 0) say(index(owner), "is divided into nothing");
  }

  /// The extent across the direction of division: the parent's, unless a piece may be trimmed.
  void across(const Cell& cell, std::size_t at, const Rect& parent, int depth, bool x) {
    const Span own = spanOf(cell.where, !x), room = spanOf(parent, !x);
    const bool trimmed = problem_.saw.trim && cell.item >= 0 && depth == problem_.saw.stages;
    if (trimmed ? own.from < room.from || own.to > room.to
                : own.from != room.from || own.to != room.to)
      say(at, "has not its parent's extent across");
  }

  void leaf(const Cell& cell, std::size_t at, int depth) {
    if (!insideProfile(stock_.profile, cell.where)) say(at, "leaves the profile");
    if (cell.item == Cell::offcut) {
      if (cell.where.dx < stock_.offcuts.leastLength || cell.where.dy < stock_.offcuts.leastWidth)
        say(at, "is too small an offcut");
      for (const auto& zones : stock_.zones)
        for (const Zone& zone : zones)
          if (has(zone.barred, stock_.offcuts.cls) && overlaps(zone.where, cell.where))
            say(at, "an offcut on a zone that bars it");
      return;
    }
    if (cell.item < 0 || index(cell.item) >= problem_.items.size()) return say(at, "no such item");
    if (cell.orientation < 0 || cell.orientation >= orientations)
      return say(at, "no such orientation");
    const Item& item = problem_.items[index(cell.item)];
    if (depth != problem_.saw.stages) say(at, "a piece above the last stage");
    if (cell.where.dx != item.length || cell.where.dy != item.width) say(at, "not the item's size");
    const int cls = stock_.itemClass[index(cell.item)];
    if (cls == noClass) say(at, "the item does not fit this stock");
    for (const Zone& zone : stock_.zones[index(cell.orientation)]) {
      if (has(zone.barred, cls) && overlaps(zone.where, cell.where)) say(at, "on a barred zone");
      if (has(zone.nearEdge, cls) && meetsLine(zone.where, cell.where, cell.where.y))
        say(at, "near edge on a barred zone");
      if (has(zone.farEdge, cls) && meetsLine(zone.where, cell.where, cell.where.y + cell.where.dy))
        say(at, "far edge on a barred zone");
    }
  }

  void fixedPiece(const Laid& laid) {
    for (const Cell& cell : pattern_.cells)
      if (cell.item == laid.item && cell.where == laid.where &&
          cell.orientation == laid.orientation)
        return;
    faults_.push_back("a fixed piece is missing");
  }

  const Pattern& pattern_;
  const Problem& problem_;
  const Stock& stock_;
  std::vector<std::string> faults_;
};

}  // namespace

Worth cost(const Pattern& pattern, const Problem& problem, const Stock& stock) {
  Worth sum = stock.cost;
  for (const Cell& cell : pattern.cells) {
    sum += alongX(pattern, cell.depth) ? problem.saw.crosscut : problem.saw.rip;
    if (cell.item >= 0) sum += problem.items[index(cell.item)].extra;
    if (cell.item == Cell::offcut) sum -= stock.offcuts.worth(cell.where.dx, cell.where.dy);
  }
  return sum;
}

std::vector<std::int64_t> supplies(const Pattern& pattern, const Problem& problem) {
  std::vector<std::int64_t> units(problem.needs.size(), 0);
  for (const Cell& cell : pattern.cells)
    if (cell.item >= 0) {
      const Item& item = problem.items[index(cell.item)];
      units[index(item.need)] += item.supplies;
    }
  return units;
}

void dropEmpty(Pattern& pattern) {
  // From the back: a divided node whose successor is no deeper holds nothing.
  std::vector<Cell>& cells = pattern.cells;
  for (std::size_t c = cells.size(); c-- > 0;)
    if (cells[c].item == Cell::divided &&
        (c + 1 == cells.size() || cells[c + 1].depth <= cells[c].depth))
      cells.erase(cells.begin() + static_cast<std::ptrdiff_t>(c));
}

std::vector<std::string> faults(const Pattern& pattern, const Problem& problem,
                                const Stock& stock) {
  return Inspector(pattern, problem, stock).run();
}

}  // namespace flitch::optimizer
