#include "inventory/records/restave.h"

#include <algorithm>
#include <map>

namespace flitch {

namespace {

/// The staves of a copy by their places.
struct Found {
  Layup* layup;
  Piece* piece;
};
std::map<int, Found> stavesOf(CutPlan& plan, int line, int copy) {
  std::map<int, Found> staves;
  for (Cutting& cutting : plan.cuttings) {
    for (Layup& l : cutting.layups) {
      Piece& piece = cutting.pieces.at(static_cast<std::size_t>(l.piece));
      if (l.kind == LayupKind::stave && l.copy == copy && piece.line == line) {
        staves[l.slot] = {&l, &piece};
      }
    }
  }
  return staves;
}

}  // namespace

CutPlan staveMoved(CutPlan plan, const StavePlace& stave, int to) {
  std::map<int, Found> staves = stavesOf(plan, stave.line, stave.copy);
  if (staves.count(stave.slot) == 0 || staves.count(to) == 0) return plan;
  std::map<int, int> sections;  // by place
  std::vector<int> places;
  std::vector<Found> order;
  for (const auto& [slot, found] : staves) {
    sections[slot] = found.layup->section;
    places.push_back(slot);
    order.push_back(found);
  }
  const auto at = [&](int slot) {
    return std::find(places.begin(), places.end(), slot) - places.begin();
  };
  const auto from = order.begin() + at(stave.slot), there = order.begin() + at(to);
  if (from < there) {
    std::rotate(from, from + 1, there + 1);
  } else {
    std::rotate(there, from, from + 1);
  }
  for (std::size_t i = 0; i < order.size(); ++i) {
    order[i].layup->slot = places[i];
    order[i].layup->section = sections[places[i]];
  }
  return plan;
}

CutPlan staveTurned(CutPlan plan, const StavePlace& stave, StaveTurn turn) {
  std::map<int, Found> staves = stavesOf(plan, stave.line, stave.copy);
  const auto found = staves.find(stave.slot);
  if (found == staves.end()) return plan;
  Piece& piece = *found->second.piece;
  if (turn == StaveTurn::over) {
    piece.faceUp = piece.faceUp == Face::a ? Face::b : Face::a;
  } else {
    piece.frontEdge = piece.frontEdge == Edge::near ? Edge::far : Edge::near;
  }
  return plan;
}

}  // namespace flitch
