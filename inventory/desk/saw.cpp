#include "inventory/desk/saw.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/bins.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/names.h"
#include "inventory/desk/offcut.h"
#include "inventory/desk/receive.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// The cuttings of the plan asked for: those of `boards`, or all not sawn yet.
std::vector<const Cutting*> chosen(const store::StoredPlan& stored, const Job& job,
                                   const std::vector<BoardId>& boards,
                                   const store::Snapshot& snapshot) {
  const std::set<BoardId> sawn(stored.sawn.begin(), stored.sawn.end());
  std::vector<const Cutting*> cuttings;
  std::set<BoardId> left(boards.begin(), boards.end());
  for (const Cutting& cutting : stored.plan.cuttings) {
    const bool asked = boards.empty() || left.erase(cutting.board) > 0;
    if (!asked) continue;
    if (sawn.count(cutting.board) == 0) {
      cuttings.push_back(&cutting);
    } else if (!boards.empty()) {
      const std::string name = tagOf(snapshot.board(cutting.board).value());
      throw Refusal("sawn-already",
                    Complaint{"", name + " was sawn already for " + job.name, name, ""});
    }
  }
  for (const BoardId id : left) {
    const std::optional<Board> board = snapshot.board(id);
    const std::string name = board ? tagOf(*board) : "the board";
    throw Refusal("not-in-plan", Complaint{"", name + " is not in the newest plan of " + job.name,
                                           name, "a board that the plan opens"});
  }
  if (cuttings.empty()) {
    throw Refusal("nothing-to-saw",
                  Complaint{"",
                            stored.plan.cuttings.empty()
                                ? "The plan of " + job.name + " opens no board"
                                : "All of the plan of " + job.name + " was sawn already",
                            job.name, ""});
  }
  return cuttings;
}

/// A board as it is now, on the rack and not held for another job.
Board boardTaken(const store::Snapshot& snapshot, BoardId id, const Job& job) {
  const std::optional<Board> board = snapshot.board(id);
  if (!board) throw std::logic_error("a plan cuts a board the book does not have");
  needOnRack(snapshot, *board, "a plan made again");
  if (board->reservedFor && board->reservedFor != job.id) {
    throw Refusal("reserved",
                  Complaint{"", tagOf(*board) + " is held for " + board->reservedName,
                            tagOf(*board), "a board that is free or held for " + job.name});
  }
  return *board;
}

/// A board of the plan as it is now; throws when it is not as the plan saw it.
Board boardToSaw(const store::Snapshot& snapshot, BoardId id, const store::StoredPlan& stored,
                 const Job& job) {
  Board board = boardTaken(snapshot, id, job);
  if (const auto entry = snapshot.changedSince(id, stored.kept)) {
    throw changed(board, *entry, "the plan was kept");
  }
  return board;
}

/// What all turns of one entry have in common.
struct Bench {
  PlanRequest request;  ///< of the plan's shop; no boards
  store::StoredPlan stored;
};

/// A board that was cut, and how.
struct Taken {
  Board board;
  Cutting cutting;
  std::set<int> shorts;  ///< of its pieces, for the bin
  std::vector<Defect> found;
};

/// Where a share of a board goes to as an offcut: a board of its own, or the bin of its species.
Move kept(store::Writer& writer, const Share& share, const Taken& turn, Feet feet) {
  Move move;
  if (turn.shorts.contains(share.piece)) {
    move.target = AccountKind::bin;
    move.bin = binOf(writer.now(), turn.board.species).id;
    return move;
  }
  Board offcut =
      offcutOf(turn.board, turn.cutting.pieces[static_cast<std::size_t>(share.piece)].at);
  offcut.wood = share.volume;
  offcut.measuredFeet = feet;
  move.target = AccountKind::board;
  move.targetBoard = addRemainder(writer, turn.board, offcut);
  return move;
}

