#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/desk/saw.h"

namespace flitch::desk {

struct Spoiled {
  EntryId entry;
  std::vector<store::SpoiledPiece> pieces;
  Money cost;  ///< of their wood, which stays with the job as loss
};
/// Parts or blanks of sawn boards that came to nothing, by hand mark ("C2"), at the saw or weeks
/// later at the bench: their wood goes from parts to lost, their copies are wanted again by the
/// next plan. One entry. Throws Refusal for no mark, a mark given twice, one that is not sawn or
/// was spoiled already.
Spoiled spoil(Book& book, JobId job, const std::vector<std::string>& marks, const std::string& why,
              const Hand& hand);

struct UsedByHand {
  EntryId entry;
  Board board;                ///< as it was
  std::optional<Board> left;  ///< what is left of it at the tag end; its tag stays
  Money cost;                 ///< of what was used
};
/// A board used up without a plan, for a job or for none. `left`: so much of its length, from the
/// tag end, goes back to the rack as an offcut at what the keeping rule says it is worth; the rest
/// of wood and cost goes to the account `by hand`. Throws Refusal when the board is not on the
/// rack, is held for another job, or is not longer than `left`.
UsedByHand useByHand(Book& book, BoardId board, std::optional<JobId> job,
                     std::optional<Length> left, const std::string& why, const Hand& hand);

}  // namespace flitch::desk
