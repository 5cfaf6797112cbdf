#include "inventory/records/choices.h"

#include <algorithm>

namespace flitch {

namespace {

bool listed(const std::vector<BoardId>& boards, BoardId board) {
  return std::find(boards.begin(), boards.end(), board) != boards.end();
}

}  // namespace

const Lock* lockOn(const Choices& choices, BoardId board) {
  const auto at = std::find_if(choices.locks.begin(), choices.locks.end(),
                               [&](const Lock& lock) { return lock.cutting.board == board; });
  return at == choices.locks.end() ? nullptr : &*at;
}

bool isKeptOut(const Choices& choices, BoardId board) { return listed(choices.keptOut, board); }
bool isPinned(const Choices& choices, BoardId board) { return listed(choices.pins, board); }

PlanRequest besideLocks(const PlanRequest& request) {
  PlanRequest beside = request;
  for (const Lock& lock : request.choices.locks) {
    const std::vector<Piece>& pieces = lock.cutting.pieces;
    for (const Piece& piece : pieces) {
      if (piece.kind == PieceKind::blank) beside.made[piece.line].insert(piece.copy);
    }
    for (Layup layup : lock.cutting.layups) {
      const Piece& blank = pieces.at(static_cast<std::size_t>(layup.piece));
      layup.piece = blank.copy;
      beside.laid.push_back({blank.line, layup});
    }
  }
  return beside;
}

Money wishCost(const Choices& choices, BoardId board) {
  Money cost;
  for (const Wish& wish : choices.wishes) {
    if (!listed(wish.boards, board)) cost += wish.each;
  }
  return cost;
}

Money wishCost(const CutPlan& plan) {
  Money cost;
  for (const Cutting& cutting : plan.cuttings) cost += wishCost(plan.choices, cutting.board);
  return cost;
}

bool holds(const Cutting& cutting, const LaidByHand& laid) {
  return cutting.board == laid.board &&
         std::any_of(cutting.pieces.begin(), cutting.pieces.end(), [&](const Piece& piece) {
           return piece.kind == PieceKind::blank && piece.line == laid.line &&
                  piece.at == laid.at && piece.faceUp == laid.faceUp &&
                  piece.frontEdge == laid.frontEdge;
         });
}

}  // namespace flitch
