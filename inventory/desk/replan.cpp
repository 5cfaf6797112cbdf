#include "inventory/desk/replan.h"

#include <algorithm>
#include <chrono>
#include <map>
#include <optional>
#include <set>

#include "inventory/desk/choices.h"
#include "inventory/desk/jobs.h"
#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/records/account.h"
#include "inventory/records/choices.h"
#include "inventory/records/plan_check.h"
#include "inventory/records/recipe.h"
#include "inventory/records/refusal.h"

namespace flitch::desk {

namespace {

using Clock = std::chrono::steady_clock;

int copiesShort(const CutPlan& plan) {
  int copies = 0;
  for (const ShortPart& s : plan.shorts) copies += s.copies;
  return copies;
}

/// "C2 E1, 2 offcuts".
std::string cuttingText(const Cutting& cutting) {
  std::string text;
  for (const std::string& mark : marksOf(cutting)) text += (text.empty() ? "" : " ") + mark;
  const auto offcuts = std::count_if(cutting.pieces.begin(), cutting.pieces.end(),
                                     [](const Piece& p) { return p.kind == PieceKind::offcut; });
  if (offcuts == 1) text += ", offcut";
  if (offcuts > 1) text += ", " + std::to_string(offcuts) + " offcuts";
  return text;
}

const Cutting* cuttingOf(const std::vector<Cutting>& cuttings, BoardId board) {
  const auto at = std::find_if(cuttings.begin(), cuttings.end(),
                               [board](const Cutting& c) { return c.board == board; });
  return at == cuttings.end() ? nullptr : &*at;
}

class Replanning {
 public:
  Replanning(const Book& book, JobId job, double seconds, const std::stop_token& stop)
      : seconds_(seconds), stop_(stop) {
    const store::Snapshot snapshot = book.read();
    const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job);
    if (!stored) {
      throw Refusal("no-plan", Complaint{"", "No plan is kept for this job", "",
                                         "a job planned with flitch plan"});
    }
    before_ = stored->plan;
    const std::set<BoardId> sawn(stored->sawn.begin(), stored->sawn.end());
    for (const Cutting& cutting : before_.cuttings) {
      if (sawn.count(cutting.board) == 0) unsawn_.push_back(cutting);
      const auto board = snapshot.board(cutting.board);
      reserved_ = reserved_ || (board && board->reservedFor == job);
    }
    request_ = request(book, job, {});
    keepSettled(snapshot);
    wishForSisters(snapshot, job);
    costBefore_ = costOf(unsawn_, snapshot);
    for (const Board& board : request_.boards) names_[board.id] = tagOf(board);
    for (const Cutting& cutting : unsawn_) {
      names_[cutting.board] = tagOf(snapshot.board(cutting.board).value());
    }
    request_.choices.locks = standing();
  }

  Replanned run() {
    Replanned out;
    out.result = plan(request_.choices.locks, 0.35);
    freeFewest(out);
    out.reserved = reserved_;
    tellChanges(out);
    out.seconds = std::chrono::duration<double>(Clock::now() - start_).count();
    return out;
  }

 private:
  [[nodiscard]] double left() const {
    return seconds_ - std::chrono::duration<double>(Clock::now() - start_).count();
  }
  [[nodiscard]] const Board* boardOf(BoardId id) const {
    const auto at = std::find_if(request_.boards.begin(), request_.boards.end(),
                                 [id](const Board& board) { return board.id == id; });
    return at == request_.boards.end() ? nullptr : &*at;
  }

  /// Wood and cutting of boards as the plan before would have them, at their cost today.
  [[nodiscard]] Money costOf(const std::vector<Cutting>& cuttings,
                             const store::Snapshot& snapshot) const {
    Money cost;
    for (const Cutting& cutting : cuttings) {
      const Breakdown breakdown = account(cutting, snapshot.board(cutting.board).value(),
                                          request_.job, request_.shop, before_.tick);
      cost += breakdown.woodCost + breakdown.cutCost;
    }
    return cost;
  }

  /// What the maker settled before, where its board is still there.
  void keepSettled(const store::Snapshot& snapshot) {
    Choices choices = before_.choices;
    choices.locks.clear();
    const auto gone = [&](BoardId id) {
      if (boardOf(id) != nullptr) return false;
      // A board kept back comes in by being named alone.
      const std::optional<Board> board = snapshot.board(id);
      if (!board || !board->onRack() || !board->keptBack) return true;
      request_.boards.push_back(*board);
      return false;
    };
    std::erase_if(choices.pins, gone);
    std::erase_if(choices.laid, [&](const LaidByHand& laid) {
      const Cutting* cutting = cuttingOf(unsawn_, laid.board);
      return cutting == nullptr || gone(laid.board);
    });
    for (const Cutting& cutting : unsawn_) gone(cutting.board);
    std::sort(request_.boards.begin(), request_.boards.end(),
              [](const Board& a, const Board& b) { return a.id < b.id; });
    request_.choices = std::move(choices);
  }

