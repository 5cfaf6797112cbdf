#pragma once
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// A way a plan can be wrong.
enum class FaultKind {
  unknownBoard,  ///< a board that is not in the request
  boardTwice,    ///< cut twice
  boardKeptOut,
  pinUnused,      ///< a board that must be used gives no blank
  lockBroken,     ///< a locked cutting is missing or was changed
  laidMoved,      ///< a blank laid by hand does not lie where it was laid
  badTree,        ///< depth jumps, root not the board's bounds, leaf with children
  notGuillotine,  ///< children do not tile their parent along one direction
  tooManyStages,
  gap,  ///< wood of a node that no child covers
  overlap,
  missedKerf,      ///< neighbours closer than the kerf of their direction
  endTrimMissing,  ///< or too short, or at an end our saw made
  outsideOutline,  ///< a blank reaches out of the wood, or into the reference edge
  onMark,          ///< a barred mark (with margin) on a demanding face or edge
  unseenFace,      ///< a demanding face lies on one nobody has looked at
  steepGrain,      ///< a part that must be straight from a board that is not, or not known to be
  tooThin,
  wrongSpecies,
  wrongSize,    ///< not the part's blank
  unknownPart,  ///< no such line, or a part that waits
  wrongCount,   ///< copies made plus planned plus short is not what is wanted; or a copy twice
  badLayup,     ///< of no blank, of a recipe the part does not allow, or a place taken twice
  notFilled,  ///< the staves of a panel are narrower than it, or bring more or less than its width;
              ///< laminae likewise in thickness
  mixedWood,  ///< blanks of a copy from several logs or boards where its part asks for one
  wideSection,  ///< a section of a panel that the planer does not take
  badOffcut,    ///< smaller than the keeping rule, or on a mark that bars it
  offGrid,      ///< a cut not on a whole grid step
  wrongMoney,   ///< wood cost, cut cost, offcut worth or shortage is not what account() says
  wrongBound,   ///< bound above the plan's cost
};

struct Fault {
  FaultKind kind;
  BoardId board;   ///< none for faults of the whole plan
  int piece = -1;  ///< index into the cutting, -1 for the whole
  std::string sentence;
};

[[nodiscard]] std::string_view word(FaultKind kind);

/// Cuts the plan again on the exact boards, in nanometres, and tells all that is wrong: empty means
/// every piece can be sawn as drawn, serves its part, and the money is right. Knows nothing of
/// Problem, Solution or grid cells. O(pieces² per board).
[[nodiscard]] std::vector<Fault> check(const CutPlan& plan, const PlanRequest& request);

/// One cutting before the judge.
struct CuttingCase {
  const Cutting& cutting;
  const Board& board;
  const PlanRequest& request;
  Length tick;
};
/// What is wrong with a cutting by itself: its tree and what its blanks and offcuts are; not how it
/// goes together with others. O(pieces²).
[[nodiscard]] std::vector<Fault> faultsOf(const CuttingCase& at);

}  // namespace flitch
