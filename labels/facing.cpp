#include "labels/facing.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace flitch::pages {
namespace {

/// "C1, C2, D1", rising: the blanks for which `wanted` holds; empty when there are none.
template <class Wanted>
std::string blanksThat(const Cutting& cutting, Wanted wanted) {
  std::vector<std::pair<int, int>> blanks;
  for (const Piece& piece : cutting.pieces)
    if (piece.kind == PieceKind::blank && wanted(piece))
      blanks.emplace_back(piece.line, piece.copy);
  std::sort(blanks.begin(), blanks.end());
  std::string marks;
  for (const auto& [line, copy] : blanks)
    marks += (marks.empty() ? "" : ", ") + handMark(line, copy);
  return marks;
}

std::string frontNote(const Cutting& cutting, const Job& job) {
  const auto at = [&](Edge edge) {
    return blanksThat(cutting, [&](const Piece& piece) {
      return piece.frontEdge == edge && hasFront(piece, job);
    });
  };
  const std::string near = at(Edge::near), far = at(Edge::far);
  if (near.empty() && far.empty()) return {};
  std::string note = "The heavy line is the front edge: ";
  if (!near.empty()) note += "toward edge V on " + near;
  if (!near.empty() && !far.empty()) note += ", ";
  if (!far.empty()) note += "toward the far edge on " + far;
  return note + ". ";
}

}  // namespace

bool hasFront(const Piece& piece, const Job& job) {
  if (piece.kind != PieceKind::blank) return false;
  const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                 [&](const Part& each) { return each.line == piece.line; });
  return part != job.parts.end() && part->edges[0] != part->edges[1];
}

std::string facingNotes(const Cutting& cutting, const Board& board, const Job& job) {
  std::string notes;
  const std::string turned =
      blanksThat(cutting, [](const Piece& piece) { return piece.faceUp == Face::b; });
  if (!turned.empty()) notes += "Face B of the board is face A of " + turned + ". ";
  notes += frontNote(cutting, job);
  const bool unseenA = board.looked[0] == Looked::no, unseenB = board.looked[1] == Looked::no;
  if (unseenA && unseenB) notes += "Nobody has looked at this board: look before the first cut. ";
  if (unseenA != unseenB)
    notes += std::string("Nobody has looked at face ") + (unseenA ? "A" : "B") +
             ": look before the first cut. ";
  return notes;
}

}  // namespace flitch::pages
