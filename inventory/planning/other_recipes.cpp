#include "inventory/planning/other_recipes.h"

#include <algorithm>
#include <optional>
#include <set>

#include "inventory/planning/planner.h"
#include "inventory/records/refusal.h"

namespace flitch::planning {

namespace {

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

/// " Solid alone would have come to $3.20 more."; empty where nothing is known of it.
std::string settledText(const OtherRecipe& other, const std::string& name,
                        const std::string& sign) {
  if (other.supplied && other.more == Money()) return " " + name + " alone costs no more.";
  if (other.near && !other.supplied) return " " + name + " alone, parts would be short.";
  if (other.near) {
    return " " + name + " alone would have come to " +
           (other.atLeast == other.more ? "" : "about ") + text(other.more, sign) + " more.";
  }
  if (other.atLeast == Money()) return "";
  return " " + name + " alone would have come to " + text(other.atLeast, sign) + " more at least.";
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
    if (allowed.size() < 2 || used.empty() || settled(part, request) || runOf(part)) continue;
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
      told.near = (other->total() - other->bound) * 50 <= other->total();
      others.push_back(told);
    }
  }
  return others;
}

std::vector<std::string> otherRecipesText(const std::vector<OtherRecipe>& others,
                                          const CutPlan& plan, const PlanRequest& request) {
  std::vector<std::string> sentences;
  std::vector<std::string> open;  // what was not settled: "solid for the runner (Q)"
  int line = 0;
  for (const OtherRecipe& other : others) {
    const auto part = std::find_if(request.job.parts.begin(), request.job.parts.end(),
                                   [&](const Part& p) { return p.line == other.line; });
    if (part == request.job.parts.end()) continue;
    const std::string name(word(other.recipe));
    const std::string said = settledText(other, capital(name), request.sign);
    if (said.empty()) {
      open.push_back(name + " for " + part->name + " (" + partLetter(part->line) + ")");
      continue;
    }
    if (line != other.line) {
      sentences.push_back(capital(part->name) + " (" + partLetter(part->line) +
                          "): " + wordsOf(recipesUsed(plan, *part, request.shop)) + ".");
    }
    line = other.line;
    sentences.back() += said;
  }
  if (!open.empty()) {
    std::string all;
    for (const std::string& each : open) all += (all.empty() ? "" : ", ") + each;
    sentences.push_back("A short search did not settle what else would have cost: " + all + ".");
  }
  return sentences;
}

}  // namespace flitch::planning
