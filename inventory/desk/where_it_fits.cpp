#include "inventory/desk/where_it_fits.h"

#include <algorithm>

#include "inventory/records/blank.h"
#include "inventory/records/recipe.h"

namespace flitch::desk {

namespace {

/// Parts of the job that a piece of this length is still large enough for.
std::string servesText(const Piece& blank, Length length, const CuttingCase& at) {
  const ShopProfile& shop = at.request.shop;
  std::string parts;
  for (const Part& part : at.request.job.parts) {
    if (part.line == blank.line || !allowsRecipe(part, RecipeKind::solid, shop)) continue;
    const Blank wanted = blankFor(part, shop);
    const bool holds =
        wanted.length <= length && wanted.width <= blank.at.dy &&
        wanted.thickness <= at.board.thickness &&
        std::find(part.species.begin(), part.species.end(), at.board.species) != part.species.end();
    if (holds) parts += (parts.empty() ? "" : ", ") + partLetter(part.line) + " " + part.name;
  }
  return parts;
}

}  // namespace

std::string whereItFits(const CutShort& cut, const CuttingCase& at) {
  const auto blank =
      std::find_if(at.cutting.pieces.begin(), at.cutting.pieces.end(), [&](const Piece& piece) {
        return piece.kind == PieceKind::blank && handMark(piece.line, piece.copy) == cut.mark;
      });
  if (blank == at.cutting.pieces.end()) return "";
  const std::string parts = servesText(*blank, cut.length, at);
  return cut.mark + ", " + lengthText(cut.length, at.request.unit) + " long, " +
         (parts.empty() ? "is large enough for no other part of " + at.request.job.name
                        : "is still large enough for " + parts);
}

}  // namespace flitch::desk
