#include "inventory/records/part_doubts.h"

#include <algorithm>
#include <tuple>

#include "inventory/records/blank.h"
#include "inventory/records/recipe.h"

namespace flitch {

namespace {

std::string nameOf(const Part& part) { return part.name + " (" + partLetter(part.line) + ")"; }

auto pieceOf(const Part& part) {
  return std::tie(part.length, part.width, part.thickness, part.species, part.faceA, part.faceB,
                  part.edges, part.recipe);
}

void doubtTwice(const Job& job, std::vector<std::string>& doubts) {
  for (std::size_t i = 0; i < job.parts.size(); ++i) {
    for (std::size_t j = i + 1; j < job.parts.size(); ++j) {
      const Part& a = job.parts[i];
      const Part& b = job.parts[j];
      if (a.name == b.name) {
        doubts.push_back(nameOf(a) + " stands again as " + partLetter(b.line) + ".");
      } else if (pieceOf(a) == pieceOf(b)) {
        doubts.push_back(nameOf(b) + " is the same piece as " + nameOf(a) + ".");
      }
    }
  }
}

/// The most any board of an allowed species has of something.
template <class Measured>
Length most(const Part& part, std::span<const Board> boards, Measured measured) {
  Length all;
  for (const Board& board : boards) {
    const auto& names = part.species;
    if (std::find(names.begin(), names.end(), board.species) == names.end()) continue;
    all = std::max(all, measured(board));
  }
  return all;
}

void doubtSize(const Part& part, const ShopProfile& shop, std::span<const Board> boards, Unit unit,
               std::vector<std::string>& doubts) {
  if (part.length < part.width) {
    doubts.push_back(nameOf(part) + " is " + lengthText(part.width, unit) + " wide and only " +
                     lengthText(part.length, unit) + " along its grain: is that so?");
  }
  if (boards.empty() || waits(part, shop)) return;
  const Blank blank = blankFor(part, shop);
  const Length longest = most(part, boards, [](const Board& b) { return b.length(); });
  const Length thickest = most(part, boards, [](const Board& b) { return b.thickness; });
  if (longest == Length()) {
    doubts.push_back(nameOf(part) + ": there is no board of " + part.species.front() +
                     " on the rack.");
    return;
  }
  if (blank.length > longest) {
    doubts.push_back(nameOf(part) + " needs " + lengthText(blank.length, unit) +
                     " of length; the longest board is " + lengthText(longest, unit) + ".");
  }
  const bool piled = allowsRecipe(part, RecipeKind::laminated, shop) ||
                     allowsRecipe(part, RecipeKind::turned, shop);
  if (!piled && blank.thickness > thickest) {
    doubts.push_back(nameOf(part) + " needs " + lengthText(blank.thickness, unit) +
                     " of thickness; the thickest board has " + lengthText(thickest, unit) + ".");
  }
}

}  // namespace

std::vector<std::string> partDoubts(const Job& job, const ShopProfile& shop,
                                    std::span<const Board> boards, Unit unit) {
  std::vector<std::string> doubts;
  doubtTwice(job, doubts);
  for (const Part& part : job.parts) doubtSize(part, shop, boards, unit, doubts);
  return doubts;
}

}  // namespace flitch
