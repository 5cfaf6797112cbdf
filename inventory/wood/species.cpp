#include "inventory/wood/species.h"

#include <algorithm>
#include <map>
#include <vector>

#include "inventory/wood/rows.h"
#include "inventory/wood/species_figures.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

using RowsBySpecies = std::map<std::string, PublishedRow>;

RowsBySpecies bySpecies(std::string_view table) {
  RowsBySpecies rows;
  for (PublishedRow& row : publishedRows(table)) rows[row["species"]] = std::move(row);
  return rows;
}

/// `4.4` with two places is 440: the tables hold plain decimals alone.
int scaled(std::string_view text, int places) {
  int value = 0;
  int left = -1;  // places still to come once the point is seen
  for (const char c : text) {
    if (c == '.') {
      left = places;
    } else if (left != 0) {
      value = value * 10 + (c - '0');
      if (left > 0) --left;
    }
  }
  for (left = left < 0 ? places : left; left > 0; --left) value *= 10;
  return value;
}

Figure figureOf(const RowsBySpecies& rows, const std::string& species, const std::string& column,
                int places) {
  const auto row = rows.find(species);
  if (row == rows.end()) return {};
  const std::string& text = row->second.at(column);
  if (text.empty()) return {};
  return {scaled(text, places), row->second.at("mark") != "verified", row->second.at("source")};
}

std::vector<Species> readTable() {
  const RowsBySpecies changes = bySpecies(dimensionalChangeTable);
  const RowsBySpecies shrinkages = bySpecies(shrinkageTable);
  const RowsBySpecies gravities = bySpecies(gravityTable);
  std::vector<Species> all;
  for (const PublishedRow& row : publishedRows(tradeNameTable)) {
    Species& species = all.emplace_back();
    species.name = row.at("name");
    species.botanical = row.at("botanical");
    const auto kind = changes.find(row.at("coefficients"));
    species.softwood = kind != changes.end() && kind->second.at("kind") == "softwood";
    species.gravity = figureOf(gravities, row.at("gravity"), "value", 3);
    species.radial = figureOf(changes, row.at("coefficients"), "C_R", 5);
    species.tangential = figureOf(changes, row.at("coefficients"), "C_T", 5);
    species.radialShrinkage = figureOf(shrinkages, row.at("shrinkage"), "radial", 2);
    species.tangentialShrinkage = figureOf(shrinkages, row.at("shrinkage"), "tangential", 2);
    species.volumetricShrinkage = figureOf(shrinkages, row.at("shrinkage"), "volumetric", 2);
  }
  return all;
}

}  // namespace

std::span<const Species> knownSpecies() {
  static const std::vector<Species> known = readTable();
  return known;
}

const Species* findSpecies(std::string_view name) {
  const std::string wanted = speciesName(name);
  const std::span<const Species> known = knownSpecies();
  const auto at =
      std::lower_bound(known.begin(), known.end(), wanted,
                       [](const Species& s, const std::string& n) { return s.name < n; });
  return at != known.end() && at->name == wanted ? &*at : nullptr;
}

std::optional<Species> speciesNamed(std::string_view name, std::span<const Species> own) {
  const std::string wanted = speciesName(name);
  const Species* known = findSpecies(wanted);
  const auto mine = std::find_if(own.begin(), own.end(),
                                 [&](const Species& species) { return species.name == wanted; });
  if (mine == own.end()) return known ? std::optional(*known) : std::nullopt;
  Species merged = *mine;
  if (!known) return merged;
  merged.softwood = known->softwood;
  if (merged.botanical.empty()) merged.botanical = known->botanical;
  for (const FigureKind& kind : figureKinds()) {
    if (!(merged.*kind.member)) merged.*kind.member = known->*kind.member;
  }
  return merged;
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
