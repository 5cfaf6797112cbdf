#pragma once
#include <deque>
#include <memory>
#include <set>
#include <vector>

#include "inventory/planning/frame.h"

namespace flitch::planning {

/// What the parts of a job ask of the stock: needs, recipes, items and the way back, still without
/// boards; sizes are those of `framing.blanks`, in no grid yet.
struct Asked {
  Framing framing;
  std::vector<const Part*> partOfItem;  ///< of the request, or of those below
  std::deque<Part> setUps;              ///< parts as their set-up pieces may be
  /// For each item the boards it may come from; none: all.
  std::vector<std::shared_ptr<const std::set<BoardId>>> source;
  /// For each item whether it keeps off wood marked for show; empty: none does.
  std::vector<bool> offShow;
  [[nodiscard]] bool mayComeFrom(BoardId board, std::size_t item) const {
    return source[item] == nullptr || source[item]->count(board) > 0;
  }
};

/// Every recipe a part allows becomes ways to supply it, copies that lack staves or laminae first.
/// - glued: at most two kinds of stave, see divisionsOf().
/// - laminated, turned: as many laminae or strips as each thickness of stock asks for.
/// - ganged: every number of pieces that makes up any count once the least that can be milled is
///   reached, and all in one.
/// - runs: one blank for all copies of a run still wanted, in order.
/// - random widths: each copy apart, widths of its range in a few steps.
/// A copy of several blanks whose part asks for one log, one board or sisters is a recipe for each
/// that alone may be enough of it; staves are then divided as its own boards are wide. Where blanks
/// of the copy are locked, the log is theirs; where blanks sawn before came from is not asked.
/// A group is made whole by one recipe for each of its sources (see sourcesOf()) that may be
/// enough, and for each choice of recipes of its parts while there are at most four of these, else
/// by the first of each; laminae and strips are as few as the source's thickness gives.
/// Where boards have wood marked for show, a blank of a part that leaves it to others is offered
/// twice: off that wood, and anywhere, where it counts a wish more.
/// O(parts x boards), with such parts O(parts x boards²).
[[nodiscard]] Asked ask(const PlanRequest& request);

/// Pieces to a blank that a ganged part is offered in, rising, of `wanted`: the least number that
/// is long or wide enough to mill, up to one less than its double, so that any count from it on is
/// a sum of them; and all in one where that is not too long. Never empty.
[[nodiscard]] std::vector<int> gangSizes(const Part& part, int wanted, const ShopProfile& shop);

/// Into how many laminae or turned strips `whole` is divided so that each comes out of one of these
/// thicknesses of stock with `lost` off it: at least `least`, rising, at most three numbers.
/// Empty: none gives any.
[[nodiscard]] std::vector<int> layersOf(Length whole, Length lost, int least,
                                        const std::vector<Length>& thicknesses);

}  // namespace flitch::planning