  /// A part made again matches its fellows best when it comes from the same log.
  void wishForSisters(const store::Snapshot& snapshot, JobId job) {
    std::erase_if(request_.choices.wishes, [](const Wish& wish) { return wish.byItself; });
    std::vector<Board> from;
    const std::vector<store::DoneCutting> done = snapshot.doneCuttings(job);
    for (const store::SpoiledPiece& piece : snapshot.spoiled(job)) {
      const auto made = request_.made.find(piece.line);
      if (made != request_.made.end() && made->second.contains(piece.copy)) continue;
      for (const store::DoneCutting& cutting : done) {
        if (cutting.id == piece.cutting) from.push_back(cutting.board);
      }
    }
    Wish wish{"sisters of what was spoiled first", {}, usualWish, true};
    for (const Board& board : request_.boards) {
      if (isKeptOut(request_.choices, board.id)) continue;
      const bool related = std::any_of(from.begin(), from.end(), [&](const Board& spoiled) {
        return ofOneLog(spoiled, board) || isLeftOf(spoiled.id, board, snapshot);
      });
      if (related) wish.boards.push_back(board.id);
    }
    if (!wish.boards.empty()) request_.choices.wishes.push_back(std::move(wish));
  }

  [[nodiscard]] static bool isLeftOf(BoardId whole, const Board& board,
                                     const store::Snapshot& snapshot) {
    for (BoardId id = board.parent; id; id = snapshot.board(id).value().parent) {
      if (id == whole) return true;
    }
    return false;
  }

  /// The cuttings that can stay. What cannot takes what was pinned or laid on its board along.
  std::vector<Lock> standing() {
    std::vector<Lock> locks;
    std::map<int, std::set<int>> made = request_.made;
    for (const Cutting& cutting : unsawn_) {
      const Board* board = boardOf(cutting.board);
      const bool sound =
          board != nullptr && faultsOf({cutting, *board, request_, before_.tick}).empty();
      std::map<int, std::set<int>> with = made;
      bool fresh = true;
      for (const Piece& piece : cutting.pieces) {
        if (piece.kind != PieceKind::blank) continue;
        fresh = with[piece.line].insert(piece.copy).second && fresh;
      }
      if (!sound || !fresh) {
        std::erase_if(request_.choices.laid,
                      [&](const LaidByHand& laid) { return laid.board == cutting.board; });
        std::erase(request_.choices.pins, cutting.board);
        continue;
      }
      made = std::move(with);
      const Lock* lock = lockOn(before_.choices, cutting.board);
      locks.push_back({cutting, lock != nullptr && lock->byEye});
    }
    return locks;
  }

  [[nodiscard]] planning::PlanResult plan(const std::vector<Lock>& locks, double share) const {
    PlanRequest request = request_;
    request.choices.locks = locks;
    optimizer::Limits limits;
    limits.seconds = std::max(0.02, std::min(left(), seconds_ * share));
    return planning::makePlan(request, limits, stop_);
  }

  /// Frees boards one after another, each time the one that leaves least short.
  void freeFewest(Replanned& out) {
    const int wanted = copiesShort(before_);
    std::vector<Lock> locks = request_.choices.locks;
    int missing = copiesShort(out.result.plan);
    while (missing > wanted && left() > 0 && !stop_.stop_requested()) {
      std::optional<std::size_t> best;
      for (std::size_t l = 0; l < locks.size() && left() > 0 && missing > wanted; ++l) {
        if (locks[l].byEye) continue;
        std::vector<Lock> fewer = locks;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(l));
        planning::PlanResult tried = plan(fewer, 0.05);
        const int now = copiesShort(tried.plan);
        if (now >= missing) continue;
        missing = now;
        best = l;
        out.result = std::move(tried);
      }
      if (!best) break;
      locks.erase(locks.begin() + static_cast<std::ptrdiff_t>(*best));
      ++out.freed;
    }
    if (missing > wanted && left() > 0) freeAll(out, locks, missing);
  }

  /// No board alone helps: all of them at once may.
  void freeAll(Replanned& out, const std::vector<Lock>& locks, int missing) {
    std::vector<Lock> byEye;
    for (const Lock& lock : locks) {
      if (lock.byEye) byEye.push_back(lock);
    }
    if (byEye.size() == locks.size()) return;
    planning::PlanResult tried = plan(byEye, 0.5);
    if (copiesShort(tried.plan) >= missing) return;
    out.freed += static_cast<int>(locks.size() - byEye.size());
    out.result = std::move(tried);
  }

