#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// A line of a board's family: a board, or what its sawing made of it.
struct FamilyLine {
  enum class Kind { board, part, spoiled, waste };
  Kind kind = Kind::board;
  int depth = 0;  ///< generations of boards; pieces stand one deeper than their board
  BoardId board;
  std::string name;         ///< tag, hand mark, cause
  std::string what;         ///< "cherry 4/4, 8' × 8", "shelf", "kerf"
  std::string where;        ///< "sawn for Map chest", "on the rack, bay B3", "sold"
  std::string day;          ///< sawn, or left, on
  CubicMillimetres volume;  ///< of a board as it was before the saw, or is now
  Money cost;
};

/// What became of the wood a board belongs to: from the board first received, through all that was
/// sawn from it, to parts, waste and what lies on the rack.
struct Family {
  std::string delivery;  ///< "2026-05-31 Quillmere Sawyers, Q-118", or how it came otherwise
  std::string log;       ///< "log 3, place 2"; empty when unknown
  std::vector<std::string> sisters;  ///< tags of the same log and delivery, in sequence
  std::vector<FamilyLine> lines;     ///< preorder
};
/// What sawing made of a board adds up to the board, in volume and money, exactly. O(all cuttings).
[[nodiscard]] Family familyOf(const store::Snapshot& snapshot, const Board& board, Unit unit);
/// `asked` is pointed out.
[[nodiscard]] Table familyTable(const Family& family, BoardId asked);

/// A finished part back to where it came from, by the hand mark of its blank: of a part glued from
/// several, the blank's own board, and the others'. No money stands in it: it is for the customer.
struct Passport {
  std::string job, customer, part, handMark;
  Length length, width, thickness;  ///< finished
  std::string species, nominal, grade;
  std::string board;                 ///< tag it was sawn from
  std::vector<std::string> parents;  ///< tags, the first received last
  std::string log, delivery;
  std::optional<Reading> moisture;  ///< the newest on or before the day it was sawn
  std::string sawnOn, hand;
  bool spoiled = false;
  int copy = 0;                     ///< of a part of several blanks; else 0
  std::vector<std::string> others;  ///< its other blanks sawn: "A2 from T0002-V"
  Board wood;                       ///< the board as it was sawn
  Piece piece;                      ///< where the part lay in it
};
/// Throws Refusal when the job has no such hand mark, or it is not sawn yet.
[[nodiscard]] Passport passportOf(const store::Snapshot& snapshot, JobId job,
                                  const std::string& handMark);
/// Two columns: what, and the words.
[[nodiscard]] Table passportTable(const Passport& passport, Unit unit);

}  // namespace flitch::desk
