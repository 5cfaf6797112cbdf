#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace flitch {

/// A published or measured figure as a whole number of its unit, and where it comes from.
struct Figure {
  int value = 0;            ///< zero: not at hand
  bool fromMemory = false;  ///< recalled, not seen at its source: said wherever it is used
  std::string source;
  explicit operator bool() const { return value != 0; }
  friend bool operator==(const Figure&, const Figure&) = default;
};

/// A species of wood as sold, and what is known of it. The table is data with a source per value
/// (inventory/wood/data); a maker's own species are in the book beside it.
struct Species {
  std::string name;  ///< trade name, lower case: "cherry", "white oak"
  std::string botanical;
  Figure gravity;  ///< thousandths: ovendry mass over volume at 12 % moisture
  /// Change of width per point of moisture from 6 to 14 %, in hundred-thousandths of it, across
  /// quartersawn (radial) and flatsawn (tangential) boards.
  Figure radial, tangential;
  /// Shrinkage from green to ovendry, in hundredths of a percent of the green size.
  Figure radialShrinkage, tangentialShrinkage, volumetricShrinkage;
  bool own = false;       ///< the maker's
  bool softwood = false;  ///< by the table of coefficients
  friend bool operator==(const Species&, const Species&) = default;
};

/// The table, in order of name.
[[nodiscard]] std::span<const Species> knownSpecies();
/// By trade name, blanks and case folded; null when the table has none.
[[nodiscard]] const Species* findSpecies(std::string_view name);
/// The same among the maker's own, too, newest first: their figures hold, what they leave out the
/// table says.
[[nodiscard]] std::optional<Species> speciesNamed(std::string_view name,
                                                  std::span<const Species> own);
/// Lower case, single blanks, trimmed: how a species name is kept.
[[nodiscard]] std::string speciesName(std::string_view text);

}  // namespace flitch
