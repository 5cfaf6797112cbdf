#include "inventory/wood/grade_limits.h"

#include <algorithm>
#include <numeric>

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// A count of quarter inches: `2 3/4 in`.
std::string inchesText(std::int64_t quarters) {
  return text(Length::sixtyFourths(16 * quarters), LengthStyle::inches) + " in";
}

bool onFace(const GradeMark& mark, int face) { return mark.face[static_cast<std::size_t>(face)]; }

bool touch(const Cells& a, const Cells& b) {
  return a.x <= b.right() && b.x <= a.right() && a.y <= b.top() && b.y <= a.top();
}

/// Splits on a face; marks that touch are one.
std::vector<std::vector<Cells>> splitsOf(const GradeBoard& board, int face) {
  std::vector<Cells> left;
  for (const GradeMark& mark : board.marks) {
    if (onFace(mark, face) && mark.kind == Blemish::split) left.push_back(mark.where);
  }
  std::vector<std::vector<Cells>> groups;
  while (!left.empty()) {
    std::vector<Cells>& group = groups.emplace_back(1, left.back());
    left.pop_back();
    for (std::size_t i = 0; i < group.size(); ++i) {
      for (std::size_t j = left.size(); j-- > 0;) {
        if (!touch(group[i], left[j])) continue;
        group.push_back(left[j]);
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(j));
      }
    }
  }
  return groups;
}

std::string pithPast(const GradeBoard& board, int face, int surfaceMeasure) {
  int along = 0;
  for (const GradeMark& mark : board.marks) {
    if (onFace(mark, face) && mark.kind == Blemish::pith) along += mark.where.length;
  }
  const int most = fasLimits(surfaceMeasure).pith * cellsPerInch;
  return along > most ? "pith " + inchesText(along) + ", over " + inchesText(most) : "";
}

bool holeLike(Blemish kind) {
  return kind == Blemish::soundKnot || kind == Blemish::unsoundKnot || kind == Blemish::hole ||
         kind == Blemish::barkPocket;
}

std::string knotPast(const GradeBoard& board, int face, int surfaceMeasure) {
  int twice = 0;  // twice the average diameter
  for (const GradeMark& mark : board.marks) {
    if (onFace(mark, face) && holeLike(mark.kind))
      twice = std::max(twice, mark.where.length + mark.where.width);
  }
  const int thirds = fasLimits(surfaceMeasure).knotThirds;
  if (3 * twice <= 2 * thirds * cellsPerInch) return "";
  return "knot " + inchesText(twice / 2) + ", over " + std::to_string(thirds) + "/3 in";
}

std::string wanePast(const GradeBoard& board, int face) {
  std::array<std::vector<char>, 2> edges;
  for (auto& edge : edges) edge.assign(static_cast<std::size_t>(board.length), 0);
  for (const GradeMark& mark : board.marks) {
    if (!onFace(mark, face) || mark.kind != Blemish::wane) continue;
    const bool far = 2 * mark.where.y + mark.where.width > board.width;
    for (int x = std::max(0, mark.where.x); x < std::min(board.length, mark.where.right()); ++x)
      edges[far ? 1 : 0][static_cast<std::size_t>(x)] = 1;
  }
  for (const auto& edge : edges) {
    const auto along = std::accumulate(edge.begin(), edge.end(), std::int64_t{0});
    if (2 * along > board.length) return "wane " + inchesText(along) + ", over half the length";
  }
  return "";
}

/// End splits against their limit when what is over whole feet is cut off at one end.
std::string splitPast(const GradeBoard& board, const std::vector<std::vector<Cells>>& splits,
                      bool offTagEnd, int most) {
  const int over = board.length % cellsPerFoot;
  int together = 0;
  bool shortOnes = true;
  for (const std::vector<Cells>& marks : splits) {
    int from = board.length, to = 0;
    for (const Cells& one : marks) {
      from = std::min(from, one.x);
      to = std::max(to, one.right());
    }
    if (from > 0 && to < board.length) continue;
    for (const Cells& one : marks) {
      // A mark of one cell's width says nothing of the direction.
      if (one.length > cellsPerFoot && (one.width - 1) * 12 > one.length)
        return "a split runs out of line";
    }
    const bool there = offTagEnd ? from <= 0 : to >= board.length;
    const int reach = std::max(0, to - from - (there ? over : 0));
    shortOnes = shortOnes && reach <= cellsPerFoot;
    together += reach;
  }
  if (shortOnes || together <= most) return "";
  return "end splits " + inchesText(together) + ", over " + inchesText(most);
}

std::string splitPast(const GradeBoard& board, int face, int surfaceMeasure) {
  const int most = fasLimits(surfaceMeasure).splits * cellsPerInch;
  const std::vector<std::vector<Cells>> splits = splitsOf(board, face);
  const std::string past = splitPast(board, splits, true, most);
  return past.empty() ? past : splitPast(board, splits, false, most);
}

/// Wood that is there and bad; wane and splits have limits of their own.
bool unsound(Blemish kind) {
  switch (kind) {
    case Blemish::unsoundKnot:
    case Blemish::hole:
    case Blemish::barkPocket:
    case Blemish::pith:
    case Blemish::other: return true;
    default: return false;
  }
}

std::string firstFootPast(const GradeBoard& board, int face) {
  const int foot = std::min(cellsPerFoot, board.length);
  for (const int from : {0, board.length - foot}) {
    ClearFace end(foot, board.width);
    for (const GradeMark& mark : board.marks) {
      if (!onFace(mark, face) || !unsound(mark.kind)) continue;
      end.bar({mark.where.x - from, mark.where.y, mark.where.length, mark.where.width});
    }
    int wood = 0, bad = 0;
    for (int x = 0; x < foot; ++x) {
      const auto column = static_cast<std::size_t>(x + from);
      for (int y = board.near[column]; y < board.far[column]; ++y) {
        ++wood;
        bad += end.clear(x, y) ? 0 : 1;
      }
    }
    if (4 * bad > wood) return "over a quarter of the first foot is unsound";
  }
  return "";
}

}  // namespace

std::string brokenLimit(const GradeBoard& board, int face, int surfaceMeasure) {
  for (std::string broken :
       {pithPast(board, face, surfaceMeasure), knotPast(board, face, surfaceMeasure),
        brokenEdge(board, face, surfaceMeasure), firstFootPast(board, face)}) {
    if (!broken.empty()) return broken;
  }
  return "";
}

std::string brokenEdge(const GradeBoard& board, int face, int surfaceMeasure) {
  std::string wane = wanePast(board, face);
  return wane.empty() ? splitPast(board, face, surfaceMeasure) : wane;
}

}  // namespace flitch
