#pragma once
#include <stop_token>
#include <string>
#include <vector>

#include "inventory/planning/lessons.h"
#include "inventory/records/delivery.h"
#include "inventory/records/price.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// What to buy for the parts that a plan leaves short.
struct ToBuy {
  planning::ToBuy wood;
  std::string yieldOf;        ///< what its yield is that of: "this plan"
  std::optional<Money> cost;  ///< at the day's price, grade left open
};
/// As planning::toBuy(), at the yield of the plan; of a plan that cuts nothing at that of all that
/// was sawn so far, of a book without any at a half (common practice, no source).
[[nodiscard]] std::vector<ToBuy> toBuy(const CutPlan& plan, const PlanRequest& request,
                                       const store::Snapshot& snapshot, const std::string& day);
[[nodiscard]] Table toBuyTable(const std::vector<ToBuy>& rows);

/// The job planned with a supplier's boards as if they were owned, and without.
struct Offer {
  planning::PlanResult without, with;
  std::vector<Board> bought;  ///< of the offer, those that the plan opens
  Money price;                ///< of these
  /// What they save where both plans supply the same parts: total without less total with.
  [[nodiscard]] std::optional<Money> saved() const;
};
/// `limits` are those of each of the two plans. Nothing is written.
[[nodiscard]] Offer weighOffer(const PlanRequest& request, const DeliveryDraft& offered,
                               const optimizer::Limits& limits, std::stop_token stop = {});
/// A row per board to buy: line of the tally, species, thickness, size, feet, price.
[[nodiscard]] Table offerTable(const Offer& offer, const DeliveryDraft& offered, Unit unit);

/// The parts of one species made of nothing but boards of one grade.
struct GradeBill {
  std::string species, grade;
  int seen = 0;     ///< boards of that kind the book has seen and looked at
  int boards = 0;   ///< opened
  Feet feet;        ///< of these
  Money wood;       ///< at the day's price, else at what such boards cost; offcuts kept taken off
  Money work;       ///< pulling and cutting
  int missing = 0;  ///< copies such stock does not give
};
/// For each species of the job (first wishes) and each grade the book has seen of it, at least two
/// boards looked at on both faces: as many boards as it takes, those seen over and over, planned
/// for the parts of that species alone. `limits`: of each plan. Nothing is written.
[[nodiscard]] std::vector<GradeBill> weighGrades(const store::Book& book, JobId job,
                                                 const std::string& day,
                                                 const optimizer::Limits& limits,
                                                 std::stop_token stop = {});
[[nodiscard]] Table gradeTable(const std::vector<GradeBill>& bills);

}  // namespace flitch::desk
