#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "inventory/records/board.h"
#include "inventory/wood/money.h"

namespace flitch {

/// What a foot of such stock costs to buy again, from a day on. Rows are added, never changed.
struct ReplacementPrice {
  std::string species;
  Nominal nominal;
  std::string grade;  ///< empty: of every grade that has no row of its own
  Rate perFoot;
  std::string since;  ///< ISO date
  std::string note;   ///< whose list, whose word
  friend bool operator==(const ReplacementPrice&, const ReplacementPrice&) = default;
};

/// The price that holds on a day: of the rows of that species and thickness not younger than it,
/// the newest of the grade, else the newest without a grade; of one day the later row. Null where
/// there is none. O(rows).
[[nodiscard]] const ReplacementPrice* priceOn(std::span<const ReplacementPrice> prices,
                                              const std::string& species, Nominal nominal,
                                              const std::string& grade, const std::string& day);

/// A board at the price of a day: its billed feet (measured where none were billed) at the foot.
/// None where the table has no price for it.
[[nodiscard]] std::optional<Money> replacementOf(const Board& board,
                                                 std::span<const ReplacementPrice> prices,
                                                 const std::string& day);

}  // namespace flitch