/// Posts one board's wood to its parts, offcuts and waste. `left`: blanks lost, taken out as they
/// are met.
void sawOne(store::Writer& writer, const Taken& turn, const Bench& bench, const std::string& why,
            std::set<std::string>& left, Sawn& sawn, std::vector<BoardId>& offcuts) {
  Breakdown breakdown = account(turn.cutting, turn.board, bench.request.job, bench.request.shop,
                                bench.stored.plan.tick);
  const std::vector<Feet> feet = offcutFeet(breakdown);
  std::map<int, BoardId> became;
  std::map<int, BinId> binned;
  for (const Share& share : breakdown.shares) {
    if (share.volume.value == 0 && share.cost == Money{}) continue;
    Move move;
    if (share.cause == Cause::offcuts) {
      move = kept(writer, share, turn, feet[became.size() + binned.size()]);
      if (move.bin) {
        binned[share.piece] = move.bin;
        sawn.binned += share.volume;
      } else {
        became[share.piece] = move.targetBoard;
        offcuts.push_back(move.targetBoard);
      }
    } else {
      move.target = accountOf(share.cause);
    }
    move.source = AccountKind::board;
    move.sourceBoard = turn.board.id;
    move.volume = share.volume;
    move.cost = share.cost;
    move.piece = share.piece;
    writer.post(move);
  }
  const CuttingId done = writer.addDone(turn.cutting, bench.stored.plan.id, became, binned);
  for (const Share& share : breakdown.shares) {
    if (share.cause != Cause::parts) continue;
    const Piece& piece = turn.cutting.pieces[static_cast<std::size_t>(share.piece)];
    if (left.erase(handMark(piece.line, piece.copy)) > 0) writer.spoil(done, share, why);
  }
  if (turn.board.reservedFor) writer.release(turn.board.id);
  sawn.woodCost += breakdown.woodCost;
  sawn.accounts.push_back(std::move(breakdown));
  sawn.boards.push_back(turn.board.id);
  sawn.cuttings.push_back(turn.cutting);
}

}  // namespace

namespace {

store::StoredPlan planOf(const store::Snapshot& snapshot, const Job& job) {
  std::optional<store::StoredPlan> stored = snapshot.newestPlan(job.id);
  if (!stored) {
    throw Refusal("no-plan",
                  Complaint{"", "No plan is kept for " + job.name, job.name, "flitch plan first"});
  }
  return *std::move(stored);
}

ShopProfile shopOf(const store::StoredPlan& stored, const store::Snapshot& snapshot) {
  std::optional<ShopProfile> shop = snapshot.profile(stored.plan.profile);
  if (!shop) throw std::logic_error("a kept plan has no profile");
  return *std::move(shop);
}

Bench benchOf(const store::Snapshot& now, JobId job, Unit unit) {
  Bench bench;
  bench.request.job = jobIn(now, job);
  bench.stored = planOf(now, bench.request.job);
  bench.request.shop = shopOf(bench.stored, now);
  bench.request.unit = unit;
  bench.request.choices = bench.stored.plan.choices;
  return bench;
}

/// How a turn was cut, and on which board.
Taken taken(const Turn& turn, const Bench& bench, const store::Snapshot& now) {
  const PlanRequest& request = bench.request;
  const Length tick = bench.stored.plan.tick;
  const Cutting& planned = *chosen(bench.stored, request.job, {turn.planned}, now).front();
  const bool other = turn.taken && turn.taken != turn.planned;
  Taken out;
  out.board = other ? boardTaken(now, turn.taken, request.job)
                    : boardToSaw(now, turn.planned, bench.stored, request.job);
  out.cutting = other ? onBoard(planned, out.board, request, tick) : planned;
  if (turn.otherwise.any()) {
    AsSawn sawn = asSawn(turn.otherwise, {out.cutting, out.board, request, tick});
    out.cutting = std::move(sawn.cutting);
    out.shorts = std::move(sawn.shorts);
  }
  if (!turn.found.empty()) {
    out.found = placed(out.board, fromTagEnd(turn.found, out.cutting, request.unit), request.unit);
  }
  return out;
}

/// Writes the marks found on a board about to be sawn; tells which of its blanks they bar.
std::vector<std::string> keepFound(store::Writer& writer, Taken& turn, const Bench& bench) {
  if (turn.found.empty()) return {};
  std::vector<std::string> barred =
      barredBy(turn.found, {turn.cutting, turn.board, bench.request, bench.stored.plan.tick});
  Board marked = turn.board;
  marked.defects.insert(marked.defects.end(), turn.found.begin(), turn.found.end());
  writer.updateBoard(marked);
  turn.board = writer.now().board(marked.id).value();
  return barred;
}

void refuseMadeTwice(const std::vector<Taken>& turns, const Job& job,
                     const store::Snapshot& snapshot) {
  std::map<int, std::set<int>> made = snapshot.made(job.id);
  for (const Taken& turn : turns)
    for (const Piece& piece : turn.cutting.pieces) {
      if (piece.kind != PieceKind::blank || made[piece.line].insert(piece.copy).second) continue;
      const std::string mark = handMark(piece.line, piece.copy);
      throw Refusal("made-already", Complaint{"", mark + " of " + job.name + " is sawn already",
                                              mark, "a plan made again"});
    }
}

/// Posts boards that were looked at in this change.
void post(store::Writer& writer, std::vector<Taken>& turns, const Bench& bench, const Lost& lost,
          Sawn& sawn, std::vector<BoardId>& offcuts) {
  const Job& job = bench.request.job;
  refuseMadeTwice(turns, job, writer.now());
  std::set<std::string> marks(lost.marks.begin(), lost.marks.end());
  for (Taken& turn : turns) {
    const std::vector<std::string> barred = keepFound(writer, turn, bench);
    for (const std::string& mark : barred) {
      if (marks.insert(mark).second) sawn.spoilt.push_back(mark);
    }
    const bool byMark = !barred.empty() && lost.why.empty();
    sawOne(writer, turn, bench, byMark ? turn.found.front().kind : lost.why, marks, sawn, offcuts);
  }
  if (!marks.empty()) {
    throw Refusal("not-sawn", Complaint{"", "These boards give no blank " + *marks.begin(),
                                        *marks.begin(), "hand marks of their blanks"});
  }
}

/// "T0042-F, not as planned, lost C2"; "5 boards, 2 not as planned".
std::string noteOf(const store::Snapshot& snapshot, const std::vector<Turn>& turns,
                   const Lost& lost) {
  const auto otherwise =
      std::count_if(turns.begin(), turns.end(), [](const Turn& turn) { return !turn.asPlanned(); });
  std::string note = std::to_string(turns.size()) + (turns.size() == 1 ? " board" : " boards");
  if (turns.size() == 1 && otherwise == 1) {
    const BoardId board = turns[0].taken ? turns[0].taken : turns[0].planned;
    note = tagOf(snapshot.board(board).value()) + ", not as planned";
  } else if (otherwise > 0) {
    note += ", " + std::to_string(otherwise) + " not as planned";
  }
  for (const std::string& mark : lost.marks)
    note += (&mark == &lost.marks[0] ? ", lost " : " ") + mark;
  return note;
}

}  // namespace

