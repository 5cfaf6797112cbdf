// A part is typed over or added: the job asks for something else.
#include <algorithm>

#include "inventory/desk/jobs.h"
#include "inventory/exchange/columns.h"
#include "inventory/exchange/csv.h"
#include "inventory/wood/writing.h"
#include "ui/desktop/jobs_place.h"

namespace flitch::desktop {
namespace {

/// The columns of a parts list that the grid types.
struct At {
  enum Column : std::size_t {
    part,
    count,
    spares,
    length,
    width,
    thickness,
    species,
    faceA,
    faceB,
    edges
  };
};
using Row = std::array<std::string, 10>;

/// The row read as one of a parts list. Throws Refusal.
Part readRow(const Row& cells, const exchange::ReadingRules& rules) {
  exchange::CsvFile list{cells[At::part], {}, {{1, {}}}};
  for (const char* head : {"part", "count", "spares", "length", "width", "thickness", "species",
                           "face_a", "face_b", "edges"})
    list.head.push_back({head, 1});
  for (const std::string& cell : cells) list.rows[0].cells.push_back({cell, 1});
  return exchange::readParts(list, rules).rows.at(0);
}

std::string allSpecies(const std::vector<std::string>& species) {
  std::string all;
  for (const std::string& each : species) all += (all.empty() ? "" : "|") + each;
  return all;
}

/// "stretcher, cherry or white oak" names the species too; a comma before anything else is part of
/// the name. The words before it, and the species as a parts list has them, empty: none.
std::pair<std::string, std::string> nameAndSpecies(const std::string& text,
                                                   const std::vector<std::string>& known) {
  const std::size_t comma = text.rfind(',');
  if (comma == std::string::npos) return {text, {}};
  QStringList woods;
  for (const QString& wood : q(text.substr(comma + 1)).split(" or ")) {
    woods += wood.trimmed().toLower();
    if (std::find(known.begin(), known.end(), woods.back().toStdString()) == known.end())
      return {text, {}};
  }
  return {std::string(trimmed(std::string_view(text).substr(0, comma))),
          woods.join('|').toStdString()};
}

/// "clear" is clear on all four sides; "clear, sound; front clear, back sound" names faces A and B,
/// then the edges. What is not said stays.
void putAsks(const std::string& text, Row& cells) {
  const std::size_t end = text.find(';');
  const std::string faces = text.substr(0, end);
  const std::size_t comma = faces.find(',');
  cells[At::faceA] = trimmed(std::string_view(faces).substr(0, comma));
  if (comma != std::string::npos)
    cells[At::faceB] = trimmed(std::string_view(faces).substr(comma + 1));
  if (end != std::string::npos)
    cells[At::edges] = trimmed(std::string_view(text).substr(end + 1));
  else if (comma == std::string::npos)
    cells[At::faceB] = cells[At::edges] = cells[At::faceA];
}

/// The part with that cell as typed. Throws Refusal.
Part typedPart(const Part& before, int column, const std::string& text,
               const exchange::ReadingRules& rules) {
  Row cells{before.name, "1", "0", "1", "1", "1", allSpecies(before.species)};
  const auto split = [&](std::string_view at, std::size_t first, std::size_t second) {
    const std::size_t place = text.find(at);
    cells[first] = trimmed(std::string_view(text).substr(0, place));
    if (place == std::string::npos) return false;
    cells[second] = trimmed(std::string_view(text).substr(place + at.size()));
    return true;
  };
  Part typed = before;
  const auto take = [&](const Part& read, std::size_t size) {
    Length Part::*const sizes[] = {&Part::length, &Part::width, &Part::thickness};
    typed.*sizes[size] = read.*sizes[size];
    typed.typed[size] = read.typed[size];
  };
  switch (column) {
    case PartsModel::name: {
      const auto [name, woods] = nameAndSpecies(text, rules.species);
      if (!name.empty() || woods.empty()) cells[At::part] = name;
      if (!woods.empty()) cells[At::species] = woods;
      const Part read = readRow(cells, rules);
      typed.name = read.name;
      typed.species = read.species;
      break;
    }
    case PartsModel::count: {
      split("+", At::count, At::spares);
      const Part read = readRow(cells, rules);
      typed.copies = read.copies;
      typed.spares = read.spares;
      break;
    }
    case PartsModel::length:
      cells[At::length] = text;
      take(readRow(cells, rules), 0);
      break;
    case PartsModel::width: {
      const bool both =
          split("×", At::width, At::thickness) || split(" x ", At::width, At::thickness);
      const Part read = readRow(cells, rules);
      take(read, 1);
      if (both) take(read, 2);
      break;
    }
    case PartsModel::thick:
      cells[At::thickness] = text;
      take(readRow(cells, rules), 2);
      break;
    default: {
      cells[At::faceA] = before.faceA;
      cells[At::faceB] = before.faceB;
      cells[At::edges] = "front " + before.edges[0] + ", back " + before.edges[1];
      putAsks(text, cells);
      const Part read = readRow(cells, rules);
      typed.faceA = read.faceA;
      typed.faceB = read.faceB;
      typed.edges = read.edges;
    }
  }
  return typed;
}

exchange::ReadingRules rulesOf(const Session& session, const Job& job) {
  exchange::ReadingRules rules = session.readingRules();
  for (const NamedSize& size : job.sizes) rules.sizes.push_back(size.name);
  return rules;
}

}  // namespace

bool JobsPlace::changeTo(const Job& changed, const QString& what) {
  const Job before = *job();
  // The plan it was settled for goes, and with it what is shown of it.
  SettledBoards settled = settled_;
  if (!session_.attempt([&] { desk::changeJob(session_.book(), changed, session_.hand()); }))
    return false;
  const std::optional<Job> now = session_.book().read().job(chosen_);
  if (!now || *now == before) return true;  // the same in other words
  const std::size_t lost = settled.letGo(before, *now);
  settled_ = std::move(settled);
  showSettled();
  QString sentence = what + " Ctrl+Z takes it back";
  if (plans_ == 0) sentence += ", Ctrl+Enter plans the job as it is now";
  sentence += ".";
  if (lost > 0) sentence += QString(" %1 settled for the plan before cannot stay.").arg(lost);
  emit said(sentence, false);
  return true;
}

bool JobsPlace::canChange() {
  if (session_.planning())
    emit said("A plan is being made of these parts. Esc ends it, then they may be changed.", true);
  return job() != nullptr && !session_.planning();
}

void JobsPlace::changePart(int line, int column, const QString& text) {
  if (!canChange()) return;
  const Job* shown = job();
  Job changed = *shown;
  const auto at = std::find_if(changed.parts.begin(), changed.parts.end(),
                               [&](const Part& p) { return p.line == line; });
  if (at == changed.parts.end()) return;
  const QString name = q(at->name);
  if (column == PartsModel::count && text == "0") {
    changed.parts.erase(at);
    changeTo(changed, name + " is out of the job.");
    return;
  }
  if (session_.attempt(
          [&] { *at = typedPart(*at, column, text.toStdString(), rulesOf(session_, *shown)); }))
    changeTo(changed, name + " is changed.");
}

void JobsPlace::addPart(int column) {
  const PartsModel::Cells& typed = model_.typedNew();
  for (const int needed : {PartsModel::name, PartsModel::length, PartsModel::width}) {
    if (!typed[static_cast<std::size_t>(needed)].isEmpty()) continue;
    refusedPart_ = false;  // another is begun
    return;
  }
  if (!canChange()) return;
  const Job* shown = job();
  if (column != parts_.lastColumn() && !refusedPart_) return;
  Job changed = *shown;
  Part added;
  added.species = changed.parts.back().species;
  added.thickness = changed.parts.back().thickness;
  added.typed[2] = changed.parts.back().typed[2];
  refusedPart_ = !session_.attempt([&] {
    const exchange::ReadingRules rules = rulesOf(session_, *shown);
    // Width last: it may say the thickness as well.
    for (const int c : {PartsModel::name, PartsModel::count, PartsModel::length, PartsModel::thick,
                        PartsModel::width, PartsModel::asks}) {
      const QString& text = typed[static_cast<std::size_t>(c)];
      if (!text.isEmpty()) added = typedPart(added, c, text.toStdString(), rules);
    }
  });
  if (refusedPart_) return;
  changed.parts.push_back(added);
  refusedPart_ = !changeTo(changed, q(added.name) + " is in the job.");
  if (refusedPart_) return;
  model_.clearNew();
  parts_.goToNew();
}

void JobsPlace::askFirstPart() {
  firstPart_ = true;
  pasted_.clear();
  naming_.setAbout("First part of the job", "rail, 2, 30, 3 1/2, 3/4, cherry",
                   "Its name, count, length, width, thickness and species, commas between. Enter "
                   "goes on to the job's name, Esc drops it.");
  naming_.setTyped("");
  lay();
  naming_.setFocus(Qt::OtherFocusReason);
}

void JobsPlace::readFirstPart() {
  const QStringList typed = naming_.typed().split(',');
  constexpr std::array order{At::part,  At::count,     At::length,
                             At::width, At::thickness, At::species};
  try {
    if (static_cast<std::size_t>(typed.size()) != order.size())
      throw Refusal("bad-part", Complaint{"",
                                          QString("%1 of its 6 cells are typed")
                                              .arg(naming_.typed().isEmpty() ? 0 : typed.size())
                                              .toStdString(),
                                          naming_.typed().toStdString(),
                                          "name, count, length, width, thickness, species"});
    Row cells;
    for (std::size_t i = 0; i < order.size(); ++i)
      cells[order[i]] = typed[static_cast<int>(i)].trimmed().toStdString();
    const Part read = readRow(cells, session_.readingRules());
    firstPart_ = false;
    pasted_ = {read};
  } catch (const Refusal& refusal) {
    naming_.tell(refusal);
    return;
  }
  askName();
}

}  // namespace flitch::desktop
