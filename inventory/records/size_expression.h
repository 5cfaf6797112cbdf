#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/wood/length.h"
#include "inventory/wood/wide.h"

namespace flitch {

/// What arithmetic over sizes comes to: an exact fraction, of nanometres when it is a length, of
/// nothing when it is a plain number.
struct Quantity {
  Wide over = 0, under = 1;  ///< lowest terms, under above zero
  bool length = false;
};

/// Sizes and counts by name, lower case.
using Quantities = std::map<std::string, Quantity, std::less<>>;

/// Evaluates `width - 2*stile`, `(height - 1/2)/drawers`, `3/4 in + reveal`: sums, products,
/// brackets, figures (`24`, `37.5`, `1 1/2`), units (in, ", ft, ', mm, cm, m, pcs) and names.
/// A figure without unit is a number; added to a length it is read in the bare unit. Length times
/// length, and a number divided by a length, have no meaning here. `1-1/2` without blanks could be
/// 1 1/2 or a difference and is refused. All is exact. Throws Unreadable naming what is wrong.
[[nodiscard]] Quantity evaluate(std::string_view expression, Bare bare, const Quantities& names);

/// The names it uses, lower case, each once, in order. Throws Unreadable for what is no expression.
[[nodiscard]] std::vector<std::string> namesIn(std::string_view expression);

/// True when it has something a plain size has not: a name, a bracket, `*`, `+`.
[[nodiscard]] bool isArithmetic(std::string_view text);

/// True for a word of letters, digits and underscores that starts with a letter and is no unit.
[[nodiscard]] bool isSizeName(std::string_view name);

/// To the nearest nanometre; a plain number in the bare unit. Throws Unreadable: zero or below, or
/// past 100 m.
[[nodiscard]] Length lengthOf(const Quantity& quantity, std::string_view expression, Bare bare);

/// A size named in a job: a bare figure is a length, `5 pcs` a count. Throws as evaluate() does.
[[nodiscard]] Quantity namedQuantity(std::string_view expression, Bare bare,
                                     const Quantities& names);

}  // namespace flitch
