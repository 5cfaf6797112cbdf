#include <QString>
#include <algorithm>
#include <cmath>

#include "inventory/desk/jobs.h"
#include "inventory/desk/receive.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/desk/set_aside.h"
#include "inventory/records/part_doubts.h"
#include "inventory/records/part_wood.h"
#include "inventory/records/recipe.h"
#include "inventory/wood/air.h"
#include "inventory/wood/weight.h"
#include "inventory/wood/writing.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {

namespace {

std::string edgesText(const Part& part) {
  return part.edges[0] == part.edges[1] ? part.edges[0]
                                        : "front " + part.edges[0] + ", back " + part.edges[1];
}

std::string speciesText(const Part& part) {
  std::string words;
  for (const std::string& species : part.species) {
    words += (words.empty() ? "" : " or ") + species;
  }
  return words;
}

Table partTable(const Job& job, const ShopProfile& shop) {
  Table table;
  table.columns = {
      {"letter", "", false},        {"part", "part", false},       {"count", "count", true},
      {"spares", "spares", true},   {"length", "length", true},    {"width", "width", true},
      {"thickness", "thick", true}, {"species", "species", false}, {"face_a", "face A", false},
      {"face_b", "face B", false},  {"edges", "edges", false},     {"recipe", "recipe", false}};
  // Columns few jobs need stand only where one does.
  const auto some = [&](auto wants) {
    return std::any_of(job.parts.begin(), job.parts.end(), wants);
  };
  const bool setUps = some([](const Part& p) { return p.setUps > 0; });
  const bool leftLong = some([](const Part& p) { return p.leftLong; });
  const bool woodFrom = some([](const Part& p) { return p.woodFrom != WoodFrom::anyBoards; });
  const bool grouped = some([](const Part& p) { return !p.group.empty(); });
  const bool straight = some([](const Part& p) { return p.straight; });
  if (setUps) table.columns.push_back({"set_ups", "set-ups", true});
  if (leftLong) table.columns.push_back({"left_long", "left long", false});
  if (woodFrom) table.columns.push_back({"wood_from", "wood from", false});
  if (grouped) table.columns.push_back({"group", "group", false});
  if (straight) table.columns.push_back({"straight", "straight", false});
  for (const Part& part : job.parts) {
    table.rows.push_back(
        {partLetter(part.line), part.name, static_cast<std::int64_t>(part.copies),
         part.spares == 0 ? CellValue{} : CellValue{static_cast<std::int64_t>(part.spares)},
         part.length, part.width, part.thickness, speciesText(part), part.faceA, part.faceB,
         edgesText(part), recipeText(part, shop)});
    if (setUps) table.rows.back().emplace_back(std::int64_t{part.setUps});
    if (leftLong) table.rows.back().emplace_back(part.leftLong ? "yes" : "");
    if (woodFrom) table.rows.back().emplace_back(std::string(word(part.woodFrom)));
    if (grouped) table.rows.back().emplace_back(part.group);
    if (straight) table.rows.back().emplace_back(part.straight ? "yes" : "");
  }
  return table;
}

/// What the year does to the wide parts; nothing where none is wide.
void sayMovement(Answer& answer, const Job& job, const store::Snapshot& snapshot) {
  const Season season = seasonOf(snapshot.shop());
  const std::vector<Species> own = snapshot.ownSpecies();
  Table table;
  table.title = "Wide parts over the year, made at " + percentText(season.made) + ", " +
                percentText(season.wettest) + " in summer, " + percentText(season.driest) +
                " in winter, flatsawn";
  table.columns = {{"letter", "", false},        {"part", "part", false},
                   {"width", "width", true},     {"species", "species", false},
                   {"summer", "summer", true},   {"winter", "winter", true},
                   {"gap", "gap an edge", true}, {"cover", "cover", true},
                   {"slot", "slot", true},       {"trust", "", false}};
  for (const PartMovement& moves : movements(job, own, season, answer.unit())) {
    const auto part = std::find_if(job.parts.begin(), job.parts.end(),
                                   [&](const Part& p) { return p.line == moves.line; });
    const bool memory = moves.toWettest.fromMemory || moves.toDriest.fromMemory;
    table.rows.push_back({partLetter(moves.line), part->name, part->width, moves.species,
                          moves.toWettest.change, moves.toDriest.change, moves.room.grows,
                          moves.room.shrinks, moves.room.slot,
                          memory ? CellValue{"from memory"} : CellValue{}});
  }
  table.note = "Gap, cover and slot for a part held in the middle of its width.";
  const double weight = finishedKilograms(job, own, season.made);
  answer.put("finished_grams", CellValue{static_cast<std::int64_t>(std::llround(weight * 1000))});
  answer.say("Finished it weighs about " + weightText(weight, answer.unit()) + " at " +
             percentText(season.made) + ".");
  if (table.rows.empty()) {
    answer.put("movement", table);
  } else {
    answer.show("movement", table);
  }
}

std::string offcutSizes(const Cutting& cutting, LengthStyle style) {
  std::string sizes;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind != PieceKind::offcut) continue;
    sizes +=
        (sizes.empty() ? "" : ", ") + text(piece.at.dx, style) + " × " + text(piece.at.dy, style);
  }
  return sizes;
}

}  // namespace

