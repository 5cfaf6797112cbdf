#include "inventory/desk/reports.h"

#include <algorithm>
#include <array>
#include <map>

#include "inventory/desk/ledger_reports.h"

namespace flitch::desk {

namespace {

std::string stateOf(const Board& board) {
  if (board.keptBack) return "kept back";
  if (board.reservedFor) return "for " + board.reservedName;
  if (!board.readings.empty() && board.readings.back().state != MoistureState::ready) {
    return std::string(word(board.readings.back().state));
  }
  return "free";
}

std::string lookedOf(const Board& board) {
  if (board.looked[0] == board.looked[1]) return std::string(word(board.looked[0]));
  return "A " + std::string(word(board.looked[0])) + ", B " + std::string(word(board.looked[1]));
}

}  // namespace

namespace {

/// " of Map chest", or nothing.
std::string ofJob(const store::Snapshot& snapshot, const char* before, std::optional<JobId> job) {
  const std::optional<Job> named = job ? snapshot.job(*job) : std::nullopt;
  return named ? before + named->name : "";
}

}  // namespace

Table wasteReport(const store::Snapshot& snapshot, std::optional<JobId> jobId) {
  const YieldGroup all = together(sawnBoards(snapshot, jobId));
  Table table;
  table.title = "What became of the boards sawn" + ofJob(snapshot, " for ", jobId);
  table.columns = {{"cause", "went to", false},
                   {"volume", "volume", true},
                   {"board_feet", "board feet", true},
                   {"cost", "cost", true},
                   {"share", "of volume", true}};
  const auto row = [&](std::size_t fate) {
    table.rows.push_back({std::string(fateWord(fate)), all.volume[fate], all.feet[fate],
                          all.cost[fate], permille(all.volume[fate].value, all.wood.value)});
  };
  for (std::size_t c = 0; c < causeCount; ++c) {
    row(c);
    // What was spoiled stands beside the parts it was.
    if (c == 0 && all.volume[spoiledFate].value > 0) row(spoiledFate);
    if (c == static_cast<std::size_t>(Cause::offcuts) && all.volume[binFate].value > 0) {
      row(binFate);
    }
  }
  table.totals = {std::string("boards sawn"), all.wood, all.sawn, all.landed,
                  permille(all.wood.value, all.wood.value)};
  const store::LedgerSum byHand = snapshot.usedByHand(jobId);
  if (byHand.volume.value > 0) {
    table.rows.push_back(table.totals);
    table.rows.push_back({std::string("used by hand"), byHand.volume, {}, byHand.cost, {}});
    table.totals = {
        std::string("in all"), all.wood + byHand.volume, {}, all.landed + byHand.cost, {}};
  }
  const std::size_t boards = all.boards.size();
  table.note = std::to_string(boards) + (boards == 1 ? " board" : " boards") +
               ". Board feet are the boards' measured feet shared by area: planing in thickness "
               "shows in volume only.";
  return table;
}

Table offcutReport(const store::Snapshot& snapshot, const std::string& day,
                   std::optional<JobId> jobId) {
  std::map<BoardId, std::string> from;  // the job whose sawing left it
  for (const store::DoneCutting& done : snapshot.doneCuttings(jobId)) {
    const std::optional<Job> job = snapshot.job(done.job);
    for (const auto& [piece, board] : done.became) from[board] = job ? job->name : "";
  }
  Table table;
  table.title = "Offcuts on the rack" + ofJob(snapshot, " from ", jobId);
  table.columns = {
      {"tag", "tag", false},      {"species", "species", false}, {"nominal", "quarters", false},
      {"length", "length", true}, {"width", "width", true},      {"board_feet", "board feet", true},
      {"value", "value", true},   {"parent", "parent", false},   {"job", "job", false},
      {"bay", "bay", false},      {"months", "months", true}};
  Feet feet;
  Money value;
  for (const Board& board : snapshot.rack()) {
    if (board.kind != BoardKind::offcut || (jobId && !from.contains(board.id))) continue;
    const std::optional<Board> parent = board.parent ? snapshot.board(board.parent) : std::nullopt;
    table.boards.push_back({board.id});
    table.rows.push_back({board.tagText(), board.species, text(board.nominal), board.length(),
                          board.widthAtTag(), board.measuredFeet, board.cost,
                          parent ? parent->tagText() : "", from[board.id], board.bay,
                          static_cast<std::int64_t>(monthsBetween(cameOn(snapshot, board), day))});
    feet += board.measuredFeet;
    value += board.cost;
  }
  const std::string count = std::to_string(table.rows.size());
  table.totals.resize(table.columns.size());
  table.totals[0] = count + (table.rows.size() == 1 ? " offcut" : " offcuts");
  table.totals[5] = feet;
  table.totals[6] = value;
  return table;
}

Table stockReport(const store::Snapshot& snapshot, std::optional<JobId> jobId) {
  struct Sum {
    std::int64_t boards = 0;
    Feet feet;
    Money value;
  };
  std::map<std::pair<std::string, Nominal>, Sum> sums;
  Sum all;
  for (const Board& board : snapshot.rack()) {
    if (jobId && board.reservedFor != *jobId) continue;
    for (Sum* sum : {&sums[{board.species, board.nominal}], &all}) {
      ++sum->boards;
      sum->feet += board.measuredFeet;
      sum->value += board.cost;
    }
  }
  Table table;
  table.title = "Stock on the rack" + ofJob(snapshot, " held for ", jobId);
  table.columns = {{"species", "species", false},
                   {"nominal", "quarters", false},
                   {"boards", "boards", true},
                   {"board_feet", "board feet", true},
                   {"value", "value", true}};
  for (const auto& [key, sum] : sums) {
    table.rows.push_back({key.first, text(key.second), sum.boards, sum.feet, sum.value});
  }
  table.totals = {std::string("all"), {}, all.boards, all.feet, all.value};
  return table;
}

Table rackTable(const std::vector<Board>& boards) {
  Table table;
  table.title = "Rack";
  table.columns = {{"tag", "tag", false},
                   {"species", "species", false},
                   {"nominal", "quarters", false},
                   {"length", "length", true},
                   {"width", "width", true},
                   {"width_far", "far", true},
                   {"board_feet", "board feet", true},
                   {"grade", "grade", false},
                   {"value", "value", true},
                   {"bay", "bay", false},
                   {"marks", "marks", true},
                   {"looked", "looked at", false},
                   {"state", "state", false}};
  Feet feet;
  Money value;
  for (const Board& board : boards) {
    const bool even = board.widthAtTag() == board.widthAtFar();
    table.rows.push_back(
        {board.tagText(), board.species, text(board.nominal), board.length(), board.widthAtTag(),
         even ? CellValue{} : CellValue{board.widthAtFar()}, board.measuredFeet,
         board.kind == BoardKind::offcut ? "offcut" : board.grade, board.cost, board.bay,
         static_cast<std::int64_t>(board.defects.size()), lookedOf(board), stateOf(board)});
    feet += board.measuredFeet;
    value += board.cost;
  }
  const std::string count = std::to_string(boards.size());
  table.totals = {count + (boards.size() == 1 ? " board" : " boards"),
                  {},
                  {},
                  {},
                  {},
                  {},
                  feet,
                  {},
                  value,
                  {},
                  {},
                  {},
                  {}};
  return table;
}

}  // namespace flitch::desk
