#pragma once
#include <string>
#include <vector>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// A part of a job that a board can give.
struct Served {
  JobId job;
  std::string jobName;
  Part part;
  int wanted = 0;  ///< copies not made yet
  int gives = 0;   ///< of these, as many as the board gives when nothing else is cut from it
};
/// The parts still wanted by jobs of the book that the board serves by itself, in order of job and
/// part. Reservation and moisture of the board are passed over. O(parts) small plans.
[[nodiscard]] std::vector<Served> partsServed(const store::Book& book, const Board& board);
[[nodiscard]] Table servedTable(const std::vector<Served>& served);

/// A board that gives a piece.
struct Giver {
  Board board;
  Money cost;            ///< of the wood it takes: landed cost less the worth of what is kept
  int lossPermille = 0;  ///< of the board, neither in the blank nor kept
  Cutting cutting;
};
/// Free boards of the rack that give one such part, those with the least loss first; of equal loss
/// the cheaper wood. O(boards) small plans.
[[nodiscard]] std::vector<Giver> boardsGiving(const store::Book& book, const Part& part);
[[nodiscard]] Table giverTable(const std::vector<Giver>& givers, Unit unit);

}  // namespace flitch::desk
