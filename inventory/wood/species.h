#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace flitch {

/// A species of wood as sold. The table is data with a source per row; a maker's own names go in
/// the book beside it.
struct Species {
  std::string_view name;  ///< trade name, lower case: "cherry", "white oak"
  std::string_view botanical;
  double gravity = 0;  ///< at 12 % moisture, Wood Handbook; 0 when not at hand
  std::string_view source;
};

[[nodiscard]] std::span<const Species> knownSpecies();
/// By trade name, blanks and case folded.
[[nodiscard]] const Species* findSpecies(std::string_view name);
/// Lower case, single blanks, trimmed: how a species name is kept.
[[nodiscard]] std::string speciesName(std::string_view text);

}  // namespace flitch
