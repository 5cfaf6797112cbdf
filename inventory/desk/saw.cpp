#include "inventory/desk/saw.h"

#include <algorithm>
#include <map>
#include <set>

#include "inventory/desk/jobs.h"
#include "inventory/desk/names.h"
#include "inventory/desk/offcut.h"
#include "inventory/store/writer.h"
#include "inventory/wood/split.h"

namespace flitch::desk {

namespace {

std::string nameOf(const Board& board) { return board.tag ? text(*board.tag) : "a board"; }

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
      const std::string name = nameOf(snapshot.board(cutting.board).value());
      throw Refusal("sawn-already",
                    Complaint{"", name + " was sawn already for " + job.name, name, ""});
    }
  }
  for (const BoardId id : left) {
    const std::optional<Board> board = snapshot.board(id);
    const std::string name = board ? nameOf(*board) : "the board";
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
                  Complaint{"", nameOf(*board) + " is held for " + board->reservedName,
                            nameOf(*board), "a board that is free or held for " + job.name});
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

/// Posts one board's wood to its parts, offcuts and waste.
Breakdown sawOne(store::Writer& writer, const Cutting& cutting, const Board& board, const Job& job,
                 const ShopProfile& shop, const store::StoredPlan& stored,
                 std::vector<BoardId>& offcuts, const Lost& lost, std::set<std::string>& left) {
  Breakdown breakdown = account(cutting, board, job, shop, stored.plan.tick);
  // Board feet of the offcuts are the board's measured feet, shared as account() shares them.
  std::vector<Wide> volumes;
  for (const Share& share : breakdown.shares) {
    if (share.cause == Cause::offcuts) volumes.push_back(share.volume.value);
  }
  const std::vector<std::int64_t> feet =
      volumes.empty()
          ? std::vector<std::int64_t>{}
          : split(breakdown.feet[static_cast<std::size_t>(Cause::offcuts)].thousandths, volumes);

  std::map<int, BoardId> became;
  for (const Share& share : breakdown.shares) {
    if (share.volume.value == 0 && share.cost == Money{}) continue;
    Move move;
    move.source = AccountKind::board;
    move.sourceBoard = board.id;
    move.volume = share.volume;
    move.cost = share.cost;
    move.piece = share.piece;
    if (share.cause == Cause::offcuts) {
      Board offcut = offcutOf(board, cutting.pieces[static_cast<std::size_t>(share.piece)].at);
      offcut.tag = writer.nextTag();
      offcut.wood = share.volume;
      offcut.measuredFeet.thousandths = feet[became.size()];
      const BoardId id = writer.addBoard(offcut);
      became[share.piece] = id;
      offcuts.push_back(id);
      move.target = AccountKind::board;
      move.targetBoard = id;
    } else {
      move.target = accountOf(share.cause);
    }
    writer.post(move);
  }
  const CuttingId done = writer.addDone(cutting, stored.plan.id, became);
  for (const Share& share : breakdown.shares) {
    if (share.cause != Cause::parts) continue;
    const Piece& piece = cutting.pieces[static_cast<std::size_t>(share.piece)];
    if (left.erase(handMark(piece.line, piece.copy)) > 0) writer.spoil(done, share, lost.why);
  }
  if (board.reservedFor) writer.release(board.id);
  return breakdown;
}

/// What an entry was, for people.
std::string whatWas(const store::EntryLine& line, const store::Snapshot& snapshot) {
  std::string what = line.event;
  if (!line.note.empty()) what += ", " + line.note;
  if (line.job) {
    const std::optional<Job> job = snapshot.job(line.job);
    if (job && job->name != line.note) what += " of " + job->name;
  }
  return what;
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

Job jobIn(const store::Snapshot& snapshot, JobId id) {
  std::optional<Job> job = snapshot.job(id);
  if (!job) {
    throw Refusal("unknown-job", Complaint{"", "There is no such job", "", "a job's name"});
  }
  return *std::move(job);
}

/// Boards with how they were cut.
using Taken = std::vector<std::pair<Board, Cutting>>;

/// Posts boards that were looked at in this change.
void post(store::Writer& writer, const Taken& taken, const Job& job, const ShopProfile& shop,
          const store::StoredPlan& stored, const Lost& lost, Sawn& sawn,
          std::vector<BoardId>& offcuts) {
  std::set<std::string> left(lost.marks.begin(), lost.marks.end());
  std::map<int, std::set<int>> made = writer.now().made(job.id);
  for (const auto& [board, cutting] : taken) {
    for (const Piece& piece : cutting.pieces) {
      if (piece.kind != PieceKind::blank || made[piece.line].insert(piece.copy).second) continue;
      const std::string mark = handMark(piece.line, piece.copy);
      throw Refusal("made-already", Complaint{"", mark + " of " + job.name + " is sawn already",
                                              mark, "a plan made again"});
    }
    sawn.accounts.push_back(sawOne(writer, cutting, board, job, shop, stored, offcuts, lost, left));
    sawn.woodCost += sawn.accounts.back().woodCost;
    sawn.boards.push_back(board.id);
  }
  if (!left.empty()) {
    throw Refusal("not-sawn", Complaint{"", "These boards give no blank " + *left.begin(),
                                        *left.begin(), "hand marks of their blanks"});
  }
}

ShopProfile shopOf(const store::StoredPlan& stored, const store::Snapshot& snapshot) {
  std::optional<ShopProfile> shop = snapshot.profile(stored.plan.profile);
  if (!shop) throw std::logic_error("a kept plan has no profile");
  return *std::move(shop);
}

std::string lostText(const Lost& lost) {
  std::string text;
  for (const std::string& mark : lost.marks)
    text += (&mark == &lost.marks[0] ? ", lost " : " ") + mark;
  return text;
}

}  // namespace

