// Staves moved and turned in their panel.
#include "inventory/records/restave.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace flitch;

namespace {

/// Copy 1 of part A: staves 11 to 14 of two boards in two sections of two; and one stave of copy 2.
CutPlan panel() {
  CutPlan plan;
  plan.cuttings.resize(2);
  const auto add = [&](std::size_t board, int chalked, int copy, int slot, int section) {
    Cutting& cutting = plan.cuttings[board];
    cutting.board = {static_cast<std::int64_t>(board) + 1};
    Piece piece;
    piece.kind = PieceKind::blank;
    piece.line = 1;
    piece.copy = chalked;
    cutting.pieces.push_back(piece);
    Layup layup;
    layup.piece = static_cast<int>(cutting.pieces.size()) - 1;
    layup.copy = copy;
    layup.slot = slot;
    layup.section = section;
    cutting.layups.push_back(layup);
  };
  add(0, 11, 1, 1, 1);
  add(0, 13, 1, 3, 2);
  add(1, 12, 1, 2, 1);
  add(1, 14, 1, 4, 2);
  add(1, 21, 2, 1, 1);
  return plan;
}

/// What is chalked on the staves of a copy, by place, and the sections of these places.
std::pair<std::vector<int>, std::vector<int>> lying(const CutPlan& plan, int copy) {
  std::vector<int> chalked(4, 0), sections(4, 0);
  for (const Cutting& cutting : plan.cuttings) {
    for (const Layup& l : cutting.layups) {
      if (l.copy != copy) continue;
      const auto at = static_cast<std::size_t>(l.slot) - 1;
      chalked[at] = cutting.pieces[static_cast<std::size_t>(l.piece)].copy;
      sections[at] = l.section;
    }
  }
  return {chalked, sections};
}

using Staves = std::vector<int>;

}  // namespace

TEST_CASE("a stave moves to another place, those between make room, sections stay where they are") {
  const CutPlan plan = panel();
  const auto moved = [&](int from, int to) { return lying(staveMoved(plan, {1, 1, from}, to), 1); };
  CHECK(moved(1, 2).first == Staves{12, 11, 13, 14});
  CHECK(moved(2, 1).first == Staves{12, 11, 13, 14});
  CHECK(moved(1, 4).first == Staves{12, 13, 14, 11});
  CHECK(moved(4, 2).first == Staves{11, 14, 12, 13});
  for (int from = 1; from <= 4; ++from) {
    for (int to = 1; to <= 4; ++to) CHECK(moved(from, to).second == Staves{1, 1, 2, 2});
  }
  // The other copy is none of it, and what is no place changes nothing.
  CHECK(lying(staveMoved(plan, {1, 1, 1}, 2), 2) == lying(plan, 2));
  CHECK(staveMoved(plan, {1, 1, 1}, 5) == plan);
  CHECK(staveMoved(plan, {1, 1, 0}, 2) == plan);
  CHECK(staveMoved(plan, {2, 1, 1}, 2) == plan);
  CHECK(staveMoved(plan, {1, 1, 3}, 3) == plan);
}

TEST_CASE("a stave is turned over or end for end, twice is not at all") {
  const CutPlan plan = panel();
  for (const StaveTurn turn : {StaveTurn::over, StaveTurn::endForEnd}) {
    const CutPlan once = staveTurned(plan, {1, 1, 3}, turn);
    CHECK_FALSE(once == plan);
    const Piece& piece = once.cuttings[0].pieces[1];
    CHECK((piece.faceUp == Face::b) == (turn == StaveTurn::over));
    CHECK((piece.frontEdge == Edge::far) == (turn == StaveTurn::endForEnd));
    CHECK(staveTurned(once, {1, 1, 3}, turn) == plan);
  }
  CHECK(staveTurned(plan, {1, 3, 1}, StaveTurn::over) == plan);
}
