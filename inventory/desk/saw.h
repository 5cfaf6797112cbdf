#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/desk/as_sawn.h"
#include "inventory/exchange/columns.h"
#include "inventory/store/book.h"

namespace flitch::desk {

using store::Book;
using store::Hand;

/// Blanks that came to nothing, by hand mark ("C2"), and why.
struct Lost {
  std::vector<std::string> marks;
  std::string why;
};

/// A board of the plan at the saw, and what went otherwise than planned there.
struct Turn {
  BoardId planned;
  BoardId taken;  ///< lay on the saw in its stead; none: the board planned
  Deviation otherwise;
  /// Marks that sawing showed, measured from the fresh end as chalk marks are.
  std::vector<exchange::MarkLine> found;
  [[nodiscard]] bool asPlanned() const { return !taken && !otherwise.any() && found.empty(); }
};

struct Sawn {
  EntryId entry;
  std::vector<BoardId> boards;      ///< sawn
  std::vector<Board> offcuts;       ///< boards they left
  std::vector<Board> toTag;         ///< of these: not those that the old tag still hangs on
  std::vector<Breakdown> accounts;  ///< one per board sawn
  std::vector<Cutting> cuttings;    ///< as they were sawn
  std::vector<std::string> spoilt;  ///< hand marks of blanks lost to marks found
  CubicMillimetres binned;          ///< wood of shorts that went to bins
  Money woodCost;
};
/// Records boards of the job's newest kept plan as sawn, in one entry: offcuts become boards with a
/// tag (the old one where it hangs on still: holdsTagEnd()), a parent, its marks clipped and its
/// cost share; blanks become parts; waste goes to its causes. `lost`: blanks that came to nothing
/// on the way; their wood goes to lost and their copies are wanted again, as are blanks that a mark
/// found bars. A board taken in another's stead balances likewise; the planned one stays where it
/// is. Throws Refusal: no plan kept, board not in the plan, sawn already, a mark that these boards
/// do not give, Stale when a board changed since the plan, and what asSawn(), onBoard() and
/// fromTagEnd() throw.
Sawn saw(Book& book, JobId job, const std::vector<Turn>& turns, const Hand& hand,
         const Lost& lost = {});
/// The same as planned. `boards` empty: all of the plan not sawn yet. `shortsToBin`: shorts worth
/// it go to the bins of their species.
Sawn sawAsPlanned(Book& book, JobId job, const std::vector<BoardId>& boards, const Hand& hand,
                  const Lost& lost = {}, bool shortsToBin = false);
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
