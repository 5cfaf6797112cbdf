#include "inventory/desk/family.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/bench.h"
#include "inventory/desk/sawn_boards.h"

namespace flitch::desk {

namespace {

std::string named(const Board& board) {
  return board.tag ? text(*board.tag) : "board " + std::to_string(board.id.value);
}

std::string logOf(const Board& board) {
  if (board.log.empty()) return "";
  return "log " + board.log +
         (board.placeInLog > 0 ? ", place " + std::to_string(board.placeInLog) : "");
}

class Gathering {
 public:
  Gathering(const store::Snapshot& snapshot, Unit unit) : snapshot_(snapshot), unit_(unit) {
    for (store::DoneCutting& done : snapshot.doneCuttings(std::nullopt)) {
      const BoardId id = done.board.id;
      done_.emplace(id, std::move(done));
    }
    for (const store::SpoiledPiece& piece : snapshot.spoiled(std::nullopt)) {
      spoiled_.emplace(piece.cutting, piece.piece);
    }
  }

  void add(const Board& now, int depth, std::vector<FamilyLine>& lines) {
    const auto sawn = done_.find(now.id);
    const Board& board = sawn == done_.end() ? now : sawn->second.board;
    FamilyLine line{
        FamilyLine::Kind::board, depth, board.id, named(board), {}, {}, {}, board.wood, board.cost};
    line.what = board.species + " " + text(board.nominal) + ", " + sizeText(board, unit_);
    if (sawn == done_.end()) {
      tellFate(board, line);
      lines.push_back(line);
      for (const BoardId child : snapshot_.childrenOf(now.id)) {
        add(snapshot_.board(child).value(), depth + 1, lines);
      }
      return;
    }
    const store::DoneCutting& done = sawn->second;
    const Job job = snapshot_.job(done.job).value();
    line.where = "sawn for " + job.name;
    line.day = dayOf(done.entry);
    lines.push_back(line);
    addPieces(done, job, depth + 1, lines);
  }

 private:
  [[nodiscard]] std::string dayOf(EntryId entry) const {
    return dayAt(snapshot_.entry(entry).value().at);
  }

  void tellFate(const Board& board, FamilyLine& line) const {
    if (board.onRack()) {
      line.where = board.bay.empty() ? "on the rack" : "on the rack, bay " + board.bay;
      if (board.reservedFor) line.where += ", held for " + board.reservedName;
      return;
    }
    if (const auto leaving = snapshot_.leaving(board.id)) {
      line.where = leaving->target == AccountKind::board ? "cut up without a plan"
                                                         : std::string(word(leaving->target));
      line.volume = leaving->volume;
      line.cost = leaving->cost;
      line.day = dayOf(leaving->entry);
    }
  }

  /// Parts and offcuts one by one, waste by its cause: as the entry posted them.
  void addPieces(const store::DoneCutting& done, const Job& job, int depth,
                 std::vector<FamilyLine>& lines) {
    std::map<AccountKind, store::Balance> waste;
    for (const Move& move : snapshot_.moves(done.entry)) {
      if (move.source != AccountKind::board || move.sourceBoard != done.board.id) continue;
      if (move.target == AccountKind::board) {
        add(snapshot_.board(move.targetBoard).value(), depth, lines);
      } else if (move.target == AccountKind::parts && move.piece >= 0) {
        lines.push_back(partLine(done, job, move, depth));
      } else {
        waste[move.target].volume += move.volume;
        waste[move.target].cost += move.cost;
      }
    }
    for (const auto& [kind, sum] : waste) {
      lines.push_back({FamilyLine::Kind::waste,
                       depth,
                       {},
                       std::string(word(kind)),
                       {},
                       {},
                       {},
                       sum.volume,
                       sum.cost});
    }
  }

  [[nodiscard]] FamilyLine partLine(const store::DoneCutting& done, const Job& job,
                                    const Move& move, int depth) const {
    const Piece& piece = done.cutting.pieces.at(static_cast<std::size_t>(move.piece));
    FamilyLine line{FamilyLine::Kind::part,
                    depth,
                    {},
                    handMark(piece.line, piece.copy),
                    {},
                    job.name,
                    {},
                    move.volume,
                    move.cost};
    for (const Part& part : job.parts) {
      if (part.line == piece.line) line.what = part.name;
    }
    if (spoiled_.contains({done.id, move.piece})) {
      line.kind = FamilyLine::Kind::spoiled;
      line.where += ", spoiled since";
    }
    return line;
  }

  const store::Snapshot& snapshot_;
  Unit unit_;
  std::map<BoardId, store::DoneCutting> done_;
  std::set<std::pair<CuttingId, int>> spoiled_;
};

}  // namespace

Family familyOf(const store::Snapshot& snapshot, const Board& board, Unit unit) {
  Origins origins(snapshot);
  const Board first = origins.of(board);
  Family family;
  family.delivery = origins.delivery(first);
  family.log = logOf(first);
  if (!first.log.empty() && first.delivery) {
    std::vector<Board> sisters;
    for (const BoardId id : snapshot.boardsOf(first.delivery)) {
      Board sister = snapshot.board(id).value();
      if (sister.log == first.log && sister.id != first.id) sisters.push_back(std::move(sister));
    }
    std::stable_sort(sisters.begin(), sisters.end(),
                     [](const Board& a, const Board& b) { return a.placeInLog < b.placeInLog; });
    for (const Board& sister : sisters) family.sisters.push_back(named(sister));
  }
  Gathering(snapshot, unit).add(first, 0, family.lines);
  return family;
}

Table familyTable(const Family& family, BoardId asked) {
  Table table;
  table.title = "Family: " + family.delivery + (family.log.empty() ? "" : "; " + family.log);
  table.columns = {{"piece", "piece", false}, {"depth", "generation", true},
                   {"what", "what", false},   {"where", "what became of it", false},
                   {"day", "on", false},      {"volume", "volume", true},
                   {"cost", "cost", true}};
  for (const FamilyLine& line : family.lines) {
    std::string name(static_cast<std::size_t>(2 * line.depth), ' ');
    name += line.name;
    if (line.kind == FamilyLine::Kind::board && line.board == asked) name += " (asked)";
    table.rows.push_back({name, static_cast<std::int64_t>(line.depth), line.what, line.where,
                          line.day, line.volume, line.cost});
    table.boards.push_back(line.board ? std::vector<BoardId>{line.board} : std::vector<BoardId>{});
  }
  if (!family.sisters.empty()) {
    table.note = "Of the same log: ";
    for (std::size_t n = 0; n < family.sisters.size(); ++n) {
      table.note += (n > 0 ? ", " : "") + family.sisters[n];
    }
    table.note += ". ";
  }
  table.note += "A board sawn stands with what it held before the saw.";
  return table;
}

}  // namespace flitch::desk
