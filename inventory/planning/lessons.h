#pragma once
#include <string>
#include <vector>

#include "inventory/planning/planner.h"
#include "inventory/records/learned.h"

/// What earlier sawing has to say to a plan. Advice alone: no plan rests on it.
namespace flitch::planning {

/// How many of `blanks` on faces nobody has looked at may come to nothing, by those of the supplier
/// sawn so far, rounded up. Empty where none was.
[[nodiscard]] std::string unseenLesson(const Learned& learned, const std::string& supplier,
                                       int blanks);

/// Lumber for parts that are short.
struct ToBuy {
  std::string species;
  Nominal nominal;
  std::string parts;  ///< "2 of rail (C), 1 of foot (K)"
  Feet inParts;       ///< finished length x width at that thickness
  Feet feet;          ///< to buy, up to a whole foot
  FeetUsed learned;   ///< what the figure rests on
};
/// By species (each part's first wish) and the least quarters that give its blank. Parts that are
/// short for faces nobody has looked at are left out: their wood is there; so are those of stock no
/// yield is known of. O(shorts).
[[nodiscard]] std::vector<ToBuy> toBuy(const std::vector<ShortPart>& shorts,
                                       const PlanRequest& request, const Learned& learned);
[[nodiscard]] std::string buyText(const ToBuy& wood);

/// Both of them for a finished plan, a sentence each.
[[nodiscard]] std::vector<std::string> lessons(const PlanResult& result, const Learned& learned);

}  // namespace flitch::planning
