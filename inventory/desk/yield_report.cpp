#include <map>

#include "inventory/desk/ledger_reports.h"

namespace flitch::desk {

namespace {

/// "end_trim" for the column of a cause.
std::string keyOf(std::size_t fate) {
  std::string key{fateWord(fate)};
  for (char& c : key) {
    if (c == ' ') c = '_';
  }
  return key;
}

/// Bins have a column where something went to one.
std::vector<std::size_t> fatesOf(const YieldGroup& all) {
  std::vector<std::size_t> fates;
  for (std::size_t fate = 0; fate < fateCount; ++fate) {
    if (fate != binFate || all.volume[fate].value > 0) fates.push_back(fate);
  }
  return fates;
}

Table causeTable(const std::string& title, By by, const Column& whole, const Column& last,
                 const std::vector<std::size_t>& fates) {
  Table table;
  table.title = title;
  table.columns = {
      {std::string(word(by)), std::string(word(by)), false}, {"boards", "boards", true}, whole};
  for (const std::size_t fate : fates) {
    table.columns.push_back({keyOf(fate), std::string(fateWord(fate)), true});
  }
  table.columns.push_back(last);
  return table;
}

std::int64_t counted(const YieldGroup& group) {
  return static_cast<std::int64_t>(group.boards.size());
}

std::vector<CellValue> feetRow(const YieldGroup& group, const std::vector<std::size_t>& fates) {
  std::vector<CellValue> row{group.name, counted(group), group.sawn};
  for (const std::size_t fate : fates) row.emplace_back(group.feet[fate]);
  row.emplace_back(permille(group.partFeet().thousandths, group.sawn.thousandths));
  return row;
}

std::vector<CellValue> moneyRow(const YieldGroup& group, const std::vector<std::size_t>& fates) {
  std::vector<CellValue> row{group.name, counted(group), group.landed};
  for (const std::size_t fate : fates) row.emplace_back(group.cost[fate]);
  row.emplace_back(group.net());
  return row;
}

}  // namespace

YieldTables yieldReport(const std::vector<SawnBoard>& boards, By by) {
  const std::vector<YieldGroup> groups = grouped(boards, by);
  const YieldGroup all = together(boards);
  const std::vector<std::size_t> fates = fatesOf(all);
  const std::string of = std::string(word(by));
  YieldTables tables;
  tables.feet = causeTable("Yield by " + of + ", board feet", by, {"sawn", "sawn", true},
                           {"yield", "yield", true}, fates);
  tables.money = causeTable("Yield by " + of + ", money", by, {"landed", "landed", true},
                            {"net", "jobs took", true}, fates);
  tables.rows.title = "Yield by " + of;
  tables.rows.columns = {{of, of, false},
                         {"cause", "went to", false},
                         {"volume", "volume", true},
                         {"board_feet", "board feet", true},
                         {"cost", "cost", true},
                         {"share", "of board feet", true}};
  for (const YieldGroup& group : groups) {
    tables.feet.rows.push_back(feetRow(group, fates));
    tables.money.rows.push_back(moneyRow(group, fates));
    tables.feet.boards.push_back(group.boards);
    tables.money.boards.push_back(group.boards);
    for (const std::size_t c : fates) {
      tables.rows.rows.push_back({group.name, std::string(fateWord(c)), group.volume[c],
                                  group.feet[c], group.cost[c],
                                  permille(group.feet[c].thousandths, group.sawn.thousandths)});
    }
  }
  tables.feet.totals = feetRow(all, fates);
  tables.money.totals = moneyRow(all, fates);
  tables.rows.totals = {std::string("all"), std::string("boards sawn"),
                        all.wood,           all.sawn,
                        all.landed,         permille(all.sawn.thousandths, all.sawn.thousandths)};
  tables.feet.note =
      "A part counts at the quarters it was cut from: what planing takes off its thickness shows "
      "in volume only.";
  tables.money.note = "Jobs took: landed cost less what the offcuts carry on.";
  return tables;
}

Table clearReport(const std::vector<SawnBoard>& boards) {
  Table table;
  table.title = "What a board foot in parts really cost";
  table.columns = {{"supplier", "supplier", false},
                   {"grade", "grade", false},
                   {"boards", "boards", true},
                   {"sawn", "board feet", true},
                   {"landed_per_foot", "paid / bf", true},
                   {"parts", "in parts", true},
                   {"yield", "yield", true},
                   {"net", "jobs took", true},
                   {"cost_per_foot", "bf in parts cost", true}};
  const auto row = [](const std::string& supplier, const YieldGroup& group) {
    return std::vector<CellValue>{supplier,
                                  group.name,
                                  counted(group),
                                  group.sawn,
                                  perFoot(group.landed, group.sawn),
                                  group.partFeet(),
                                  permille(group.partFeet().thousandths, group.sawn.thousandths),
                                  group.net(),
                                  perFoot(group.net(), group.partFeet())};
  };
  std::map<std::string, std::vector<SawnBoard>> bySupplier;
  for (const SawnBoard& board : boards) bySupplier[board.name(By::supplier)].push_back(board);
  for (const auto& [supplier, theirs] : bySupplier) {
    for (const YieldGroup& group : grouped(theirs, By::grade)) {
      table.rows.push_back(row(supplier, group));
      table.boards.push_back(group.boards);
    }
  }
  YieldGroup all = together(boards);
  all.name.clear();
  table.totals = row("all", all);
  table.note =
      "Paid is landed cost. The cost in parts leaves out what the offcuts carry on; an offcut sawn "
      "later counts under the board it came from first.";
  return table;
}

Table actualReport(const std::vector<SawnBoard>& boards, const store::Snapshot& snapshot, By by) {
  std::map<std::string, Promised> planned;
  Promised all;
  Promises promises(snapshot);
  for (const SawnBoard& board : boards) {
    const Promised said = promises.of(board);
    planned[board.name(by)] += said;
    all += said;
  }
  Table table;
  const std::string of{word(by)};
  table.title = "Planned and sawn, by " + of;
  table.columns = {{of, of, false},
                   {"boards", "boards", true},
                   {"planned_parts", "bf planned", true},
                   {"parts", "bf in parts", true},
                   {"planned_yield", "planned yield", true},
                   {"yield", "yield", true},
                   {"planned_cost", "planned cost", true},
                   {"cost", "cost", true},
                   {"difference", "difference", true}};
  const auto row = [](const YieldGroup& group, const Promised& said) {
    return std::vector<CellValue>{group.name,
                                  counted(group),
                                  said.parts,
                                  group.partFeet(),
                                  permille(said.parts.thousandths, group.sawn.thousandths),
                                  permille(group.partFeet().thousandths, group.sawn.thousandths),
                                  said.cost,
                                  group.net(),
                                  group.net() - said.cost};
  };
  for (const YieldGroup& group : grouped(boards, by)) {
    table.rows.push_back(row(group, planned[group.name]));
    table.boards.push_back(group.boards);
  }
  table.totals = row(together(boards), all);
  return table;
}

}  // namespace flitch::desk
