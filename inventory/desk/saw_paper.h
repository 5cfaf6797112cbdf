#pragma once
#include <string>
#include <vector>

#include "inventory/records/cut_plan.h"

namespace flitch::desk {

/// What a maker pencilled beside a board of the plan.
struct PaperLine {
  bool sawn = true;               ///< false: not yet, stays planned
  std::vector<std::string> lost;  ///< hand marks of blanks that came to nothing
};

/// Reads `` (as planned), `no`, `B3 lost`, `B3 C1 lost`; upper or lower case. Throws Refusal with
/// what is wrong and what would be taken: words it does not know, a mark this board does not give.
[[nodiscard]] PaperLine readPaper(const std::string& text, const Cutting& cutting);

/// Hand marks of a cutting's blanks, by part and number.
[[nodiscard]] std::vector<std::string> marksOf(const Cutting& cutting);

}  // namespace flitch::desk
