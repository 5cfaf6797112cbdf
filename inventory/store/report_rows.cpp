#include "inventory/store/report_rows.h"

namespace flitch::store {

std::map<BoardId, Balance> readBalances(Database& database, EntryId until) {
  std::map<BoardId, Balance> balances;
  const auto add = [&](const char* side, int sign) {
    database.each(
        std::string("SELECT a.board, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) "
                    "FROM moves m JOIN accounts a ON a.id = m.") +
            side + " WHERE a.board IS NOT NULL AND m.entry <= ? GROUP BY a.board",
        [&](Row& row) {
          const auto board = row.next<BoardId>();
          CubicMillimetres volume;
          Money cost;
          row >> volume >> cost;
          Balance& balance = balances[board];
          balance.volume.value += sign * volume.value;
          balance.cost += cost * sign;
        },
        until);
  };
  add("target", 1);
  add("source", -1);
  std::erase_if(balances, [](const auto& each) { return each.second.volume.value == 0; });
  return balances;
}

std::map<CuttingId, std::vector<LedgerSum>> readCuttingSums(Database& database) {
  std::map<CuttingId, std::vector<LedgerSum>> sums;
  database.each(
      "SELECT m.cutting, t.kind, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) "
      "FROM moves m JOIN accounts t ON t.id = m.target LEFT JOIN entries r ON r.reverses = m.entry "
      "WHERE m.cutting IS NOT NULL AND r.id IS NULL GROUP BY m.cutting, t.kind",
      [&](Row& row) {
        LedgerSum& sum = sums[row.next<CuttingId>()].emplace_back();
        row >> sum.target >> sum.volume >> sum.cost;
      });
  return sums;
}

std::optional<Leaving> readLeaving(Database& database, BoardId board) {
  std::optional<Leaving> leaving;
  database.each(
      "SELECT t.kind, m.entry, m.volume, m.cost FROM moves m JOIN accounts s ON s.id = m.source "
      "JOIN accounts t ON t.id = m.target WHERE s.board = ? AND m.cutting IS NULL "
      "AND m.entry = (SELECT max(n.entry) FROM moves n JOIN accounts b ON b.id = n.source "
      "WHERE b.board = ? AND n.cutting IS NULL) ORDER BY m.line",
      [&](Row& row) {
        const bool first = !leaving;
        if (first) leaving.emplace();
        const auto target = row.next<AccountKind>();
        CubicMillimetres volume;
        Money cost;
        row >> leaving->entry >> volume >> cost;
        // What goes on as a board of its own says less of where it went.
        if (first || target != AccountKind::board) leaving->target = target;
        leaving->volume += volume;
        leaving->cost += cost;
      },
      board, board);
  return leaving;
}

}  // namespace flitch::store
