#include "inventory/wood/species.h"

#include <array>

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

// Specific gravity: ovendry mass over volume at 12 % moisture.
constexpr std::string_view table =
    "tree species strength table (synthmind.com), equal to Wood Handbook rows at 12 %";
constexpr std::string_view list = "G. Wengert, list of Wood Handbook values at 12 %";
constexpr std::string_view sheet = "AHEC species sheet";
constexpr std::string_view none = "gravity not at hand";

constexpr std::array<Species, 22> known{{
    {"alder", "Alnus rubra", 0.41, table},
    {"ash", "Fraxinus americana", 0.60, table},
    {"basswood", "Tilia americana", 0.37, table},
    {"beech", "Fagus grandifolia", 0.64, table},
    {"birch", "Betula alleghaniensis", 0.62, table},
    {"butternut", "Juglans cinerea", 0.38, table},
    {"cherry", "Prunus serotina", 0.50, table},
    {"chestnut", "Castanea dentata", 0.43, table},
    {"elm", "Ulmus americana", 0.50, table},
    {"hard maple", "Acer saccharum", 0.63, list},
    {"hickory", "Carya ovata", 0.72, table},
    {"mahogany", "Swietenia macrophylla", 0, none},
    {"paper birch", "Betula papyrifera", 0.55, table},
    {"pecan", "Carya illinoinensis", 0.66, table},
    {"poplar", "Liriodendron tulipifera", 0.42, sheet},
    {"red oak", "Quercus rubra", 0.63, list},
    {"sassafras", "Sassafras albidum", 0, none},
    {"silver maple", "Acer saccharinum", 0.47, list},
    {"soft maple", "Acer rubrum", 0.54, table},
    {"sycamore", "Platanus occidentalis", 0, none},
    {"walnut", "Juglans nigra", 0.55, sheet},
    {"white oak", "Quercus alba", 0.68, list},
}};

}  // namespace

std::span<const Species> knownSpecies() { return known; }

const Species* findSpecies(std::string_view name) {
  const std::string wanted = speciesName(name);
  for (const Species& species : known) {
    if (species.name == wanted) return &species;
  }
  return nullptr;
}

std::string speciesName(std::string_view text) {
  std::string out;
  for (const char c : trimmed(text)) {
    const bool blank = c == ' ' || c == '\t' || c == '\n' || c == '\r';
    if (blank) {
      if (out.back() != ' ') out.push_back(' ');
    } else {
      out.push_back(c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c);
    }
  }
  return out;
}

}  // namespace flitch
