#include "inventory/desk/lost_tag.h"

#include <algorithm>
#include <tuple>

#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/reports.h"

namespace flitch::desk {

namespace {

Length apart(Length a, Length b) { return a < b ? b - a : a - b; }

/// A board and all that was sawn of it.
void addMissing(const store::Snapshot& snapshot, BoardId id, std::vector<Board>& missing) {
  const std::optional<Board> board = snapshot.board(id);
  if (!board || board->withdrawn) return;
  if (!board->onRack()) {
    const std::optional<LeftRack> left = snapshot.leftRack(id);
    if (left && left->to == AccountKind::missing) missing.push_back(*board);
  }
  for (const BoardId child : snapshot.childrenOf(id)) addMissing(snapshot, child, missing);
}

std::vector<Board> missingBoards(const store::Snapshot& snapshot) {
  std::vector<Board> missing;
  for (const DeliveryId delivery : snapshot.deliveries()) {
    for (const BoardId id : snapshot.boardsOf(delivery)) addMissing(snapshot, id, missing);
  }
  return missing;
}

}  // namespace

std::vector<Likely> likelyBoards(const store::Snapshot& snapshot, const std::string& words,
                                 Unit unit, Length length, Length width) {
  const auto wanted = rackFilter(words, unit);
  const bool metric = unit == Unit::millimetres;
  const Length mostLength = metric ? Length::millimetres(50) : Length::inches(2);
  const Length mostWidth = metric ? Length::millimetres(10) : Length::sixtyFourths(24);
  std::vector<Likely> all;
  const auto look = [&](const std::vector<Board>& boards, bool missing) {
    for (const Board& board : boards) {
      const Length lengthOff = apart(board.length(), length);
      const Length widthOff =
          std::min(apart(board.widthAtTag(), width), apart(board.widthAtFar(), width));
      if (!wanted(board) || lengthOff > mostLength || widthOff > mostWidth) continue;
      all.push_back({board, lengthOff, widthOff, missing});
    }
  };
  look(missingBoards(snapshot), true);
  look(snapshot.rack(), false);
  std::stable_sort(all.begin(), all.end(), [](const Likely& a, const Likely& b) {
    return std::tuple(!a.missing, a.lengthOff + a.widthOff) <
           std::tuple(!b.missing, b.lengthOff + b.widthOff);
  });
  return all;
}

Table likelyTable(const std::vector<Likely>& likely, Unit unit) {
  Table table;
  table.title = "Which board is this";
  table.columns = {{"tag", "tag", false},           {"species", "species", false},
                   {"nominal", "quarters", false},  {"size", "size", false},
                   {"grade", "grade", false},       {"bay", "bay", false},
                   {"where", "by the book", false}, {"off", "differs by", false}};
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  for (const Likely& one : likely) {
    table.rows.push_back(
        {tagOf(one.board), one.board.species, text(one.board.nominal), sizeText(one.board, unit),
         one.board.grade, one.board.bay, std::string(one.missing ? "missing" : "on the rack"),
         text(one.lengthOff, style) + " long, " + text(one.widthOff, style) + " wide"});
  }
  table.note = "Hang another tag on it: flitch board TAG --new-tag.";
  return table;
}

}  // namespace flitch::desk
