#pragma once
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/records/job.h"
#include "inventory/records/layup.h"
#include "inventory/records/shop.h"

namespace flitch {

/// How a part is made of blanks.
enum class RecipeKind {
  solid,         ///< one blank
  glued,         ///< staves edge to edge, in sections that the planer takes
  laminated,     ///< laminae face to face
  ganged,        ///< several in one longer or wider blank, cut apart once it is planed
  turned,        ///< a strip of thicker stock laid on its side; of several such, glued, if wider
  randomWidths,  ///< boards of any width side by side, not glued
  resawn         ///< several out of the thickness of one blank
};
[[nodiscard]] std::string_view word(RecipeKind kind);
/// "solid, glued, laminated, ...": what may be typed, several divided by bars.
[[nodiscard]] std::string recipeWords();

/// The recipe that a word stands for; "edge-glued" is glued.
[[nodiscard]] std::optional<RecipeKind> recipeNamed(std::string_view word);

/// Copies whose grain runs on from one to the next, or that match: of one blank, end to end, side
/// by side, or the leaves of a resaw.
struct GrainRun {
  enum class Lie {
    along,
    across,
    pair,   ///< in any of these ways
    leaves  ///< bookmatched: resawn and opened like a book
  };
  Lie lie = Lie::along;
  std::vector<int> sizes;  ///< copies to each run, in order; of one size it repeats
  [[nodiscard]] bool may(Lie how) const { return lie == how || lie == Lie::pair; }
  /// The run a copy belongs to and its place in it, both from 0. Copies after the last of several
  /// sizes are runs of one; without sizes all are one run.
  [[nodiscard]] std::pair<int, int> placeOf(int copy) const;
};
/// "along", "along 3", "across 2,2,1"; "pairs", "bookmatched": each two copies. None where there is
/// no run, or its words make no sense.
[[nodiscard]] std::optional<GrainRun> runOf(const Part& part);

/// The recipes a part allows, in the order typed; where nothing was typed, by the shop's rule: a
/// part wider than a sensible blank is glued; one too short or too narrow to mill alone is ganged,
/// all others are solid; a part thicker than `thickestSolid` may be laminated as well, whichever
/// comes cheaper. A part in runs is ganged, pairs may be resawn as well, run by run. Empty: the
/// part waits, since one of its words is no recipe.
[[nodiscard]] std::vector<RecipeKind> recipesOf(const Part& part, const ShopProfile& shop);
[[nodiscard]] bool waits(const Part& part, const ShopProfile& shop);
[[nodiscard]] bool allowsRecipe(const Part& part, RecipeKind kind, const ShopProfile& shop);
/// The recipe a blank was laid by. `layups`: all of the blank, see layupsOf(); none where it is a
/// copy by itself.
[[nodiscard]] RecipeKind recipeOf(const std::vector<Layup>& layups);
/// "solid or laminated", or what was typed where the part waits.
[[nodiscard]] std::string recipeText(const Part& part, const ShopProfile& shop);

/// Widths a stave of the part may be sawn to, jointing included: the part's own range, else the
/// shop's, never wider than the planer.
struct StaveRange {
  Length least, most;
};
[[nodiscard]] StaveRange staveRange(const Part& part, const ShopProfile& shop);

/// Two boards are of one log when they are of one species, carry the same name of a log and came in
/// the same delivery, as far as that is known (an offcut keeps the log's name alone).
[[nodiscard]] bool ofOneLog(const Board& a, const Board& b);

/// Every largest set of boards that blanks which must go together may come from, each once: all of
/// them; each board; the boards of each log; of sisters, boards of a log whose places in it follow
/// each other without a gap. Any two of a set are of one log; a board of no known log or place is a
/// set by itself. O(boards²).
[[nodiscard]] std::set<std::set<BoardId>> sourcesOf(const std::vector<Board>& boards,
                                                    WoodFrom from);

}  // namespace flitch
