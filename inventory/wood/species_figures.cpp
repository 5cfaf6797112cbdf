#include "inventory/wood/species_figures.h"

#include <algorithm>
#include <array>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

// The spans hold every figure of the tables with room on both sides.
constexpr auto kinds = std::to_array<FigureKind>({
    {"gravity", "specific gravity at 12 %", &Species::gravity, 3, 100, 1400, ""},
    {"radial", "change a point, quartersawn", &Species::radial, 5, 20, 1000, ""},
    {"tangential", "change a point, flatsawn", &Species::tangential, 5, 20, 1000, ""},
    {"radial_shrinkage", "shrinkage, radial", &Species::radialShrinkage, 2, 50, 2000, " %"},
    {"tangential_shrinkage", "shrinkage, tangential", &Species::tangentialShrinkage, 2, 50, 2500,
     " %"},
    {"volumetric_shrinkage", "shrinkage, volumetric", &Species::volumetricShrinkage, 2, 50, 4000,
     " %"},
});

}  // namespace

std::span<const FigureKind> figureKinds() { return kinds; }

std::string figureText(const FigureKind& kind, const Figure& figure) {
  if (!figure) return {};
  return decimal(figure.value, kind.places, "-") + std::string(kind.suffix);
}

int parseFigure(const FigureKind& kind, std::string_view asWritten) {
  const auto fail = [&](const char* what) {
    const auto figure = [&](int value) { return figureText(kind, {value, false, ""}); };
    throw Unreadable(inBackticks(asWritten) + what, shortened(asWritten),
                     figure(kind.least) + " to " + figure(kind.most));
  };
  const std::string written = plain(asWritten);
  std::string_view digits = written;
  if (!kind.suffix.empty() && digits.ends_with('%')) {
    digits = trimmed(digits.substr(0, digits.size() - 1));
  }
  int value = 0, places = -1, read = 0;
  for (const char c : digits) {
    if (c == '.' && places < 0) {
      places = 0;
    } else if (c >= '0' && c <= '9' && ++read <= 8) {
      value = value * 10 + (c - '0');
      if (places >= 0) ++places;
    } else {
      fail(" is no plain decimal");
    }
  }
  if (read == 0) fail(" is no plain decimal");
  for (; places > kind.places; --places) {
    if (value % 10 != 0) fail(" has more places than the tables give");
    value /= 10;
  }
  for (places = std::max(places, 0); places < kind.places; ++places) {
    if (value > kind.most) break;
    value *= 10;
  }
  if (value < kind.least || value > kind.most) fail(" is out of its range");
  return value;
}

}  // namespace flitch
