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

namespace {

const Part* partOf(const Job& job, int line) {
  const auto at = std::find_if(job.parts.begin(), job.parts.end(),
                               [line](const Part& part) { return part.line == line; });
  return at == job.parts.end() ? nullptr : &*at;
}

/// The part of that line, if what is cut for it as it was `before` still serves it.
const Part* sameWood(int line, const Job& before, const Job& now) {
  const Part *was = partOf(before, line), *is = partOf(now, line);
  if (was == nullptr || is == nullptr) return nullptr;
  Part otherwise = *was;
  otherwise.name = is->name;
  otherwise.typed = is->typed;
  otherwise.note = is->note;
  // Where copies depend on each other, their number is part of what is asked.
  const bool alone = was->run.empty() && was->setUps == 0 && was->group.empty() &&
                     was->woodFrom == WoodFrom::anyBoards;
  if (alone) {
    otherwise.copies = is->copies;
    otherwise.spares = is->spares;
  }
  return otherwise == *is ? is : nullptr;
}

}  // namespace

bool stillWanted(const Cutting& cutting, const Job& before, const Job& now) {
  std::vector<bool> helps(cutting.pieces.size(), false);
  for (const Layup& layup : cutting.layups) {
    const auto piece = static_cast<std::size_t>(layup.piece);
    helps.at(piece) = true;
    const Part* part = sameWood(cutting.pieces[piece].line, before, now);
    if (part == nullptr || layup.copy > part->wanted()) return false;
  }
  for (std::size_t p = 0; p < cutting.pieces.size(); ++p) {
    const Piece& piece = cutting.pieces[p];
    if (piece.kind != PieceKind::blank || helps[p]) continue;
    const Part* part = sameWood(piece.line, before, now);
    if (part == nullptr || piece.copy > part->wanted()) return false;
  }
  return true;
}

Choices stillWanted(const Choices& choices, const Job& before, const Job& now) {
  Choices kept = choices;
  std::erase_if(kept.locks,
                [&](const Lock& lock) { return !stillWanted(lock.cutting, before, now); });
  std::erase_if(kept.laid, [&](const LaidByHand& laid) {
    return sameWood(laid.line, before, now) == nullptr;
  });
  return kept;
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
