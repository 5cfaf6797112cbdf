#pragma once
#include <map>
#include <vector>

#include "inventory/planning/laid.h"
#include "inventory/records/blank.h"
#include "inventory/records/cut_plan.h"
#include "inventory/records/recipe.h"
#include "inventory/records/refusal.h"
#include "optimizer/problem.h"
#include "optimizer/solution.h"

namespace flitch::planning {

/// A way to make copies of a part.
struct Making {
  int need = 0;            ///< index of the need its blanks supply: that of the part, or one that a
                           ///< recipe turns into copies of it
  std::int64_t units = 1;  ///< of that need, to a copy
  bool divided = false;    ///< staves of two widths, of which whole sets make copies
};

/// What a blank becomes.
struct BlankForm {
  LayupKind kind = LayupKind::whole;
  int pieces = 1;       ///< copies or laminae in it
  bool turned = false;  ///< a strip laid on its side
  Length gives;         ///< Layup::gives, trim not yet off
  bool loose = false;   ///< a stave that is not glued
  bool bare = false;    ///< the part itself, its number the copy's: no layup tells more
};

/// What is wanted of a part: a need of the problem, in copies. Of a part in a group there is one
/// for each way to make the group, its need used by that way alone.
struct Want {
  std::size_t part = 0;  ///< index into Job::parts
  int need = 0;
  Money price;  ///< of a copy: shortagePrice(); the need may ask the solver more
  std::vector<Making> makings;
  std::vector<int> copies;  ///< which
  Length left, thick;       ///< of the width and of the thickness, still to fill
};

/// Parts that come from one log, board or row of sisters together: all of them, or none is made.
struct GroupWant {
  int need = 0;                                ///< of the problem, one wanted
  Money price;                                 ///< of all copies: the need may ask the solver more
  std::map<std::size_t, int> copies;           ///< wanted, by index into Job::parts
  std::vector<std::vector<std::size_t>> ways;  ///< indices of the wants each way asks for
};

/// A board with blanks laid by hand; what lies free beside them is stock of its own, `board` that
/// of each.
struct LaidBoard {
  std::size_t board = 0;   ///< index into PlanRequest::boards
  optimizer::Rect origin;  ///< of its usable wood, as that of a stock
  Parting parting;
};

/// A plan request as numbers, with the way back.
struct Framing {
  optimizer::Problem problem;
  std::vector<Want> wants;
  std::vector<GroupWant> groups;
  std::vector<LaidBoard> laid;
  Money beside;                  ///< cost of locked boards and of boards laid upon without what is
                                 ///< cut beside the laid blanks; wishes with it
  Length tick;                   ///< coarsest of 1/8, 1/16, 1/32, 1/64 in (1, 0.5, 0.25 mm) on
                                 ///< which kerfs, blanks and locked cuttings are exact, else
                                 ///< the finest
  std::vector<Blank> blanks;     ///< one for each item
  std::vector<BlankForm> forms;  ///< likewise
  std::vector<std::size_t> board;  ///< index into PlanRequest::boards for each stock
  std::vector<optimizer::Rect>
      origin;  ///< of each stock: x, y of tick (0, 0) on the board, in ticks
};

/// Every rounding is against us: blanks, kerfs, marks and margins up, boards inward. A panel
/// counts as many units as both of its divisions share, a stave its part of them: see
/// divisionsOf(); all ways to make a part: see ask(). Stock that no blank fits is left out. Demands
/// become classes: faces A, B, front and back edge with the thickness a blank needs and the way it
/// lies; a class fits a board by species, thickness and warp. What is locked counts as made and its
/// board is no stock; a pinned board must be opened; a board that a wish passes over costs so much
/// more. A board with blanks laid on it is opened and parted around them (see Parting): the bound
/// is that of plans that part it so. Throws Refusal for a pinned board that can give nothing, a
/// locked cutting that cannot be sawn, a blank that cannot lie where it was laid, more than are
/// wanted, a part that is not one blank.
[[nodiscard]] Framing frame(const PlanRequest& request);

[[nodiscard]] Refusal uselessPin(const Board& board, const PlanRequest& request);

/// The solution as a plan in nanometres, copies numbered, blanks with their face and front edge;
/// money taken from account(). Shortages and bounds are carried over; a plan that meets its bound
/// has ended as closed, whatever stopped the solver. Pinned boards keep their blanks before others
/// do; locked cuttings stand among the rest, in order of board.
[[nodiscard]] CutPlan unframe(const optimizer::Solution& solution, const Framing& framing,
                              const PlanRequest& request);

/// By how much the solver's prices of what is missing exceed the book's: its costs, and bounds on
/// plans that leave the same copies short, less this are in the prices of CutPlan::total().
[[nodiscard]] Money raisedBy(const std::vector<optimizer::Shortage>& missing,
                             const Framing& framing);

[[nodiscard]] PlanBound boundKindOf(optimizer::BoundKind kind);

}  // namespace flitch::planning
