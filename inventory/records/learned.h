#pragma once
#include <map>
#include <string>
#include <utility>

#include "inventory/wood/measure.h"

namespace flitch {

/// Blanks sawn, and how many of them came to nothing at the saw or since.
struct BlankCount {
  int sawn = 0, lost = 0;
};

/// Board feet the saw has used up (boards less the offcuts they left), and what of it is in parts.
struct FeetUsed {
  Feet used, parts;
  FeetUsed& operator+=(const FeetUsed& more) {
    used += more.used;
    parts += more.parts;
    return *this;
  }
};

/// What sawing has taught so far, for the plans to come.
struct Learned {
  /// Blanks that rested on faces nobody had looked at, by the supplier of the wood.
  std::map<std::string, BlankCount> unseen;
  /// By species and quarters.
  std::map<std::pair<std::string, Nominal>, FeetUsed> yields;

  /// Of that species and thickness; else of the species; else of all. Nothing used: none known.
  [[nodiscard]] FeetUsed yieldOf(const std::string& species, Nominal nominal) const;
};

}  // namespace flitch