  void tellChanges(Replanned& out) const {
    const std::vector<Cutting>& now = out.result.plan.cuttings;
    std::set<BoardId> boards;
    for (const Cutting& cutting : unsawn_) boards.insert(cutting.board);
    for (const Cutting& cutting : now) boards.insert(cutting.board);
    for (const BoardId board : boards) {
      const Cutting* old = cuttingOf(unsawn_, board);
      const Cutting* fresh = cuttingOf(now, board);
      BoardChange change{board, names_.at(board), Fate::stays, {}, {}};
      if (old != nullptr) change.was = cuttingText(*old);
      if (fresh != nullptr) change.now = cuttingText(*fresh);
      if (old == nullptr) {
        change.fate = Fate::added;
      } else if (fresh == nullptr) {
        change.fate = Fate::dropped;
      } else if (!(*old == *fresh)) {
        change.fate = Fate::otherwise;
      }
      out.changes.push_back(std::move(change));
    }
    tellMoves(out);
    for (const Wish& wish : out.result.plan.choices.wishes) {
      if (!wish.byItself) continue;
      for (const BoardId board : wish.boards) out.sisters.push_back(names_.at(board));
    }
    const CutPlan& plan = out.result.plan;
    out.costsMore = plan.woodCost + plan.cutCost - costBefore_;
  }

  void tellMoves(Replanned& out) const {
    std::map<std::string, BoardId> from;
    for (const Cutting& cutting : unsawn_) {
      for (const std::string& mark : marksOf(cutting)) from[mark] = cutting.board;
    }
    for (const Cutting& cutting : out.result.plan.cuttings) {
      for (const std::string& mark : marksOf(cutting)) {
        const auto was = from.find(mark);
        if (was != from.end() && was->second == cutting.board) continue;
        out.moved.emplace_back(mark, names_.at(cutting.board));
      }
    }
  }

  double seconds_;
  std::stop_token stop_;
  Clock::time_point start_ = Clock::now();
  CutPlan before_;
  std::vector<Cutting> unsawn_;
  Money costBefore_;
  PlanRequest request_;
  std::map<BoardId, std::string> names_;
  bool reserved_ = false;
};

std::string boards(int count, const char* one, const char* many) {
  return std::to_string(count) + (count == 1 ? one : many);
}

}  // namespace

int Replanned::count(Fate fate) const {
  return static_cast<int>(std::count_if(changes.begin(), changes.end(),
                                        [fate](const BoardChange& c) { return c.fate == fate; }));
}

Replanned replanned(const Book& book, JobId job, double seconds, const std::stop_token& stop) {
  return Replanning(book, job, seconds, stop).run();
}

std::string changesText(const Replanned& replanned) {
  std::string text =
      boards(replanned.count(Fate::stays), " board stays", " boards stay") + " as planned";
  const auto add = [&](Fate fate, const char* one, const char* many) {
    const int count = replanned.count(fate);
    if (count > 0) text += ", " + boards(count, one, many);
  };
  add(Fate::otherwise, " is cut otherwise", " are cut otherwise");
  add(Fate::added, " is opened now", " are opened now");
  add(Fate::dropped, " is no longer opened", " are no longer opened");
  return text + ".";
}

std::string sistersText(const Replanned& replanned) {
  constexpr std::size_t most = 4;
  const std::vector<std::string>& all = replanned.sisters;
  if (all.empty()) return {};
  std::string text = " For what was spoiled its sisters come first: ";
  for (std::size_t s = 0; s < std::min(most, all.size()); ++s) {
    text += (s > 0 ? ", " : "") + all[s];
  }
  return text + (all.size() > most ? " and " + std::to_string(all.size() - most) + " more." : ".");
}

std::string aroundText(const Replanned& replanned) {
  constexpr std::size_t most = 4;
  const std::string& sign = replanned.result.request.sign;
  std::string text;
  for (std::size_t m = 0; m < std::min(most, replanned.moved.size()); ++m) {
    const auto& [mark, board] = replanned.moved[m];
    text += (m > 0 ? ", " : "") + mark + (m > 0 ? " from " : " now comes from ") + board;
  }
  if (replanned.moved.size() > most) {
    text += " and " + std::to_string(replanned.moved.size() - most) + " more move";
  }
  text += (text.empty() ? "" : ". ") + changesText(replanned) + sistersText(replanned);
  if (replanned.costsMore > Money()) {
    text += " Costs " + flitch::text(replanned.costsMore, sign) + " more.";
  } else if (replanned.costsMore < Money()) {
    text += " Costs " + flitch::text(Money() - replanned.costsMore, sign) + " less.";
  }
  for (const ShortPart& missing : replanned.result.plan.shorts) {
    const std::vector<Part>& parts = replanned.result.request.job.parts;
    const auto part = std::find_if(parts.begin(), parts.end(),
                                   [&](const Part& p) { return p.line == missing.line; });
    text +=
        " Short " + std::to_string(missing.copies) + " " + part->name + ": " + missing.reason + ".";
  }
  return text;
}

Table changesTable(const Replanned& replanned) {
  Table table;
  table.title = "Changed";
  table.columns = {{"tag", "tag", false},
                   {"change", "change", false},
                   {"was", "was", false},
                   {"now", "now", false}};
  for (const BoardChange& change : replanned.changes) {
    if (change.fate == Fate::stays) continue;
    const char* fate = change.fate == Fate::otherwise ? "cut otherwise"
                       : change.fate == Fate::added   ? "opened now"
                                                      : "no longer opened";
    table.rows.push_back({change.name, fate, change.was, change.now});
  }
  return table;
}

}  // namespace flitch::desk
