#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/wood/length.h"
#include "inventory/wood/money.h"

namespace flitch {

/// What a job costs beside its lumber. `bar`: a length that is sold; `cut`: pieces cut from the
/// bars of the same name.
enum class JobLineKind { hardware, sheet, glue, finish, other, hours, bar, cut };
inline constexpr std::array<std::string_view, 8> jobLineWords{"hardware", "sheet", "glue", "finish",
                                                              "other",    "hours", "bar",  "cut"};
[[nodiscard]] std::string_view word(JobLineKind kind);

struct JobLine {
  JobLineKind kind = JobLineKind::other;
  std::string name;                 ///< "brass cup pull", "drawer work"
  std::int64_t thousandths = 1000;  ///< how many of `unit`; of a cut whole pieces
  std::string unit;                 ///< "pcs", "l", "sheets"; of people's choice
  std::optional<Money> price;       ///< of one; hours without one: at the shop's rate
  Length length;                    ///< of a bar sold, of a piece cut
  std::string note;
  friend bool operator==(const JobLine&, const JobLine&) = default;
};

/// Price times amount, to the nearest ten-thousandth, halves up.
[[nodiscard]] Money amountOf(Money price, std::int64_t thousandths);

/// "12", "2.5".
[[nodiscard]] std::string countText(const JobLine& line);
/// "12 pcs", "2.5 h", "3".
[[nodiscard]] std::string quantityText(const JobLine& line);

/// A paper given to a customer: a price and no costs.
struct Quote {
  std::int64_t id = 0;
  JobId job;
  std::string number;      ///< "Q 26-041"
  std::string givenOn;     ///< ISO date
  std::string validUntil;  ///< ISO date, or empty
  std::string title, words, terms;
  Money price;
  friend bool operator==(const Quote&, const Quote&) = default;
};

}  // namespace flitch
