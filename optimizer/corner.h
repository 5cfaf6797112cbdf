#pragma once
#include <optional>
#include <vector>

#include "optimizer/bound.h"
#include "optimizer/draft.h"

namespace flitch::optimizer {

/// Some boards, and what they are to supply: a problem of its own with the stock numbered anew. The
/// stocks have no marks; patterns come from the boards themselves.
struct Corner {
  Problem problem;
  std::vector<int> stock;  ///< number in the whole; rising
  std::vector<std::int64_t> wanted;

  /// What `kept` leaves missing, from copies of `allowed` (rising) that it leaves unopened.
  Corner(const Draft& kept, const Problem& whole, std::vector<int> allowed);
};

/// The cheapest plan of a corner that was found below a cost, from known columns, from columns
/// priced at the corner's own multipliers, and by listing. Nothing: none was found.
[[nodiscard]] std::optional<Draft> planCorner(const Corner& corner, const Multipliers& known,
                                              Pricers& pricers, Worth below, const Halt& halt,
                                              Filling& spent);

}  // namespace flitch::optimizer
