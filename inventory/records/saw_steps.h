#pragma once
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch {

/// One cut as a person makes it. What is measured "from" a stop, edge or cut falls as a piece of
/// that measure and the kerf is lost beyond it; what is measured "off" is taken away, kerf and all.
struct SawStep {
  enum class Kind { squareEnd, crosscut, reference, rip, trimStrip, remainder };
  int number = 0;  ///< 0 for steps without number (reference edge, remainder)
  Kind kind = Kind::crosscut;
  Length measure;     ///< from the stop, from edge V or from a cut
  Length chalk;       ///< running mark from the fresh end (crosscuts of the board)
  std::string from;   ///< "off end", "from stop", "from edge V", "from cut 4", "off, jointer"
  std::string falls;  ///< "C1 long front", "waste", "strip D1 to D3", "keep"; empty for a length
  Rect at;            ///< the kerf, board coordinates; of a reference edge the wood it takes
  int piece = -1;     ///< of the cutting that falls
  int stick = 0;      ///< number of the cut that freed the stick this is made on, 0: the board
  int section = 0;    ///< which crosscut length, counted from the fresh end; 0: the whole board
};
/// The cuts of a cutting in the order they are made: square the end away from the tag, crosscuts
/// toward the tag, reference edge before any rip (never a rough edge against a rip fence), rips
/// from the near edge on, then strips across from the fresh end. A board ripped first is squared,
/// gets its edge and is ripped over its whole length; its strips are then cut from the fresh end,
/// and the trim at the tag falls with what is left of each; where its only strip needs no rip, the
/// board itself is cut into lengths. The listed steps alone are enough to cut the board. `shop`:
/// the profile the plan was made with, since its kerfs tell waste that needs a cut of its own from
/// dust. O(pieces²).
[[nodiscard]] std::vector<SawStep> sawSteps(const Cutting& cutting, const Board& board,
                                            const Job& job, const ShopProfile& shop);

}  // namespace flitch
