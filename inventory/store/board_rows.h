#pragma once
#include <QJsonObject>
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// How a nominal thickness lies in two columns: its number, and this word for its unit.
[[nodiscard]] std::string nominalCode(Nominal nominal);
[[nodiscard]] Nominal nominalOf(int value, const std::string& code);

/// Which boards to read: the end of a condition on their id, with its one argument, if any.
struct BoardChoice {
  std::string condition;
  std::optional<std::int64_t> argument;
};
[[nodiscard]] BoardChoice oneBoard(BoardId id);
[[nodiscard]] BoardChoice boardsOnRack();
/// Boards that some done cutting names.
[[nodiscard]] BoardChoice boardsSawn();

/// Whole boards in order of id, one read per table whatever their number.
[[nodiscard]] std::vector<Board> readBoards(Database& database, const BoardChoice& choice);
[[nodiscard]] std::optional<Board> readBoard(Database& database, BoardId id);
/// Its tag, or "a board without tag (entry 3)": how sentences name it.
[[nodiscard]] std::string nameOf(Database& database, BoardId id);

/// What a board's row and its own tables say and an edit may change; not its tag, holds, account,
/// parent or delivery. Two of them are compared field by field.
struct BoardFields {
  Board board;
  CubicMillimetres whole;  ///< what its account holds when all of it is there
};
[[nodiscard]] QJsonObject json(const BoardFields& fields);
/// Lays fields of json() over those given.
void lay(const QJsonObject& changed, BoardFields& fields);

/// `board.id` must be new. Opens its account, empty.
void insertBoard(Database& database, const Board& board, Half half, EntryId entry);
/// Writes all that BoardFields holds, with `entry` as version. A new whole volume takes hold when
/// the entry is sealed.
void updateBoardRows(Database& database, const BoardFields& fields, EntryId entry);

/// Takes the next number of a counter.
[[nodiscard]] std::int64_t nextNumber(Database& database, const std::string& counter);

}  // namespace flitch::store