Job jobNamed(const store::Snapshot& snapshot, const std::string& name) {
  if (std::optional<Job> job = snapshot.jobNamed(name)) return *job;
  const QString wanted = QString::fromStdString(name);
  std::string names;
  for (const Job& job : snapshot.jobs()) {
    if (QString::fromStdString(job.name).compare(wanted, Qt::CaseInsensitive) == 0) return job;
  }
  for (const Job& job : snapshot.jobs()) names += (names.empty() ? "" : ", ") + job.name;
  throw Refusal("unknown-job",
                Complaint{"", "There is no job " + name, name,
                          names.empty() ? "a job added with flitch job add" : names});
}

std::string blankMarks(const Cutting& cutting) {
  std::string all;
  for (const std::string& mark : desk::marksOf(cutting)) all += (all.empty() ? "" : " ") + mark;
  return all;
}

Table cuttingTable(const CutPlan& plan, const std::vector<Board>& boards, const Job& job,
                   const ShopProfile& shop, Unit unit) {
  Table table;
  table.columns = {
      {"tag", "tag", false},         {"species", "species", false}, {"nominal", "quarters", false},
      {"size", "size", false},       {"bay", "bay", false},         {"blanks", "blanks", false},
      {"offcuts", "offcuts", false}, {"used", "in parts", true},    {"cost", "wood cost", true}};
  const LengthStyle style = unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres;
  for (const Cutting& cutting : plan.cuttings) {
    const auto board = std::find_if(boards.begin(), boards.end(),
                                    [&](const Board& b) { return b.id == cutting.board; });
    if (board == boards.end()) continue;
    const Breakdown breakdown = account(cutting, *board, job, shop, plan.tick);
    const CubicMillimetres parts = breakdown.volume[static_cast<std::size_t>(Cause::parts)];
    const CubicMillimetres planed = breakdown.volume[static_cast<std::size_t>(Cause::machining)];
    const Permille used{
        board->wood.value > 0 ? (parts.value + planed.value) * 1000 / board->wood.value : 0};
    table.rows.push_back({board->tagText(), board->species, text(board->nominal),
                          sizeText(*board, unit), board->bay, blankMarks(cutting),
                          offcutSizes(cutting, style), used, breakdown.woodCost});
  }
  table.totals = {
      counted(plan.cuttings.size(), "board", "boards"), {}, {}, {}, {}, {}, {}, {}, plan.woodCost};
  return table;
}