Sawn saw(Book& book, JobId jobId, const std::vector<Turn>& turns, const Hand& hand,
         const Lost& lost) {
  Sawn sawn{};
  std::vector<BoardId> offcuts;
  const Unit unit = book.facts().unit;
  sawn.entry = book.change({"sawn", jobId, noteOf(book.read(), turns, lost), {}}, hand,
                           [&](store::Writer& writer) {
                             const Bench bench = benchOf(writer.now(), jobId, unit);
                             // All boards are looked at before the first is written, as the plan
                             // saw them.
                             std::vector<Taken> all;
                             for (const Turn& turn : turns)
                               all.push_back(taken(turn, bench, writer.now()));
                             post(writer, all, bench, lost, sawn, offcuts);
                           });
  const store::Snapshot now = book.read();
  for (const BoardId id : offcuts) {
    sawn.offcuts.push_back(now.board(id).value());
    const Board& offcut = sawn.offcuts.back();
    if (offcut.tag != now.board(offcut.parent).value().tag) sawn.toTag.push_back(offcut);
  }
  return sawn;
}

Sawn sawAsPlanned(Book& book, JobId jobId, const std::vector<BoardId>& boards, const Hand& hand,
                  const Lost& lost, bool shortsToBin) {
  const store::Snapshot before = book.read();
  const Job job = jobIn(before, jobId);
  const store::StoredPlan stored = planOf(before, job);
  std::vector<Turn> turns;
  for (const Cutting* cutting : chosen(stored, job, boards, before)) {
    turns.push_back({cutting->board, {}, {}, {}});
    turns.back().otherwise.allShorts = shortsToBin;
  }
  return saw(book, jobId, turns, hand, lost);
}

JobId jobOf(const store::Snapshot& snapshot, BoardId board) {
  std::vector<Job> found;
  for (const Job& job : snapshot.jobs()) {
    const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job.id);
    if (!stored) continue;
    const bool cuts = std::any_of(stored->plan.cuttings.begin(), stored->plan.cuttings.end(),
                                  [&](const Cutting& c) { return c.board == board; });
    if (cuts) found.push_back(job);
  }
  if (found.size() == 1) return found.front().id;
  const std::optional<Board> named = snapshot.board(board);
  const std::string tag = named ? tagOf(*named) : "";
  if (found.empty()) {
    throw Refusal("not-in-plan", Complaint{"", tag + " is in no job's newest plan", tag,
                                           "a board that a plan opens"});
  }
  std::string names;
  for (const Job& job : found) names += (names.empty() ? "" : " and ") + job.name;
  throw Refusal("several-jobs", Complaint{"", tag + " is in the newest plans of " + names, tag,
                                          "the job, with --job"});
}

}  // namespace flitch::desk
