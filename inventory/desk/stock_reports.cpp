#include <QDate>
#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "inventory/desk/bench.h"
#include "inventory/desk/ledger_reports.h"

namespace flitch::desk {

namespace {

QDate dateOf(const std::string& day) {
  return QDate::fromString(QString::fromStdString(day), Qt::ISODate);
}

std::string counted(std::size_t n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

/// An offcut that sawing kept, as it was then.
struct Kept {
  std::string day;
  Money worth;
};

std::map<BoardId, Kept> keptOffcuts(const store::Snapshot& snapshot,
                                    const std::vector<store::DoneCutting>& done) {
  std::set<EntryId> entries;
  for (const store::DoneCutting& cutting : done) entries.insert(cutting.entry);
  std::map<BoardId, Kept> kept;
  for (const EntryId entry : entries) {
    const std::string day = dayAt(snapshot.entry(entry).value().at);
    for (const Move& move : snapshot.moves(entry)) {
      if (move.target == AccountKind::board) kept[move.targetBoard] = {day, move.cost};
    }
  }
  return kept;
}

struct Band {
  const char* name;
  int months;  ///< up to so many
};
constexpr Band bands[] = {{"to 3 months", 3},
                          {"3 to 6", 6},
                          {"6 to 12", 12},
                          {"over 12", std::numeric_limits<int>::max()}};

struct Fate {
  std::int64_t count = 0;
  Money worth;
  void add(Money more) {
    ++count;
    worth += more;
  }
};
struct Fates {
  Fate kept, used, here, gone;
  std::vector<BoardId> boards;
};

}  // namespace

int monthsBetween(const std::string& from, const std::string& to) {
  const QDate a = dateOf(from), b = dateOf(to);
  if (!a.isValid() || !b.isValid() || b <= a) return 0;
  int months = (b.year() - a.year()) * 12 + b.month() - a.month();
  // The last day of a month is a month after that of a longer one.
  while (months > 0 && a.addMonths(months) > b) --months;
  return months;
}

std::string cameOn(const store::Snapshot& snapshot, const Board& board) {
  if (board.delivery && !board.parent) {
    if (const auto draft = snapshot.delivery(board.delivery)) return draft->receivedOn;
  }
  const std::optional<EntryId> entry = snapshot.cameIn(board.id);
  return entry ? dayAt(snapshot.entry(*entry).value().at) : "";
}

Table keptReport(const store::Snapshot& snapshot, const std::string& day) {
  const std::vector<store::DoneCutting> done = snapshot.doneCuttings(std::nullopt);
  std::set<BoardId> sawn;
  for (const store::DoneCutting& cutting : done) sawn.insert(cutting.board.id);
  Fates all;
  std::map<std::size_t, Fates> byAge;
  for (const auto& [id, kept] : keptOffcuts(snapshot, done)) {
    const int months = monthsBetween(kept.day, day);
    std::size_t band = 0;
    while (months >= bands[band].months) ++band;
    const bool here = snapshot.board(id).value().onRack();
    const std::optional<store::Leaving> leaving =
        here || sawn.contains(id) ? std::nullopt : snapshot.leaving(id);
    const bool used = sawn.contains(id) || (leaving && leaving->target == AccountKind::byHand);
    for (Fates* fates : {&byAge[band], &all}) {
      fates->kept.add(kept.worth);
      (used ? fates->used : here ? fates->here : fates->gone).add(kept.worth);
      fates->boards.push_back(id);
    }
  }
  Table table;
  table.title = "Offcuts kept, by how long ago";
  table.columns = {{"age", "kept", false},        {"offcuts", "offcuts", true},
                   {"worth", "worth then", true}, {"used", "used", true},
                   {"used_worth", "worth", true}, {"here", "on the rack", true},
                   {"here_worth", "worth", true}, {"gone", "left otherwise", true},
                   {"gone_worth", "worth", true}, {"used_share", "used of worth", true}};
  const auto row = [](const std::string& name, const Fates& fates) {
    return std::vector<CellValue>{name,
                                  fates.kept.count,
                                  fates.kept.worth,
                                  fates.used.count,
                                  fates.used.worth,
                                  fates.here.count,
                                  fates.here.worth,
                                  fates.gone.count,
                                  fates.gone.worth,
                                  permille(fates.used.worth.raw(), fates.kept.worth.raw())};
  };
  for (const auto& [band, fates] : byAge) {
    table.rows.push_back(row(bands[band].name, fates));
    table.boards.push_back(fates.boards);
  }
  table.totals = row("all", all);
  table.note = "Is the keeping rule worth it? Of " +
               counted(static_cast<std::size_t>(all.kept.count), "offcut", "offcuts") + " kept " +
               std::to_string(all.used.count) +
               (all.used.count == 1 ? " was used." : " were used.");
  return table;
}

Table oldReport(const store::Snapshot& snapshot, const std::string& day, int months) {
  struct Old {
    std::string since;
    int months;
    Board board;
  };
  std::vector<Old> old;
  for (Board& board : snapshot.rack()) {
    const std::string since = cameOn(snapshot, board);
    const int age = monthsBetween(since, day);
    if (!since.empty() && age >= months) old.push_back({since, age, std::move(board)});
  }
  std::stable_sort(old.begin(), old.end(),
                   [](const Old& a, const Old& b) { return a.since < b.since; });
  Table table;
  table.title = "On the rack for " + std::to_string(months) + (months == 1 ? " month" : " months") +
                " or longer";
  table.columns = {{"tag", "tag", false},          {"species", "species", false},
                   {"nominal", "quarters", false}, {"length", "length", true},
                   {"width", "width", true},       {"board_feet", "board feet", true},
                   {"value", "value", true},       {"bay", "bay", false},
                   {"since", "since", false},      {"months", "months", true}};
  Feet feet;
  Money value;
  for (const Old& each : old) {
    const Board& board = each.board;
    table.rows.push_back({board.tagText(), board.species, text(board.nominal), board.length(),
                          board.widthAtTag(), board.measuredFeet, board.cost, board.bay, each.since,
                          static_cast<std::int64_t>(each.months)});
    table.boards.push_back({board.id});
    feet += board.measuredFeet;
    value += board.cost;
  }
  table.totals = {counted(old.size(), "board", "boards"), {}, {}, {}, {}, feet, value, {}, {}, {}};
  return table;
}

EntryId lastEntryOn(const store::Snapshot& snapshot, const std::string& day) {
  // The newest first: the days asked for are mostly near.
  for (const store::EntryLine& line : snapshot.entries(std::numeric_limits<int>::max())) {
    if (dayAt(line.at) <= day) return line.id;
  }
  return {};
}

Table stockOn(const store::Snapshot& snapshot, const std::string& day) {
  struct Sum {
    std::vector<BoardId> boards;
    Feet feet;
    CubicMillimetres volume;
    Money value;
  };
  std::map<std::pair<std::string, Nominal>, Sum> sums;
  Sum all;
  for (const auto& [id, balance] : snapshot.balancesAt(lastEntryOn(snapshot, day))) {
    const Board board = snapshot.board(id).value();
    for (Sum* sum : {&sums[{board.species, board.nominal}], &all}) {
      sum->boards.push_back(id);
      sum->feet += board.measuredFeet;
      sum->volume += balance.volume;
      sum->value += balance.cost;
    }
  }
  Table table;
  table.title = "Stock at the end of " + day;
  table.columns = {{"species", "species", false}, {"nominal", "quarters", false},
                   {"boards", "boards", true},    {"board_feet", "board feet", true},
                   {"volume", "volume", true},    {"value", "value", true}};
  for (const auto& [key, sum] : sums) {
    table.rows.push_back({key.first, text(key.second), static_cast<std::int64_t>(sum.boards.size()),
                          sum.feet, sum.volume, sum.value});
    table.boards.push_back(sum.boards);
  }
  table.totals = {std::string("all"), {},         static_cast<std::int64_t>(all.boards.size()),
                  all.feet,           all.volume, all.value};
  table.note =
      "Volume and value as the ledger's moves left them that day; board feet as measured since.";
  return table;
}

Table boardsBehind(const store::Snapshot& snapshot, const std::vector<BoardId>& boards) {
  std::map<BoardId, Board> asSawn;
  for (store::DoneCutting& done : snapshot.doneCuttings(std::nullopt)) {
    const BoardId id = done.board.id;
    asSawn.emplace(id, std::move(done.board));
  }
  Table table;
  table.columns = {{"tag", "tag", false},          {"species", "species", false},
                   {"nominal", "quarters", false}, {"length", "length", true},
                   {"width", "width", true},       {"board_feet", "board feet", true},
                   {"value", "value", true},       {"state", "now", false}};
  Feet feet;
  Money value;
  for (const BoardId id : boards) {
    const auto sawn = asSawn.find(id);
    const Board board = sawn == asSawn.end() ? snapshot.board(id).value() : sawn->second;
    const std::string state = sawn != asSawn.end() ? "sawn"
                              : board.onRack()     ? "on the rack"
                                                   : "left otherwise";
    table.rows.push_back({board.tagText(), board.species, text(board.nominal), board.length(),
                          board.widthAtTag(), board.measuredFeet, board.cost, state});
    table.boards.push_back({id});
    feet += board.measuredFeet;
    value += board.cost;
  }
  table.totals = {counted(boards.size(), "board", "boards"), {}, {}, {}, {}, feet, value, {}};
  return table;
}

}  // namespace flitch::desk