namespace {

/// `width=24` as a named size. Throws Refusal for what has no name or no size.
NamedSize namedSize(const std::string& written) {
  const std::size_t sign = written.find('=');
  const std::string name = plain(written.substr(0, sign));
  const std::string size = sign == std::string::npos
                               ? ""
                               : std::string(trimmed(std::string_view(written).substr(sign + 1)));
  if (name.empty() || size.empty()) {
    throw Refusal("bad-size", Complaint{"--size", "`" + written + "` names no size", written,
                                        "width=24, \"door=width/2 - 1/8\""});
  }
  return {name, size, {}};
}

/// A job's named sizes with what they come to, for both.
void showSizes(const Job& job, Answer& answer) {
  Table table;
  table.title = "Sizes";
  table.columns = {
      {"name", "name", false}, {"expression", "as typed", false}, {"value", "comes to", true}};
  for (const NamedSize& size : job.sizes) {
    const bool count = size.value == Length();
    table.rows.push_back({size.name, size.expression, count ? CellValue{} : CellValue{size.value}});
  }
  answer.put("sizes", table);
  if (!table.rows.empty()) answer.show(table);
}

/// The job as the book has it now: its parts, its sizes, what looks wrong.
void tellParts(const store::Book& book, JobId id, Answer& answer) {
  const store::Snapshot snapshot = book.read();
  const Job added = snapshot.job(id).value();
  answer.show("parts", partTable(added, snapshot.shop()));
  showSizes(added, answer);
  const std::vector<std::string> doubts =
      partDoubts(added, snapshot.shop(), snapshot.rack(), answer.unit());
  answer.put("doubts", doubts);
  for (const std::string& doubt : doubts) answer.say("Look again: " + doubt);
  answer.put("job", added.name);
  answer.put("id", id.value);
}

void tellAdded(const store::Book& book, JobId id, Answer& answer) {
  const Job added = book.read().job(id).value();
  answer.say("Added " + added.name + ": " + counted(added.parts.size(), "part", "parts") + ".");
  tellParts(book, id, answer);
}

}  // namespace

namespace {

void showSetAside(const store::Snapshot& snapshot, JobId job, Answer& answer) {
  const Table table = desk::setAsideTable(snapshot, job);
  if (table.rows.empty()) {
    answer.put("set_aside", table);
  } else {
    answer.show("set_aside", table);
  }
}

}  // namespace

Answer run(const JobAdd& command, const Session& session) {
  store::Book book = session.toWrite();
  exchange::ReadingRules rules = desk::readingRules(book);
  Answer answer = answerOf(book);
  Job job;
  if (!command.sizeFile.empty()) {
    exchange::Taken<NamedSize> sizes =
        exchange::readSizes(exchange::readCsvFile(command.sizeFile), rules);
    for (const std::string& warning : sizes.warnings) answer.warn(warning);
    job.sizes = std::move(sizes.rows);
  }
  for (const std::string& written : command.sizes) job.sizes.push_back(namedSize(written));
  for (const NamedSize& size : job.sizes) rules.sizes.push_back(size.name);
  exchange::Taken<Part> taken = exchange::readParts(exchange::readCsvFile(command.parts), rules);
  for (const std::string& warning : taken.warnings) answer.warn(warning);
  job.name = command.name;
  job.customer = command.customer;
  job.parts = std::move(taken.rows);
  for (Part& part : job.parts) {
    part.copies *= command.times;
    part.spares *= command.times;
  }
  tellAdded(book, desk::addJob(book, job, session.hand), answer);
  return answer;
}

Answer run(const JobChange& command, const Session& session) {
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  const Job before = jobNamed(book.read(), command.name);
  Job job = before;
  for (const std::string& written : command.sizes) {
    const NamedSize size = namedSize(written);
    const auto known = std::find_if(job.sizes.begin(), job.sizes.end(),
                                    [&](const NamedSize& s) { return s.name == size.name; });
    if (known != job.sizes.end())
      known->expression = size.expression;
    else
      job.sizes.push_back(size);
  }
  if (!command.parts.empty()) {
    exchange::ReadingRules rules = desk::readingRules(book);
    for (const NamedSize& size : job.sizes) rules.sizes.push_back(size.name);
    exchange::Taken<Part> taken = exchange::readParts(exchange::readCsvFile(command.parts), rules);
    for (const std::string& warning : taken.warnings) answer.warn(warning);
    job.parts = std::move(taken.rows);
    desk::keepLines(job.parts, before);
  }
  const bool planned = book.read().newestPlan(job.id).has_value();
  const EntryId entry = desk::changeJob(book, job, session.hand);
  if (!entry) {
    answer.say("Nothing of " + job.name + " is different.");
  } else {
    answer.say("Changed " + job.name + " in entry " + std::to_string(entry.value) + "." +
               (planned ? " Plan it again: its plan was made for what it asked before." : ""));
  }
  answer.put("entry", entry.value);
  tellParts(book, job.id, answer);
  return answer;
}

