#pragma once
#include <string>
#include <vector>

#include "inventory/records/table.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// From where on a board counts as wet when it was sold dry, in tenths of a per cent: hardwood for
/// furniture is dried to 6 to 8 % (common practice, no source).
inline constexpr int wetAbove = 100;

/// What is wrong with a load, a row each: footage the invoice claims over what came, boards billed
/// over what they measure by the supplier's own rule (exact halves in the yard's favour, a gross
/// tally at 7 %), boards that look like less than the grade paid (shortOfGrade()), boards whose
/// newest reading is wet. Money where a price says how much. Boards no longer on the rack show in
/// footage alone. Throws Refusal when there is no such delivery.
[[nodiscard]] Table claimSheet(const store::Snapshot& snapshot, DeliveryId delivery, Unit unit,
                               int wet = wetAbove);

/// A photo of a board of the claim, and what stands under it: "T0042-F, wet: 14 % on 2026-05-31".
struct ClaimedPhoto {
  Photo photo;
  std::string caption;
};
/// Photos of the boards a claim names, in its order, each once.
[[nodiscard]] std::vector<ClaimedPhoto> claimedPhotos(const store::Snapshot& snapshot,
                                                      const Table& claim);

}  // namespace flitch::desk
