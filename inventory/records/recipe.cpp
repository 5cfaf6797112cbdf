#include "inventory/records/recipe.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "inventory/wood/writing.h"

namespace flitch {

std::string_view word(RecipeKind kind) {
  switch (kind) {
    case RecipeKind::solid: return "solid";
    case RecipeKind::glued: return "glued";
  }
  throw std::logic_error("no such recipe");
}

std::vector<RecipeKind> recipesOf(const Part& part, const ShopProfile& shop) {
  if (part.recipe.empty()) {
    return {part.width > shop.widestSolid ? RecipeKind::glued : RecipeKind::solid};
  }
  if (part.recipe == "edge-glued") return {RecipeKind::glued};
  for (const RecipeKind kind : {RecipeKind::solid, RecipeKind::glued}) {
    if (part.recipe == word(kind)) return {kind};
  }
  return {};
}

bool waits(const Part& part, const ShopProfile& shop) { return recipesOf(part, shop).empty(); }

bool allowsRecipe(const Part& part, RecipeKind kind, const ShopProfile& shop) {
  const std::vector<RecipeKind> all = recipesOf(part, shop);
  return std::find(all.begin(), all.end(), kind) != all.end();
}

std::string recipeText(const Part& part, const ShopProfile& shop) {
  std::string words;
  for (const RecipeKind kind : recipesOf(part, shop)) {
    words += (words.empty() ? "" : " or ") + std::string(word(kind));
  }
  return words.empty() ? part.recipe : words;
}

StaveRange staveRange(const Part& part, const ShopProfile& shop) {
  const bool own = part.stavesTo > Length();
  const Length most = std::min(own ? part.stavesTo : shop.widestStave, shop.planerWidth);
  return {std::min(own ? part.stavesFrom : shop.narrowestStave, most), most};
}

}  // namespace flitch
