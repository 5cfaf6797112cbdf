#pragma once
#include <map>
#include <span>
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"
#include "inventory/records/job.h"
#include "inventory/records/shop.h"

namespace flitch::planning {

/// Copies of all parts that a plan leaves short.
[[nodiscard]] int copiesShort(const CutPlan& plan);
/// "Short 2 parts. " before the sentence of a plan that leaves copies short, else nothing.
[[nodiscard]] std::string shortFirst(std::int64_t copies);
/// The plain sentence over a plan: its proof after what is short, or that nothing can be cut and
/// why. The same for a plan just made and for one read from the book.
[[nodiscard]] std::string headline(const CutPlan& plan, const std::string& sign);
/// The claim with its terms, naming what is short: the bound is on plans that supply the same
/// parts.
[[nodiscard]] std::string claimText(const CutPlan& plan, const std::string& sign);
/// Why the planning ended. `shop`: the settings it was planned with.
[[nodiscard]] std::string endingText(const CutPlan& plan, const ShopProfile& shop,
                                     const std::string& sign);

/// What a plan takes on trust.
struct UnseenShare {
  int permille = 0;                ///< of the faces that ask for something, by area, rounded up
  std::vector<std::string> names;  ///< "A9 on T0061-9"
  std::map<std::string, int> bySupplier;  ///< how many blanks rest on such faces
};
/// How much of the faces that ask for something lies on faces nobody has looked at. `boards`: those
/// of the plan, others are passed over.
[[nodiscard]] UnseenShare unseenShare(const CutPlan& plan, std::span<const Board> boards,
                                      const Job& job, const ShopProfile& shop, Unit unit);
/// The share as a sentence, naming at most four blanks.
[[nodiscard]] std::string trustText(const UnseenShare& share);

}  // namespace flitch::planning
