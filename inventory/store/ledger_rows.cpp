#include "inventory/store/ledger_rows.h"

#include <algorithm>

#include "inventory/store/board_rows.h"
#include "inventory/store/plan_rows.h"
#include "inventory/store/schema.h"

namespace flitch::store {

namespace {

constexpr const char* entryColumns =
    "SELECT e.id, e.at, e.hand, e.station, e.event, e.note, e.job, e.reverses, r.id "
    "FROM entries e LEFT JOIN entries r ON r.reverses = e.id ";

EntryLine lineOf(Row& row) {
  EntryLine line;
  row >> line.id >> line.at >> line.hand >> line.station >> line.event >> line.note >> line.job >>
      line.reverses >> line.reversedBy;
  return line;
}

std::int64_t accountOfMove(Database& database, AccountKind kind, BoardId board, BinId bin) {
  if (kind == AccountKind::bin) {
    return database.value<std::int64_t>("SELECT id FROM accounts WHERE bin = ?", bin);
  }
  if (kind == AccountKind::board) {
    return database.value<std::int64_t>("SELECT id FROM accounts WHERE board = ?", board);
  }
  return database.value<std::int64_t>("SELECT id FROM accounts WHERE kind = ? AND board IS NULL",
                                      kind);
}

}  // namespace

EntryId openEntry(Database& database, const Event& event, const Hand& hand) {
  const EntryId entry{nextNumber(database, "entry")};
  if (!database.maybe<int>("SELECT 1 FROM events WHERE name = ?", event.kind)) {
    throw std::logic_error("no event \"" + event.kind + "\" in the table `events`");
  }
  database.run(
      "INSERT INTO entries (id, at, hand, station, event, note, reverses, job) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
      entry, now(), hand.name, hand.station, event.kind, event.note, event.reverses, event.job);
  return entry;
}

void insertMoves(Database& database, EntryId entry, const std::vector<Move>& moves,
                 const std::map<BoardId, CuttingId>& cuttings) {
  int line = 0;
  for (const Move& move : moves) {
    if (move.volume.value == 0 && move.cost == Money()) continue;
    const auto cutting =
        move.source == AccountKind::board ? cuttings.find(move.sourceBoard) : cuttings.end();
    database.run(
        "INSERT INTO moves (entry, line, source, target, volume, cost, cutting, place) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        entry, ++line, accountOfMove(database, move.source, move.sourceBoard, move.bin),
        accountOfMove(database, move.target, move.targetBoard, move.bin), move.volume, move.cost,
        cutting == cuttings.end() ? CuttingId{} : cutting->second,
        move.piece < 0 ? std::nullopt : std::optional(move.piece));
  }
}

void seal(Database& database, EntryId entry) {
  database.run("INSERT INTO seals (entry) VALUES (?)", entry);
}

std::vector<Move> readMoves(Database& database, EntryId entry) {
  std::vector<Move> moves;
  database.each(
      "SELECT s.kind, s.board, t.kind, t.board, coalesce(s.bin, t.bin), m.volume, m.cost, m.place "
      "FROM moves m "
      "JOIN accounts s ON s.id = m.source JOIN accounts t ON t.id = m.target "
      "WHERE m.entry = ? ORDER BY m.line",
      [&](Row& row) {
        Move& move = moves.emplace_back();
        row >> move.source >> move.sourceBoard >> move.target >> move.targetBoard >> move.bin >>
            move.volume >> move.cost;
        move.piece = row.next<std::optional<int>>().value_or(-1);
      },
      entry);
  return moves;
}

std::vector<EntryLine> readEntries(Database& database, int newest) {
  std::vector<EntryLine> lines;
  database.each(
      std::string(entryColumns) + "ORDER BY e.id DESC LIMIT ?",
      [&](Row& row) { lines.push_back(lineOf(row)); }, newest);
  return lines;
}

std::optional<EntryLine> readEntry(Database& database, EntryId id) {
  std::optional<EntryLine> line;
  database.each(
      std::string(entryColumns) + "WHERE e.id = ?", [&](Row& row) { line = lineOf(row); }, id);
  return line;
}

std::optional<EntryId> undoneBy(Database& database, EntryId entry) {
  return database.maybe<EntryId>(
      "SELECT reverses FROM entries WHERE id = ? AND reverses IS NOT NULL", entry);
}

EntryId changeBefore(Database& database, const std::string& record, std::int64_t id,
                     EntryId entry) {
  return database.value<EntryId>(
      "SELECT coalesce(max(entry), 0) FROM edits WHERE record = ? AND id = ? AND entry < ?", record,
      id, entry);
}

std::vector<LedgerSum> readSawnSums(Database& database, std::optional<JobId> job) {
  const std::int64_t only = job ? job->value : 0;
  std::vector<LedgerSum> sums;
  database.each(
      "SELECT t.kind, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) FROM moves m "
      "JOIN accounts t ON t.id = m.target JOIN cuttings k ON k.id = m.cutting "
      "JOIN plans q ON q.id = k.plan LEFT JOIN entries r ON r.reverses = m.entry "
      "WHERE r.id IS NULL AND (q.job = ? OR ? = 0) GROUP BY t.kind",
      [&](Row& row) {
        LedgerSum& sum = sums.emplace_back();
        row >> sum.target >> sum.volume >> sum.cost;
      },
      only, only);
  LedgerSum lost{AccountKind::lost, {}, {}};
  for (const SpoiledPiece& piece : readSpoiled(database, job)) {
    lost.volume += piece.volume;
    lost.cost += piece.cost;
  }
  if (lost.volume.value > 0) {
    const auto parts = std::find_if(sums.begin(), sums.end(), [](const LedgerSum& sum) {
      return sum.target == AccountKind::parts;
    });
    parts->volume.value -= lost.volume.value;
    parts->cost -= lost.cost;
    sums.push_back(lost);
  }
  std::sort(sums.begin(), sums.end(),
            [](const LedgerSum& a, const LedgerSum& b) { return a.target < b.target; });
  return sums;
}

}  // namespace flitch::store
