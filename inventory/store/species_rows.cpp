#include "inventory/store/species_rows.h"

#include "inventory/store/board_rows.h"
#include "inventory/wood/species_figures.h"

namespace flitch::store {

namespace {

std::optional<int> orNull(const Figure& figure) {
  return figure ? std::optional(figure.value) : std::nullopt;
}

}  // namespace

std::vector<Species> readOwnSpecies(Database& database) {
  std::vector<Species> all;
  database.each(
      "SELECT name, botanical, source, gravity, radial, tangential, radial_shrinkage, "
      "tangential_shrinkage, volumetric_shrinkage FROM own_species WHERE withdrawn = 0 "
      "ORDER BY id DESC",
      [&](Row& row) {
        Species& species = all.emplace_back();
        species.own = true;
        row >> species.name >> species.botanical;
        const auto source = row.next<std::string>();
        // The columns stand in the order of figureKinds().
        for (const FigureKind& kind : figureKinds()) {
          if (const auto value = row.next<std::optional<int>>()) {
            species.*kind.member = {*value, false, source};
          }
        }
      });
  return all;
}

std::int64_t insertOwnSpecies(Database& database, const Species& species, EntryId entry) {
  database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", species.name);
  const std::int64_t id = nextNumber(database, "species");
  std::string source;
  for (const FigureKind& kind : figureKinds()) {
    if (species.*kind.member) source = (species.*kind.member).source;
  }
  database.run(
      "INSERT INTO own_species (id, name, botanical, gravity, radial, tangential, "
      "radial_shrinkage, tangential_shrinkage, volumetric_shrinkage, source, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      id, species.name, species.botanical, orNull(species.gravity), orNull(species.radial),
      orNull(species.tangential), orNull(species.radialShrinkage),
      orNull(species.tangentialShrinkage), orNull(species.volumetricShrinkage), source, entry);
  return id;
}

}  // namespace flitch::store