Answer run(const JobCopy& command, const Session& session) {
  store::Book book = session.toWrite();
  desk::Copying copying{command.name, command.customer, command.times, {}};
  for (const std::string& written : command.sizes) copying.sizes.push_back(namedSize(written));
  const Job from = jobNamed(book.read(), command.from);
  const JobId id = desk::copyJob(book, from.id, copying, session.hand);
  Answer answer = answerOf(book);
  tellAdded(book, id, answer);
  return answer;
}

Answer run(const JobList& /*command*/, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  Answer answer = answerOf(book);
  Table table;
  table.columns = {{"job", "job", false},    {"customer", "customer", false},
                   {"parts", "parts", true}, {"pieces", "pieces", true},
                   {"made", "made", true},   {"plan", "newest plan", true}};
  for (const Job& job : snapshot.jobs()) {
    PlanRequest sawn;
    sawn.made = snapshot.made(job.id);
    sawn.laid = snapshot.laid(job.id);
    std::int64_t pieces = 0;
    std::int64_t made = 0;
    for (const Part& part : job.parts) {
      pieces += part.wanted();
      made += static_cast<std::int64_t>(madeBefore(part, sawn).copies.size());
    }
    const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job.id);
    table.rows.push_back({job.name, job.customer, static_cast<std::int64_t>(job.parts.size()),
                          pieces, made, stored ? CellValue{stored->plan.total()} : CellValue{}});
  }
  if (table.rows.empty()) {
    answer.say("No jobs yet.");
    answer.put("jobs", table);
  } else {
    answer.show("jobs", table);
  }
  return answer;
}

Answer run(const JobAside& command, const Session& session) {
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  SetAside wood;
  wood.job = jobNamed(book.read(), command.name).id;
  wood.species = plain(command.species);
  wood.nominal = argument("nominal", [&] { return parseNominal(command.nominal); });
  wood.feet = argument("feet", [&] { return parseFeet(command.feet); });
  const EntryId entry = desk::setAside(book, wood, session.hand);
  const store::Snapshot now = book.read();
  const std::string name = wood.species + " " + text(wood.nominal);
  answer.say(wood.feet == Feet()
                 ? "No " + name + " is set aside for " + command.name + " any more."
                 : text(wood.feet) + " bf of " + name + " are set aside for " + command.name + ".");
  answer.put("entry", entry.value);
  showSetAside(now, wood.job, answer);
  return answer;
}

Answer run(const JobShow& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot snapshot = book.read();
  const Job job = jobNamed(snapshot, command.name);
  Answer answer = answerOf(book);
  answer.say(job.name + (job.customer.empty() ? "" : ", for " + job.customer));
  answer.put("job", job.name);
  answer.put("customer", job.customer);
  answer.show("parts", partTable(job, snapshot.shop()));
  showSizes(job, answer);
  sayMovement(answer, job, snapshot);
  showSetAside(snapshot, job.id, answer);
  const std::optional<store::StoredPlan> stored = snapshot.newestPlan(job.id);
  if (!stored) {
    answer.say("\nNo plan is kept yet.");
    return answer;
  }
  // Boards sawn since are shown as they were.
  std::vector<Board> boards = snapshot.rack();
  std::vector<std::string> sawn;
  for (const store::DoneCutting& done : snapshot.doneCuttings(job.id)) {
    boards.push_back(done.board);
    sawn.push_back(done.board.tagText());
  }
  const ShopProfile shop = snapshot.profile(stored->plan.profile).value();
  Table cuttings = cuttingTable(stored->plan, boards, job, shop, answer.unit());
  cuttings.title = "Newest plan, " + answer.money(stored->plan.total());
  answer.show("boards", cuttings);
  showLayups(answer, stored->plan, job, shop);
  std::string tags;
  for (const std::string& tag : sawn) tags += (tags.empty() ? "" : ", ") + tag;
  const std::size_t left = stored->plan.cuttings.size() - stored->sawn.size();
  answer.say(sawn.empty()
                 ? "Nothing is sawn yet."
                 : "Sawn: " + tags + ". " +
                       (left == 0 ? "Nothing of this plan is left to saw."
                                  : counted(left, "board is", "boards are") + " left to saw."));
  answer.put("sawn_boards", sawn);
  answer.put("plan", stored->plan);
  answer.put("sawn", static_cast<std::int64_t>(stored->sawn.size()));
  return answer;
}

}  // namespace flitch::cli
