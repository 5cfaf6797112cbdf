#pragma once
#include <string_view>
#include <vector>

#include "inventory/records/job.h"
#include "inventory/records/shop.h"

namespace flitch {

/// How a part is made of blanks.
/// - solid: one blank. glued: staves edge to edge, in sections that the planer takes.
enum class RecipeKind { solid, glued };
[[nodiscard]] std::string_view word(RecipeKind kind);

/// The recipes a part allows, in the order typed; where nothing was typed, by the shop's rule: a
/// part wider than a sensible blank is glued, all others are solid. Empty: the part waits, since
/// its recipe is none that can be planned yet.
[[nodiscard]] std::vector<RecipeKind> recipesOf(const Part& part, const ShopProfile& shop);
[[nodiscard]] bool waits(const Part& part, const ShopProfile& shop);
[[nodiscard]] bool allowsRecipe(const Part& part, RecipeKind kind, const ShopProfile& shop);
/// "glued", or what was typed where the part waits.
[[nodiscard]] std::string recipeText(const Part& part, const ShopProfile& shop);

/// Widths a stave of the part may be sawn to, jointing included: the part's own range, else the
/// shop's, never wider than the planer.
struct StaveRange {
  Length least, most;
};
[[nodiscard]] StaveRange staveRange(const Part& part, const ShopProfile& shop);

}  // namespace flitch
