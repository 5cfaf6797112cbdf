#pragma once
#include <string>
#include <vector>

#include "inventory/records/delivery.h"

namespace flitch {

/// What is unlikely in a line, a sentence each, to be told and taken all the same: a board wider
/// than 24 in, longer than 20 ft, shorter than 1 ft, narrower than 2 in, at one end less than half
/// as wide as at the other, measured far from its nominal thickness, or dear beyond all wood
/// (common practice, no source).
[[nodiscard]] std::vector<std::string> cautions(const TallyLine& line, Unit unit);

}  // namespace flitch
