#pragma once
#include <span>
#include <string>
#include <string_view>

#include "inventory/wood/species.h"

namespace flitch {

/// One of the figures of a species: how it is named, written and read.
struct FigureKind {
  std::string_view key;    ///< "radial"
  std::string_view title;  ///< "width a point, quartersawn"
  Figure Species::*member;
  int places;               ///< of its decimal: 0.00126 has five
  int least, most;          ///< values taken for a wood that grows
  std::string_view suffix;  ///< " %" or nothing
};
/// Gravity, radial and tangential change, radial, tangential and volumetric shrinkage.
[[nodiscard]] std::span<const FigureKind> figureKinds();

/// `0.5`, `0.00126`, `4.4 %`; empty for none.
[[nodiscard]] std::string figureText(const FigureKind& kind, const Figure& figure);
/// Reads a figure as figureText() writes it, `%` or not. Throws Unreadable with the range.
[[nodiscard]] int parseFigure(const FigureKind& kind, std::string_view text);

}  // namespace flitch
