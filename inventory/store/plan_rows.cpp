#include "inventory/store/plan_rows.h"

#include <algorithm>
#include <map>
#include <unordered_map>

#include "inventory/exchange/json.h"
#include "inventory/store/board_rows.h"

namespace flitch::store {

namespace {

Piece pieceOf(Row& row) {
  Piece piece;
  row >> piece.depth >> piece.kind >> piece.at.x >> piece.at.y >> piece.at.dx >> piece.at.dy >>
      piece.faceUp >> piece.frontEdge >> piece.line >> piece.copy;
  return piece;
}

/// Follows the cutting's id in a row of layups.
Layup layupOf(Row& row) {
  Layup layup;
  row >> layup.piece >> layup.kind >> layup.copy >> layup.slot >> layup.section >> layup.turned >>
      layup.gives;
  return layup;
}

constexpr const char* layupColumns =
    "l.place, l.kind, l.copy, l.slot, l.section, l.turned, l.gives ";

}  // namespace

std::optional<StoredPlan> readPlan(Database& database, PlanId id) {
  std::optional<StoredPlan> stored;
  database.each(
      "SELECT id, job, profile, choices, tick, wood_cost, cut_cost, offcut_worth, shortage_cost, "
      "bound, bound_kind, ending, hand_rule, careful_hand, seed, effort, program, entry "
      "FROM plans WHERE id = ?",
      [&](Row& row) {
        StoredPlan& s = stored.emplace();
        row >> s.plan.id >> s.plan.job >> s.plan.profile;
        s.plan.choices = exchange::readChoices(row.next<std::string>());
        row >> s.plan.tick >> s.plan.woodCost >> s.plan.cutCost >> s.plan.offcutWorth >>
            s.plan.shortageCost >> s.plan.bound >> s.plan.boundKind >> s.plan.ending >>
            s.plan.handRule >> s.plan.carefulHand >> s.plan.seed >> s.plan.effort >>
            s.plan.program >> s.kept;
      },
      id);
  if (!stored) return stored;
  database.each(
      "SELECT line, copies, unseen_only, reason FROM plan_shorts WHERE plan = ? ORDER BY place",
      [&](Row& row) {
        ShortPart& part = stored->plan.shorts.emplace_back();
        row >> part.line >> part.copies >> part.unseenOnly >> part.reason;
      },
      id);
  database.each(
      "SELECT line FROM plan_waiting WHERE plan = ? ORDER BY place",
      [&](Row& row) { stored->plan.waiting.push_back(row.next<int>()); }, id);
  CuttingId last;
  std::map<CuttingId, std::size_t> places;  // in the plan's list
  database.each(
      "SELECT k.id, k.board, p.depth, p.kind, p.x, p.y, p.dx, p.dy, p.face_up, p.front_edge, "
      "p.line, p.copy FROM cuttings k JOIN pieces p ON p.cutting = k.id "
      "WHERE k.plan = ? AND k.entry IS NULL ORDER BY k.id, p.place",
      [&](Row& row) {
        const auto cutting = row.next<CuttingId>();
        const auto board = row.next<BoardId>();
        if (cutting != last) {
          stored->plan.cuttings.push_back({board, {}, {}});
          places.emplace(cutting, stored->plan.cuttings.size() - 1);
        }
        last = cutting;
        stored->plan.cuttings.back().pieces.push_back(pieceOf(row));
      },
      id);
  database.each(
      std::string("SELECT k.id, ") + layupColumns +
          "FROM cuttings k JOIN layups l ON l.cutting = k.id "
          "WHERE k.plan = ? AND k.entry IS NULL ORDER BY k.id, l.place, l.number",
      [&](Row& row) {
        Cutting& cutting = stored->plan.cuttings[places.at(row.next<CuttingId>())];
        cutting.layups.push_back(layupOf(row));
      },
      id);
  database.each(
      "SELECT k.board FROM cuttings k LEFT JOIN entries r ON r.reverses = k.entry "
      "WHERE k.plan = ? AND k.entry IS NOT NULL AND r.id IS NULL ORDER BY k.id",
      [&](Row& row) { stored->sawn.push_back(row.next<BoardId>()); }, id);
  return stored;
}

void insertPlan(Database& database, const CutPlan& plan, EntryId entry) {
  database.run(
      "INSERT INTO plans (id, job, profile, choices, tick, wood_cost, cut_cost, offcut_worth, "
      "shortage_cost, bound, bound_kind, ending, hand_rule, careful_hand, seed, effort, program, "
      "entry, version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      plan.id, plan.job, plan.profile, exchange::writeChoices(plan.choices), plan.tick,
      plan.woodCost, plan.cutCost, plan.offcutWorth, plan.shortageCost, plan.bound, plan.boundKind,
      plan.ending, plan.handRule, plan.carefulHand, plan.seed, plan.effort, plan.program, entry,
      entry);
  int place = 0;
  for (const ShortPart& part : plan.shorts) {
    database.run(
        "INSERT INTO plan_shorts (plan, place, line, copies, unseen_only, reason) "
        "VALUES (?, ?, ?, ?, ?, ?)",
        plan.id, place++, part.line, part.copies, part.unseenOnly, part.reason);
  }
  place = 0;
  for (const int line : plan.waiting) {
    database.run("INSERT INTO plan_waiting (plan, place, line) VALUES (?, ?, ?)", plan.id, place++,
                 line);
  }
  for (const Cutting& cutting : plan.cuttings)
    insertCutting(database, cutting, plan.id, {}, {}, {});
}

CuttingId insertCutting(Database& database, const Cutting& cutting, PlanId plan, EntryId entry,
                        const std::map<int, BoardId>& became, const std::map<int, BinId>& binned) {
  const CuttingId id{nextNumber(database, "cutting")};
  database.run("INSERT INTO cuttings (id, board, plan, entry) VALUES (?, ?, ?, ?)", id,
               cutting.board, plan, entry);
  int place = 0;
  for (const Piece& piece : cutting.pieces) {
    const auto board = became.find(place);
    const auto bin = binned.find(place);
    database.run(
        "INSERT INTO pieces (cutting, place, depth, kind, x, y, dx, dy, face_up, front_edge, "
        "line, copy, became, bin) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        id, place, piece.depth, piece.kind, piece.at.x, piece.at.y, piece.at.dx, piece.at.dy,
        piece.faceUp, piece.frontEdge, piece.line, piece.copy,
        board == became.end() ? BoardId{} : board->second,
        bin == binned.end() ? BinId{} : bin->second);
    ++place;
  }
  std::map<int, int> numbers;  // of layups, for each piece
  for (const Layup& l : cutting.layups) {
    database.run(
        "INSERT INTO layups (cutting, place, number, kind, copy, slot, section, turned, gives) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
        id, l.piece, numbers[l.piece]++, l.kind, l.copy, l.slot, l.section, l.turned, l.gives);
  }
  return id;
}

std::vector<DoneCutting> readDone(Database& database, std::optional<JobId> job) {
  const std::int64_t only = job ? job->value : 0;
  std::vector<DoneCutting> done;
  std::unordered_map<BoardId, Board> boards;
  for (Board& board : readBoards(database, boardsSawn())) {
    const BoardId id = board.id;
    boards.emplace(id, std::move(board));
  }
  constexpr const char* standing =
      "FROM cuttings k JOIN plans q ON q.id = k.plan LEFT JOIN entries r ON r.reverses = k.entry "
      "WHERE k.entry IS NOT NULL AND r.id IS NULL AND (q.job = ? OR ? = 0)";
  database.each(
      std::string("SELECT k.id, k.entry, k.plan, q.job, k.board, q.tick, q.profile ") + standing +
          " ORDER BY k.id",
      [&](Row& row) {
        DoneCutting& d = done.emplace_back();
        row >> d.id >> d.entry >> d.plan >> d.job >> d.cutting.board >> d.tick >> d.profile;
        d.board = boards.at(d.cutting.board);
      },
      only, only);
  const auto doneOf = [&](CuttingId id) -> DoneCutting& {
    return *std::lower_bound(done.begin(), done.end(), id,
                             [](const DoneCutting& d, CuttingId key) { return d.id < key; });
  };
  database.each(
      std::string("SELECT p.cutting, p.depth, p.kind, p.x, p.y, p.dx, p.dy, p.face_up, "
                  "p.front_edge, p.line, p.copy, p.became, p.bin FROM pieces p WHERE p.cutting IN "
                  "(SELECT k.id ") +
          standing + ") ORDER BY p.cutting, p.place",
      [&](Row& row) {
        DoneCutting& d = doneOf(row.next<CuttingId>());
        d.cutting.pieces.push_back(pieceOf(row));
        const int place = static_cast<int>(d.cutting.pieces.size()) - 1;
        if (const auto board = row.next<BoardId>()) d.became.emplace(place, board);
        if (const auto bin = row.next<BinId>()) d.binned.emplace(place, bin);
      },
      only, only);
  database.each(
      std::string("SELECT l.cutting, ") + layupColumns +
          "FROM layups l WHERE l.cutting IN (SELECT k.id " + standing +
          ") ORDER BY l.cutting, l.place, l.number",
      [&](Row& row) {
        Cutting& cutting = doneOf(row.next<CuttingId>()).cutting;
        cutting.layups.push_back(layupOf(row));
      },
      only, only);
  // What stood on the board's account is what its entry took out of it.
  database.each(
      std::string("SELECT m.cutting, CAST(sum(m.volume) AS BIGINT), CAST(sum(m.cost) AS BIGINT) "
                  "FROM moves m WHERE m.cutting IN (SELECT k.id ") +
          standing + ") GROUP BY m.cutting",
      [&](Row& row) {
        DoneCutting& d = doneOf(row.next<CuttingId>());
        row >> d.board.wood >> d.board.cost;
      },
      only, only);
  return done;
}

std::vector<SpoiledPiece> readSpoiled(Database& database, std::optional<JobId> job) {
  const std::int64_t only = job ? job->value : 0;
  std::vector<SpoiledPiece> spoiled;
  // Its amounts are what its cutting brought to parts.
  database.each(
      "SELECT s.version, s.cutting, s.place, p.line, p.copy, s.reason, m.volume, m.cost "
      "FROM spoiled_pieces s JOIN pieces p ON p.cutting = s.cutting AND p.place = s.place "
      "JOIN cuttings k ON k.id = s.cutting JOIN plans q ON q.id = k.plan "
      "JOIN moves m ON m.cutting = s.cutting AND m.place = s.place "
      "JOIN accounts t ON t.id = m.target "
      "WHERE t.kind = 'parts' AND s.withdrawn = 0 AND (q.job = ? OR ? = 0) ORDER BY s.id",
      [&](Row& row) {
        SpoiledPiece& piece = spoiled.emplace_back();
        row >> piece.entry >> piece.cutting >> piece.piece >> piece.line >> piece.copy >>
            piece.reason >> piece.volume >> piece.cost;
      },
      only, only);
  return spoiled;
}

}  // namespace flitch::store
