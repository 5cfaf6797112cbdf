#include "inventory/planning/settled.h"

#include <algorithm>
#include <set>

#include "inventory/planning/shortage_reasons.h"
#include "inventory/records/choices.h"

namespace flitch::planning {

namespace {

class Settling {
 public:
  explicit Settling(const PlanRequest& request)
      : request_(request), choices_(request.choices), made_(request.made) {}

  void refuse() {
    for (const BoardId id : choices_.pins) freeBoard(id, "pinned");
    for (const LaidByHand& laid : choices_.laid) {
      const Board& board = freeBoard(laid.board, "laid upon");
      if (lockOn(choices_, board.id) != nullptr) broken(board, "a blank is laid on it by hand");
    }
    std::set<BoardId> locked;
    for (const Lock& lock : choices_.locks) {
      const Board& board = freeBoard(lock.cutting.board, "locked");
      if (!locked.insert(board.id).second) broken(board, "it is locked twice");
      judge(lock.cutting, board);
    }
  }

 private:
  [[noreturn]] void broken(const Board& board, const std::string& why) const {
    throw brokenLock(board, why, request_);
  }

  const Board& freeBoard(BoardId id, const std::string& settled) const {
    const auto at = std::find_if(request_.boards.begin(), request_.boards.end(),
                                 [id](const Board& board) { return board.id == id; });
    if (at == request_.boards.end()) {
      throw Refusal("not-free", Complaint{"",
                                          "A board is " + settled +
                                              " that is not on the rack, ready and free "
                                              "for " +
                                              request_.job.name,
                                          "", "a board that the job may use"});
    }
    if (isKeptOut(choices_, id)) {
      const std::string name = boardName(*at, request_.unit);
      throw Refusal("both", Complaint{"", name + " is kept out and " + settled + " as well", name,
                                      "one of the two"});
    }
    return *at;
  }

  void judge(const Cutting& cutting, const Board& board) {
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind != PieceKind::blank) continue;
      if (!made_[piece.line].insert(piece.copy).second) {
        broken(board, handMark(piece.line, piece.copy) + " is made already");
      }
    }
  }

  const PlanRequest& request_;
  const Choices& choices_;
  std::map<int, std::set<int>> made_;
};

}  // namespace

Refusal brokenLock(const Board& board, const std::string& why, const PlanRequest& request) {
  const std::string name = boardName(board, request.unit);
  return {"lock-broken", Complaint{"", name + " cannot stay as it was planned: " + why, name,
                                   "a plan without this lock"}};
}

void refuseUnsettled(const PlanRequest& request) { Settling(request).refuse(); }

std::string standsText(const Choices& choices) {
  Choices own = choices;
  own.trustUnseen = false;
  std::erase_if(own.locks, [](const Lock& lock) { return !lock.byEye; });
  std::erase_if(own.wishes, [](const Wish& wish) { return wish.byItself; });
  if (!(own == Choices{})) return " What you settled stands.";
  return choices.locks.empty() ? "" : " The other boards stay as planned.";
}

std::string termsText(const Choices& choices) {
  const auto any = [&](bool byEye) {
    return std::any_of(choices.locks.begin(), choices.locks.end(),
                       [byEye](const Lock& lock) { return lock.byEye == byEye; });
  };
  std::string terms;
  const auto add = [&](bool holds, const char* term) {
    if (holds) terms += (terms.empty() ? "" : ", ") + std::string(term);
  };
  add(any(true), "with what you locked as it is");
  add(any(false), "with the other boards as they were planned");
  add(!choices.laid.empty(),
      "with what you laid by hand as it lies and nothing cut beside it between its own cuts");
  add(!choices.pins.empty(), "on the boards you pinned");
  add(!choices.keptOut.empty(), "without the boards you kept out");
  const auto wished = [&](bool byItself) {
    return std::any_of(choices.wishes.begin(), choices.wishes.end(),
                       [byItself](const Wish& wish) { return wish.byItself == byItself; });
  };
  add(wished(false), "with your wishes counted in");
  add(wished(true), "with sisters of what was spoiled counted first");
  return terms;
}

}  // namespace flitch::planning
