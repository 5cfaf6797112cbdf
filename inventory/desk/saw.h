#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// Blanks that came to nothing, by hand mark ("C2"), and why.
struct Lost {
  std::vector<std::string> marks;
  std::string why;
};

struct Sawn {
  EntryId entry;
  std::vector<BoardId> boards;      ///< sawn
  std::vector<Board> offcuts;       ///< boards they left, with tags of their own
  std::vector<Breakdown> accounts;  ///< one per board sawn
  Money woodCost;
};
/// Records boards of the job's newest kept plan as sawn as planned, in one entry: offcuts become
/// boards with a tag, a parent, its marks clipped and its cost share; blanks become parts; waste
/// goes to its causes. `boards` empty: all of the plan not sawn yet. `lost`: blanks that came to
/// nothing on the way; their wood goes to lost and their copies are wanted again. Throws Refusal:
/// no plan kept, board not in the plan, sawn already, a mark that these boards do not give, Stale
/// when a board changed since the plan.
Sawn sawAsPlanned(Book& book, JobId job, const std::vector<BoardId>& boards, const Hand& hand,
                  const Lost& lost = {});
/// How a board of the plan was really cut: its planned cutting and the board that was taken, as it
/// stands now, to the cutting on that board.
using Sawing = std::function<Cutting(const Cutting& planned, const Board& taken,
                                     const PlanRequest& request, Length tick)>;
/// Records one board of the job's newest kept plan as sawn otherwise, on itself or on the board
/// `taken` in its stead; blanks it does not give any more are wanted again. Balances as
/// sawAsPlanned() does, and throws what it throws.
Sawn sawOtherwise(Book& book, JobId job, BoardId planned, BoardId taken, const Sawing& sawing,
                  const Hand& hand, const Lost& lost = {});
/// The job whose newest kept plan cuts this board, for `flitch saw TAG`. Throws Refusal when none
/// or several do.
[[nodiscard]] JobId jobOf(const store::Snapshot& snapshot, BoardId board);

struct Undone {
  EntryId entry;  ///< the reversing entry
  EntryId reversed;
  std::string what;  ///< "sawn, 3 boards of Map chest"
};
/// The entry that undo() would reverse now: the newest that is neither an undo nor undone.
[[nodiscard]] std::optional<store::EntryLine> undoable(const store::Snapshot& snapshot);
/// Reverses the newest entry that is not itself an undo or undone. Throws Refusal naming what
/// stands on it, or that there is nothing to undo.
Undone undo(Book& book, const Hand& hand);

}  // namespace flitch::desk
