#include "inventory/desk/own_species.h"
#include "inventory/wood/species_figures.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {

Answer run(const WoodSpecies& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  if (command.name.empty()) {
    answer.show("species", desk::speciesTable(snapshot.ownSpecies()));
    return answer;
  }
  const Species species = desk::speciesOf(snapshot, command.name);
  answer.say(species.name + (species.botanical.empty() ? "" : ", " + species.botanical) +
             (species.own ? ", your own." : "."));
  answer.put("name", species.name);
  answer.put("botanical", species.botanical);
  answer.put("own", species.own);
  answer.show("figures", desk::figureTable(species));
  return answer;
}

Answer run(const WoodSpeciesAdd& command, const Session& session) {
  store::Book book = session.toWrite();
  Species species;
  species.name = command.name;
  species.botanical = command.botanical;
  for (const FigureKind& kind : figureKinds()) {
    const auto written = command.figures.find(std::string(kind.key));
    if (written == command.figures.end() || written->second.empty()) continue;
    species.*kind.member = {
        argument(std::string(kind.key), [&] { return parseFigure(kind, written->second); }), false,
        command.source};
  }
  const EntryId entry = desk::addSpecies(book, species, session.hand);
  Answer answer = answerOf(book);
  const Species added = desk::speciesOf(book.read(), command.name);
  answer.say("Added " + added.name + " to the book.");
  answer.put("entry", entry.value);
  answer.put("name", added.name);
  answer.show("figures", desk::figureTable(added));
  return answer;
}

}  // namespace flitch::cli
