#include "inventory/desk/count.h"

#include <algorithm>
#include <set>

#include "inventory/desk/names.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

std::vector<BoardId> idsOf(const std::vector<Board>& boards) {
  std::vector<BoardId> ids;
  for (const Board& board : boards) ids.push_back(board.id);
  return ids;
}

/// Puts a scanned board where it belongs.
void sortIn(Counted& counted, Board board, const store::Snapshot& snapshot) {
  if (board.onRack()) {
    auto& boards = board.bay == counted.bay ? counted.seen : counted.unexpected;
    boards.push_back(std::move(board));
    return;
  }
  const std::optional<LeftRack> left = snapshot.leftRack(board.id);
  const bool missing = left && left->to == AccountKind::missing;
  auto& boards = missing ? counted.found : counted.gone;
  boards.push_back(std::move(board));
}

void post(store::Writer& writer, const Counted& counted) {
  BayCount row{counted.bay, idsOf(counted.seen), idsOf(counted.missing), idsOf(counted.unexpected),
               counted.untagged};
  for (const Board& board : counted.missing) {
    writer.release(board.id);
    writer.post(
        {AccountKind::board, board.id, AccountKind::missing, {}, board.wood, board.cost, -1, {}});
  }
  for (const Board& board : counted.found) {
    const LeftRack left = writer.now().leftRack(board.id).value();
    writer.post(
        {AccountKind::missing, {}, AccountKind::board, board.id, left.volume, left.cost, -1, {}});
    row.unexpected.push_back(board.id);
  }
  for (const auto* boards : {&counted.unexpected, &counted.found}) {
    for (Board board : *boards) {
      board.bay = counted.bay;
      writer.updateBoard(board);
    }
  }
  writer.addCount(row);
}

}  // namespace

Counted compare(const store::Snapshot& snapshot, const std::string& bay,
                const std::vector<std::string>& codes, int untagged, bool sure, Unit unit) {
  Counted counted;
  counted.bay = bayNamed(snapshot, bay);
  counted.untagged = untagged;
  std::set<BoardId> scanned;
  std::vector<Complaint> complaints;
  for (const std::string& code : codes) {
    const TagReading reading = readTag(code);
    if (reading.verdict == TagReading::Verdict::right && snapshot.tagReserved(reading.code)) {
      if (std::find(counted.blank.begin(), counted.blank.end(), reading.code) ==
          counted.blank.end()) {
        counted.blank.push_back(reading.code);
      }
      continue;
    }
    try {
      Board board = boardToChange(snapshot, code, sure, unit);
      if (scanned.insert(board.id).second) sortIn(counted, std::move(board), snapshot);
    } catch (const Refusal& refusal) {
      complaints.insert(complaints.end(), refusal.complaints().begin(), refusal.complaints().end());
    }
  }
  if (!complaints.empty()) throw Refusal("bad-code", std::move(complaints));
  for (Board& board : snapshot.rack()) {
    if (board.bay == counted.bay && !scanned.contains(board.id)) {
      counted.missing.push_back(std::move(board));
    }
  }
  return counted;
}

Counted count(Book& book, const std::string& bay, const std::vector<std::string>& codes,
              int untagged, bool sure, const Hand& hand) {
  const Unit unit = book.facts().unit;
  // Looked at first without the book held, for the entry's words and so that a bad code costs
  // nothing.
  Counted counted = compare(book.read(), bay, codes, untagged, sure, unit);
  const std::string note = counted.bay + ": " + std::to_string(counted.seen.size()) + " seen, " +
                           std::to_string(counted.missing.size()) + " missing, " +
                           std::to_string(counted.unexpected.size() + counted.found.size()) +
                           " unexpected";
  const EntryId entry = book.change({"counted", {}, note, {}}, hand, [&](store::Writer& writer) {
    counted = compare(writer.now(), bay, codes, untagged, sure, unit);
    post(writer, counted);
  });
  counted.entry = entry;
  return counted;
}

}  // namespace flitch::desk
