#include "inventory/desk/own_species.h"

#include <algorithm>
#include <set>

#include "inventory/store/writer.h"
#include "inventory/wood/species_figures.h"

namespace flitch::desk {

EntryId addSpecies(store::Book& book, const Species& species, const store::Hand& hand) {
  Species added = species;
  added.name = speciesName(species.name);
  added.own = true;
  const auto refuse = [](const char* code, const char* place, const std::string& what,
                         const char* accepted) {
    throw Refusal(code, Complaint{place, what, "", accepted});
  };
  if (added.name.empty()) refuse("no-name", "name", "a species needs a name", "pear, rowan");
  const auto kinds = figureKinds();
  const bool known = std::any_of(kinds.begin(), kinds.end(), [&](const FigureKind& kind) {
    return static_cast<bool>(added.*kind.member);
  });
  if (!known) {
    refuse("no-figure", added.name.c_str(), "nothing is said of it",
           "at least one figure, such as its specific gravity at 12 %");
  }
  for (const FigureKind& kind : kinds) {
    const Figure& figure = added.*kind.member;
    if (figure && speciesName(figure.source).empty()) {
      refuse("no-source", added.name.c_str(), "its figures have no source",
             "where they come from: a book's page, own scales");
    }
  }
  return book.change({"species added", {}, added.name, {}}, hand,
                     [&](store::Writer& writer) { writer.addSpecies(added); });
}

Table speciesTable(const std::vector<Species>& own) {
  std::set<std::string> names;
  for (const Species& species : knownSpecies()) names.insert(species.name);
  for (const Species& species : own) names.insert(species.name);
  Table table;
  table.columns = {
      {"species", "species", false}, {"botanical", "botanical", false}, {"own", "own", false}};
  for (const FigureKind& kind : figureKinds()) {
    table.columns.push_back({std::string(kind.key), std::string(kind.title), true});
  }
  for (const std::string& name : names) {
    const Species species = speciesNamed(name, own).value();
    std::vector<CellValue>& row = table.rows.emplace_back();
    row = {species.name, species.botanical, species.own ? CellValue{"own"} : CellValue{}};
    for (const FigureKind& kind : figureKinds()) {
      const Figure& figure = species.*kind.member;
      const std::string text = figureText(kind, figure) + (figure.fromMemory ? " ?" : "");
      row.push_back(figure ? CellValue{text} : CellValue{});
    }
  }
  table.note = "? from memory, not seen at its source.";
  return table;
}

Table figureTable(const Species& species) {
  Table table;
  table.columns = {{"figure", "figure", false},
                   {"value", "value", true},
                   {"source", "source", false},
                   {"trust", "", false}};
  for (const FigureKind& kind : figureKinds()) {
    const Figure& figure = species.*kind.member;
    if (!figure) continue;
    table.rows.push_back({std::string(kind.title), figureText(kind, figure), figure.source,
                          figure.fromMemory ? CellValue{"from memory"} : CellValue{}});
  }
  return table;
}

Species speciesOf(const store::Snapshot& snapshot, const std::string& name) {
  if (auto species = speciesNamed(name, snapshot.ownSpecies())) return *std::move(species);
  throw Refusal("unknown-species",
                Complaint{"species", "there are no figures for `" + name + "`", name,
                          "a species of the table, such as cherry, white oak, or one added with "
                          "flitch wood species add"});
}

}  // namespace flitch::desk
