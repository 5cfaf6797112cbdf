#pragma once
#include <optional>
#include <string>

#include "inventory/records/board.h"
#include "inventory/wood/moisture.h"

namespace flitch {

/// Whether a board is ready for the rooms its piece will live in.
struct BoardReadiness {
  std::optional<Reading> reading;  ///< the newest with a figure; none: not measured yet
  Readiness readiness = Readiness::ready;
  /// "9.5 % on 2026-05-31: ready for 6.2 to 10.9 %", "no reading yet: measure it", ...
  std::string line;
  std::string caution;  ///< where a meter cannot tell so much; else empty
  [[nodiscard]] bool ready() const { return reading && readiness == Readiness::ready; }
};
[[nodiscard]] BoardReadiness readinessOf(const Board& board, Climate climate);

}  // namespace flitch