Sawn sawAsPlanned(Book& book, JobId jobId, const std::vector<BoardId>& boards, const Hand& hand,
                  const Lost& lost) {
  Sawn sawn{};
  std::vector<BoardId> offcuts;
  const store::Snapshot before = book.read();
  const Job named = jobIn(before, jobId);
  const std::size_t count = chosen(planOf(before, named), named, boards, before).size();
  const std::string note =
      std::to_string(count) + (count == 1 ? " board" : " boards") + lostText(lost);
  sawn.entry = book.change({"sawn", jobId, note, {}}, hand, [&](store::Writer& writer) {
    const Job job = jobIn(writer.now(), jobId);
    const store::StoredPlan stored = planOf(writer.now(), job);
    // All boards are looked at before the first is written, as the plan saw them.
    Taken taken;
    for (const Cutting* cutting : chosen(stored, job, boards, writer.now())) {
      taken.emplace_back(boardToSaw(writer.now(), cutting->board, stored, job), *cutting);
    }
    post(writer, taken, job, shopOf(stored, writer.now()), stored, lost, sawn, offcuts);
  });
  const store::Snapshot now = book.read();
  for (const BoardId id : offcuts) sawn.offcuts.push_back(now.board(id).value());
  return sawn;
}

Sawn sawOtherwise(Book& book, JobId jobId, BoardId planned, BoardId takenId, const Sawing& sawing,
                  const Hand& hand, const Lost& lost) {
  Sawn sawn{};
  std::vector<BoardId> offcuts;
  const std::string name = nameOf(book.read().board(takenId).value());
  sawn.entry = book.change(
      {"sawn", jobId, name + ", not as planned" + lostText(lost), {}}, hand,
      [&](store::Writer& writer) {
        const store::Snapshot now = writer.now();
        PlanRequest request;
        request.job = jobIn(now, jobId);
        const store::StoredPlan stored = planOf(now, request.job);
        request.shop = shopOf(stored, now);
        request.unit = book.facts().unit;
        request.choices = stored.plan.choices;
        const Cutting& cutting = *chosen(stored, request.job, {planned}, now).front();
        const Board board = takenId == planned ? boardToSaw(now, planned, stored, request.job)
                                               : boardTaken(now, takenId, request.job);
        const Cutting real = sawing(cutting, board, request, stored.plan.tick);
        post(writer, {{board, real}}, request.job, request.shop, stored, lost, sawn, offcuts);
      });
  const store::Snapshot now = book.read();
  for (const BoardId id : offcuts) sawn.offcuts.push_back(now.board(id).value());
  return sawn;
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
  const std::string tag = named ? nameOf(*named) : "";
  if (found.empty()) {
    throw Refusal("not-in-plan", Complaint{"", tag + " is in no job's newest plan", tag,
                                           "a board that a plan opens"});
  }
  std::string names;
  for (const Job& job : found) names += (names.empty() ? "" : " and ") + job.name;
  throw Refusal("several-jobs", Complaint{"", tag + " is in the newest plans of " + names, tag,
                                          "the job, with --job"});
}

std::optional<store::EntryLine> undoable(const store::Snapshot& snapshot) {
  for (int newest = 100;; newest *= 8) {
    const std::vector<store::EntryLine> entries = snapshot.entries(newest);
    const auto found = std::find_if(
        entries.begin(), entries.end(),
        [](const store::EntryLine& line) { return !line.reverses && !line.reversedBy; });
    if (found != entries.end()) return *found;
    if (static_cast<int>(entries.size()) < newest) return std::nullopt;
  }
}

Undone undo(Book& book, const Hand& hand) {
  const store::Snapshot snapshot = book.read();
  const std::optional<store::EntryLine> last = undoable(snapshot);
  if (!last) throw Refusal("nothing-to-undo", Complaint{"", "There is nothing to undo", "", ""});
  Undone undone{};
  undone.reversed = last->id;
  undone.what = whatWas(*last, snapshot);
  undone.entry = book.change({"undone", last->job, last->event, last->id}, hand,
                             [&](store::Writer& writer) { writer.reverse(last->id); });
  return undone;
}

}  // namespace flitch::desk
