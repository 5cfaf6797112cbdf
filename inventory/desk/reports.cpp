#include "inventory/desk/reports.h"

#include <algorithm>
#include <array>
#include <map>

#include "inventory/wood/split.h"

namespace flitch::desk {

namespace {

Permille shareOf(CubicMillimetres part, CubicMillimetres whole) {
  if (whole.value <= 0) return {};
  const Wide twice = static_cast<Wide>(part.value) * 2000;
  return {static_cast<std::int64_t>((twice + whole.value) / (2 * static_cast<Wide>(whole.value)))};
}

std::string tagOf(const Board& board) { return board.tag ? text(*board.tag) : ""; }

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

Cause causeOf(AccountKind kind) {
  if (kind == AccountKind::board) return Cause::offcuts;
  for (std::size_t c = 0; c < causeCount; ++c) {
    const auto cause = static_cast<Cause>(c);
    if (cause != Cause::offcuts && accountOf(cause) == kind) return cause;
  }
  throw std::logic_error("a cutting posted to an account that is no cause");
}

/// Of the feet of a board's parts what its spoiled ones take, by volume.
Feet feetLost(const Breakdown& breakdown, CuttingId cutting,
              const std::vector<store::SpoiledPiece>& spoiled) {
  std::vector<Wide> volumes;
  std::vector<int> pieces;
  for (const Share& share : breakdown.shares) {
    if (share.cause != Cause::parts) continue;
    volumes.push_back(share.volume.value);
    pieces.push_back(share.piece);
  }
  Feet lost;
  if (volumes.empty()) return lost;
  const std::vector<std::int64_t> feet =
      split(breakdown.feet[static_cast<std::size_t>(Cause::parts)].thousandths, volumes);
  for (const store::SpoiledPiece& piece : spoiled)
    for (std::size_t p = 0; p < pieces.size(); ++p)
      if (piece.cutting == cutting && piece.piece == pieces[p]) lost.thousandths += feet[p];
  return lost;
}

}  // namespace

Table wasteReport(const store::Snapshot& snapshot, std::optional<JobId> jobId) {
  // Volume and money as they were posted; feet are not on the ledger and are shared again.
  std::array<CubicMillimetres, causeCount> volume{};
  std::array<Feet, causeCount> feet{};
  std::array<Money, causeCount> cost{};
  CubicMillimetres allVolume;
  Feet allFeet;
  Money allCost;
  std::size_t boards = 0;
  Feet lostFeet;
  const std::vector<store::SpoiledPiece> spoiled = snapshot.spoiled(jobId);
  for (const store::DoneCutting& done : snapshot.doneCuttings(jobId)) {
    const Job job = snapshot.job(done.job).value();
    const ShopProfile shop = snapshot.profile(done.profile).value();
    const Breakdown breakdown = account(done.cutting, done.board, job, shop, done.tick);
    for (std::size_t c = 0; c < causeCount; ++c) feet[c] += breakdown.feet[c];
    lostFeet += feetLost(breakdown, done.id, spoiled);
    allFeet += done.board.measuredFeet;
    ++boards;
  }
  store::LedgerSum lost;
  for (const store::LedgerSum& sum : snapshot.sawnSums(jobId)) {
    allVolume += sum.volume;
    allCost += sum.cost;
    if (sum.target == AccountKind::lost) {
      lost = sum;
      continue;
    }
    const auto c = static_cast<std::size_t>(causeOf(sum.target));
    volume[c] += sum.volume;
    cost[c] += sum.cost;
  }
  feet[static_cast<std::size_t>(Cause::parts)].thousandths -= lostFeet.thousandths;
  Table table;
  table.title = "What became of the boards sawn" + ofJob(snapshot, " for ", jobId);
  table.columns = {{"cause", "went to", false},
                   {"volume", "volume", true},
                   {"board_feet", "board feet", true},
                   {"cost", "cost", true},
                   {"share", "of volume", true}};
  for (std::size_t c = 0; c < causeCount; ++c) {
    table.rows.push_back({std::string(word(static_cast<Cause>(c))), volume[c], feet[c], cost[c],
                          shareOf(volume[c], allVolume)});
    if (c == 0 && lost.volume.value > 0) {
      table.rows.push_back({std::string("spoiled"), lost.volume, lostFeet, lost.cost,
                            shareOf(lost.volume, allVolume)});
    }
  }
  table.totals = {std::string("boards sawn"), allVolume, allFeet, allCost,
                  shareOf(allVolume, allVolume)};
  const store::LedgerSum byHand = snapshot.usedByHand(jobId);
  if (byHand.volume.value > 0) {
    table.rows.push_back(table.totals);
    table.rows.push_back({std::string("used by hand"), byHand.volume, {}, byHand.cost, {}});
    allVolume += byHand.volume;
    allCost += byHand.cost;
    table.totals = {std::string("in all"), allVolume, {}, allCost, {}};
  }
  table.note = std::to_string(boards) + (boards == 1 ? " board" : " boards") +
               ". Board feet are the boards' measured feet shared by area: planing in thickness "
               "shows in volume only.";
  return table;
}

Table offcutReport(const store::Snapshot& snapshot, std::optional<JobId> jobId) {
  std::map<BoardId, std::string> from;  // the job whose sawing left it
  for (const store::DoneCutting& done : snapshot.doneCuttings(jobId)) {
    const std::optional<Job> job = snapshot.job(done.job);
    for (const auto& [piece, board] : done.became) from[board] = job ? job->name : "";
  }
  Table table;
  table.title = "Offcuts on the rack" + ofJob(snapshot, " from ", jobId);
  table.columns = {{"tag", "tag", false},          {"species", "species", false},
                   {"nominal", "quarters", false}, {"length", "length", true},
                   {"width", "width", true},       {"board_feet", "board feet", true},
                   {"value", "value", true},       {"parent", "parent", false},
                   {"job", "job", false},          {"bay", "bay", false}};
  Feet feet;
  Money value;
  for (const Board& board : snapshot.rack()) {
    if (board.kind != BoardKind::offcut || (jobId && !from.contains(board.id))) continue;
    const std::optional<Board> parent = board.parent ? snapshot.board(board.parent) : std::nullopt;
    table.rows.push_back({tagOf(board), board.species, text(board.nominal), board.length(),
                          board.widthAtTag(), board.measuredFeet, board.cost,
                          parent ? tagOf(*parent) : "", from[board.id], board.bay});
    feet += board.measuredFeet;
    value += board.cost;
  }
  const std::string count = std::to_string(table.rows.size());
  table.totals = {count + (table.rows.size() == 1 ? " offcut" : " offcuts"),
                  {},
                  {},
                  {},
                  {},
                  feet,
                  value,
                  {},
                  {},
                  {}};
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
        {tagOf(board), board.species, text(board.nominal), board.length(), board.widthAtTag(),
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
