#include "inventory/planning/other_recipes.h"

#include <algorithm>
#include <optional>
#include <set>

#include "inventory/planning/planner.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

/// The recipe a blank was laid by.
RecipeKind recipeOf(const std::vector<Layup>& layups) {
  if (layups.empty()) return RecipeKind::solid;
  const Layup& l = layups.front();
  switch (l.kind) {
    case LayupKind::lamina: return RecipeKind::laminated;
    case LayupKind::gang: return RecipeKind::ganged;
    case LayupKind::stave:
      if (l.turned) return RecipeKind::turned;
      return l.section > 0 ? RecipeKind::glued : RecipeKind::randomWidths;
    case LayupKind::whole: break;
  }
  if (l.turned) return RecipeKind::turned;
  return layups.size() > 1 ? RecipeKind::resawn : RecipeKind::solid;
}

/// Blanks of the part are settled already: sawn, locked or laid by hand, so it cannot be made
/// otherwise alone.
bool settled(const Part& part, const PlanRequest& request) {
  const auto own = [&](const auto& blank) { return blank.line == part.line; };
  const Choices& choices = request.choices;
  return std::any_of(request.laid.begin(), request.laid.end(), own) ||
         std::any_of(choices.laid.begin(), choices.laid.end(), own) ||
         std::any_of(choices.locks.begin(), choices.locks.end(), [&](const Lock& lock) {
           return std::any_of(lock.cutting.pieces.begin(), lock.cutting.pieces.end(), own);
         });
}

optimizer::Limits briefly(optimizer::Limits limits) {
  constexpr double longest = 1;
  limits.seconds = std::min(longest, limits.seconds / 5);
  if (limits.effort > 0) limits.effort = std::max<std::uint64_t>(1, limits.effort / 5);
  return limits;
}

/// None where what the maker settled cannot stand with that recipe.
std::optional<CutPlan> planIfAny(const PlanRequest& request, const optimizer::Limits& limits,
                                 const std::stop_token& stop) {
  try {
    return makePlan(request, limits, stop).plan;
  } catch (const Refusal&) {
    return std::nullopt;
  }
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 32);
  return text;
}

std::string wordsOf(const std::vector<RecipeKind>& recipes) {
  std::string words;
  for (const RecipeKind kind : recipes) {
    words += (words.empty() ? "" : " and ") + std::string(word(kind));
  }
  return words;
}

}  // namespace

std::vector<RecipeKind> recipesUsed(const CutPlan& plan, const Part& part,
                                    const ShopProfile& shop) {
  std::set<RecipeKind> used;
  for (const Cutting& cutting : plan.cuttings) {
    for (std::size_t i = 0; i < cutting.pieces.size(); ++i) {
      const Piece& piece = cutting.pieces[i];
      if (piece.kind != PieceKind::blank || piece.line != part.line) continue;
      used.insert(recipeOf(layupsOf(cutting, i)));
    }
  }
  std::vector<RecipeKind> inOrder = recipesOf(part, shop);
  // What a resaw leaves over is no recipe of its own.
  std::erase_if(inOrder, [&](RecipeKind kind) { return used.count(kind) == 0; });
  return inOrder;
}

std::vector<OtherRecipe> otherRecipes(const CutPlan& plan, const PlanRequest& request,
                                      const optimizer::Limits& limits,
                                      const std::stop_token& stop) {
  constexpr std::size_t most = 8;
  std::vector<OtherRecipe> others;
  for (std::size_t p = 0; p < request.job.parts.size(); ++p) {
    const Part& part = request.job.parts[p];
    const std::vector<RecipeKind> allowed = recipesOf(part, request.shop);
    const std::vector<RecipeKind> used = recipesUsed(plan, part, request.shop);
    if (allowed.size() < 2 || used.empty() || settled(part, request)) continue;
    for (const RecipeKind recipe : allowed) {
      if (used == std::vector{recipe}) continue;
      if (others.size() == most || stop.stop_requested()) return others;
      PlanRequest forced = request;
      forced.job.parts[p].recipe = word(recipe);
      const std::optional<CutPlan> other = planIfAny(forced, briefly(limits), stop);
      if (!other) continue;
      OtherRecipe told;
      told.line = part.line;
      told.recipe = recipe;
      told.supplied = std::equal(other->shorts.begin(), other->shorts.end(), plan.shorts.begin(),
                                 plan.shorts.end(), [](const ShortPart& a, const ShortPart& b) {
                                   return a.line == b.line && a.copies == b.copies;
                                 });
      told.more = std::max(Money(), other->total() - plan.total());
      told.atLeast = std::max(Money(), other->bound - plan.total());
      others.push_back(told);
    }
  }
  return others;
}

std::vector<std::string> otherRecipesText(const std::vector<OtherRecipe>& others,
                                          const CutPlan& plan, const PlanRequest& request) {
  std::vector<std::string> sentences;
  int line = 0;
  for (const OtherRecipe& other : others) {
    const auto part = std::find_if(request.job.parts.begin(), request.job.parts.end(),
                                   [&](const Part& p) { return p.line == other.line; });
    if (part == request.job.parts.end()) continue;
    if (line != other.line) {
      sentences.push_back(capital(part->name) + " (" + partLetter(part->line) +
                          "): " + wordsOf(recipesUsed(plan, *part, request.shop)) + ".");
    }
    line = other.line;
    const std::string name = capital(std::string(word(other.recipe)));
    std::string& said = sentences.back();
    if (!other.supplied) {
      said += " " + name + " alone, parts would be short.";
    } else if (other.more == Money()) {
      said += " " + name + " alone costs no more.";
    } else if (other.atLeast == other.more) {
      said += " " + name + " alone would have come to " + text(other.more, request.sign) + " more.";
    } else {
      said += " " + name + " alone would have come to " + text(other.more, request.sign) +
              " more, as far as a short search found" +
              (other.atLeast > Money()
                   ? "; never to less than " + text(other.atLeast, request.sign) + " more."
                   : ".");
    }
  }
  return sentences;
}

}  // namespace flitch::planning
