#include "inventory/store/stock_rows.h"

#include "inventory/store/board_rows.h"
#include "inventory/store/codes.h"

namespace flitch::store {

ReturnId insertReturn(Database& database, BoardId board, const std::string& reason, Money expected,
                      EntryId entry) {
  const ReturnId id{nextNumber(database, "return")};
  database.run("INSERT INTO returns (id, board, reason, expected, version) VALUES (?, ?, ?, ?, ?)",
               id, board, reason, expected, entry);
  return id;
}

std::int64_t insertCredit(Database& database, ReturnId returned, Money amount,
                          const std::string& receivedOn, EntryId entry) {
  const std::int64_t id = nextNumber(database, "credit");
  database.run(
      "INSERT INTO credits (id, returned, amount, received_on, version) VALUES (?, ?, ?, ?, ?)", id,
      returned, amount, receivedOn, entry);
  return id;
}

std::int64_t insertCount(Database& database, const BayCount& count, EntryId entry) {
  const std::int64_t id = nextNumber(database, "bay count");
  database.run("INSERT INTO bay_counts (id, bay, untagged, version) VALUES (?, ?, ?, ?)", id,
               count.bay, count.untagged, entry);
  const auto insert = [&](const std::vector<BoardId>& boards, const std::string& found) {
    for (const BoardId board : boards) {
      database.run("INSERT INTO bay_count_lines (count_of, board, found) VALUES (?, ?, ?)", id,
                   board, found);
    }
  };
  insert(count.seen, "seen");
  insert(count.missing, "missing");
  insert(count.unexpected, "unexpected");
  return id;
}

std::int64_t insertBayTag(Database& database, const std::string& bay, EntryId entry) {
  database.run("INSERT INTO bays (name) VALUES (?) ON CONFLICT DO NOTHING", bay);
  const std::int64_t serial = nextIssuable(
      TagKind::bay,
      database.value<std::int64_t>("SELECT last FROM counters WHERE name = 'bay tag'"));
  database.run("UPDATE counters SET last = ? WHERE name = 'bay tag'", serial);
  database.run("INSERT INTO bay_tags (id, bay, version) VALUES (?, ?, ?)", serial, bay, entry);
  return serial;
}

std::vector<BoardReturn> readReturns(Database& database) {
  std::vector<BoardReturn> returns;
  database.each(
      "SELECT r.id, r.board, r.reason, coalesce((SELECT CAST(sum(m.cost) AS BIGINT) FROM moves m "
      "JOIN accounts a ON a.id = m.source WHERE m.entry = r.version AND a.board = r.board), 0), "
      "r.expected, coalesce((SELECT CAST(sum(c.amount) AS BIGINT) FROM credits c "
      "WHERE c.returned = r.id AND c.withdrawn = 0), 0), EXISTS (SELECT 1 FROM credits c "
      "WHERE c.returned = r.id AND c.withdrawn = 0) FROM returns r WHERE r.withdrawn = 0 "
      "ORDER BY r.id",
      [&](Row& row) {
        BoardReturn& one = returns.emplace_back();
        row >> one.id >> one.board >> one.reason >> one.cost >> one.expected >> one.received >>
            one.credited;
      });
  return returns;
}

std::optional<LeftRack> readLeftRack(Database& database, BoardId board) {
  std::optional<LeftRack> left;
  database.each(
      "SELECT t.kind, m.volume, m.cost, m.entry FROM moves m JOIN accounts s ON s.id = m.source "
      "JOIN accounts t ON t.id = m.target JOIN entries e ON e.id = m.entry "
      "LEFT JOIN entries r ON r.reverses = m.entry WHERE s.board = ? AND r.id IS NULL "
      "AND e.reverses IS NULL AND t.kind <> 'remeasured' ORDER BY m.entry DESC, m.line LIMIT 1",
      [&](Row& row) {
        left.emplace();
        row >> left->to >> left->volume >> left->cost >> left->entry;
      },
      board);
  return left;
}

BinId insertBin(Database& database, const Bin& bin, EntryId entry) {
  const BinId id{nextNumber(database, "bin")};
  database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", bin.species);
  database.run("INSERT INTO bins (id, name, species, note, version) VALUES (?, ?, ?, ?, ?)", id,
               bin.name, bin.species, bin.note, entry);
  database.run(
      "INSERT INTO accounts (id, kind, bin, whole_volume, volume, cost) VALUES (?, ?, ?, 0, 0, 0)",
      nextNumber(database, "account"), AccountKind::bin, id);
  return id;
}

std::vector<Bin> readBins(Database& database) {
  std::vector<Bin> bins;
  database.each(
      "SELECT b.id, b.name, b.species, b.note, a.volume FROM bins b JOIN accounts a ON a.bin = "
      "b.id "
      "WHERE b.withdrawn = 0 ORDER BY b.name",
      [&](Row& row) {
        Bin& bin = bins.emplace_back();
        row >> bin.id >> bin.name >> bin.species >> bin.note >> bin.wood;
      });
  return bins;
}

std::int64_t insertSetAside(Database& database, const SetAside& wood, EntryId entry) {
  database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", wood.species);
  const std::int64_t id = nextNumber(database, "reserved feet");
  database.run(
      "INSERT INTO reserved_feet (id, job, species, nominal, nominal_in, feet, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?)",
      id, wood.job, wood.species, wood.nominal.value(), nominalCode(wood.nominal), wood.feet,
      entry);
  return id;
}

std::vector<SetAside> readSetAside(Database& database) {
  std::vector<SetAside> all;
  database.each(
      "SELECT r.job, r.species, r.nominal, r.nominal_in, r.feet FROM reserved_feet r "
      "JOIN jobs j ON j.id = r.job WHERE j.withdrawn = 0 AND r.feet > 0 AND r.id = "
      "(SELECT max(n.id) FROM reserved_feet n WHERE n.job = r.job AND n.species = r.species AND "
      "n.nominal = r.nominal AND n.nominal_in = r.nominal_in AND n.withdrawn = 0) "
      "ORDER BY r.job, r.species, r.nominal_in, r.nominal",
      [&](Row& row) {
        SetAside& wood = all.emplace_back();
        row >> wood.job >> wood.species;
        const auto nominal = row.next<int>();
        wood.nominal = nominalOf(nominal, row.next<std::string>());
        row >> wood.feet;
      });
  return all;
}

}  // namespace flitch::store
