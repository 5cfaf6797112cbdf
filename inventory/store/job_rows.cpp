#include "inventory/store/job_rows.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <algorithm>

#include "inventory/exchange/json.h"
#include "inventory/store/board_rows.h"

namespace flitch::store {

std::vector<Job> readJobs(Database& database, std::optional<JobId> only) {
  std::vector<Job> jobs;
  const std::int64_t id = only ? only->value : 0;
  database.each(
      "SELECT id, name, customer, version FROM jobs "
      "WHERE id = ? OR (? = 0 AND withdrawn = 0) ORDER BY id",
      [&](Row& row) {
        Job job;
        row >> job.id >> job.name >> job.customer >> job.version;
        jobs.push_back(std::move(job));
      },
      id, id);
  const auto jobOf = [&](JobId wanted) {
    const auto found = std::lower_bound(jobs.begin(), jobs.end(), wanted,
                                        [](const Job& job, JobId key) { return job.id < key; });
    return found != jobs.end() && found->id == wanted ? &*found : nullptr;
  };
  database.each(
      "SELECT job, line, name, copies, spares, length, width, thickness, face_a, face_b, "
      "edge_front, edge_back, recipe, note, staves_from, staves_to, laminae, "
      "run, set_ups, left_long, length_typed, width_typed, thickness_typed, wood_together, "
      "straight, grouped FROM parts WHERE job = ? OR ? = 0 ORDER BY job, line",
      [&](Row& row) {
        Job* const job = jobOf(row.next<JobId>());
        if (!job) return;
        Part part;
        row >> part.line >> part.name >> part.copies >> part.spares >> part.length >> part.width >>
            part.thickness >> part.faceA >> part.faceB >> part.edges[0] >> part.edges[1] >>
            part.recipe >> part.note >> part.stavesFrom >> part.stavesTo >> part.laminae >>
            part.run >> part.setUps >> part.leftLong >> part.typed[0] >> part.typed[1] >>
            part.typed[2] >> part.woodFrom >> part.straight >> part.group;
        job->parts.push_back(std::move(part));
      },
      id, id);
  database.each(
      "SELECT job, line, species FROM part_species WHERE job = ? OR ? = 0 "
      "ORDER BY job, line, rank",
      [&](Row& row) {
        Job* const job = jobOf(row.next<JobId>());
        if (!job) return;
        const auto line = row.next<int>();
        const auto part = std::find_if(job->parts.begin(), job->parts.end(),
                                       [&](const Part& p) { return p.line == line; });
        if (part != job->parts.end()) part->species.push_back(row.next<std::string>());
      },
      id, id);
  database.each(
      "SELECT job, name, expression, value FROM sizes WHERE job = ? OR ? = 0 ORDER BY job, line",
      [&](Row& row) {
        Job* const job = jobOf(row.next<JobId>());
        if (!job) return;
        NamedSize size;
        row >> size.name >> size.expression >> size.value;
        job->sizes.push_back(std::move(size));
      },
      id, id);
  return jobs;
}

namespace {

void insertAsked(Database& database, const Job& job) {
  int sizeLine = 0;
  for (const NamedSize& size : job.sizes) {
    database.run("INSERT INTO sizes (job, line, name, expression, value) VALUES (?, ?, ?, ?, ?)",
                 job.id, ++sizeLine, size.name, size.expression, size.value);
  }
  for (const Part& part : job.parts) {
    database.run(
        "INSERT INTO parts (job, line, name, copies, spares, length, width, thickness, face_a, "
        "face_b, edge_front, edge_back, recipe, note, staves_from, staves_to, laminae, "
        "run, set_ups, left_long, length_typed, width_typed, thickness_typed, wood_together, "
        "straight, grouped) "
        "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        job.id, part.line, part.name, part.copies, part.spares, part.length, part.width,
        part.thickness, part.faceA, part.faceB, part.edges[0], part.edges[1], part.recipe,
        part.note, part.stavesFrom, part.stavesTo, part.laminae, part.run, part.setUps,
        part.leftLong, part.typed[0], part.typed[1], part.typed[2], part.woodFrom, part.straight,
        part.group);
    int rank = 0;
    for (const std::string& species : part.species) {
      database.run("INSERT INTO species (name) VALUES (?) ON CONFLICT DO NOTHING", species);
      database.run("INSERT INTO part_species (job, line, rank, species) VALUES (?, ?, ?, ?)",
                   job.id, part.line, ++rank, species);
    }
  }
}

}  // namespace

void insertJob(Database& database, const Job& job, EntryId entry) {
  // `profile`: the settings of the day; a plan takes the newest and keeps its own.
  database.run("INSERT INTO jobs (id, name, customer, profile, version) VALUES (?, ?, ?, ?, ?)",
               job.id, job.name, job.customer, newestProfile(database), entry);
  insertAsked(database, job);
}

namespace {

QString jsonText(const std::string& text) { return QString::fromStdString(text); }
std::string jsonTextAt(const QJsonObject& row, const char* key) {
  return row[QLatin1String(key)].toString().toStdString();
}

QJsonObject partRow(const Part& part) {
  QJsonArray species, typed;
  for (const std::string& name : part.species) species.push_back(jsonText(name));
  for (const std::string& size : part.typed) typed.push_back(jsonText(size));
  return {{"line", part.line},
          {"name", jsonText(part.name)},
          {"copies", part.copies},
          {"spares", part.spares},
          {"length", qint64{part.length.nm()}},
          {"width", qint64{part.width.nm()}},
          {"thickness", qint64{part.thickness.nm()}},
          {"typed", typed},
          {"species", species},
          {"face_a", jsonText(part.faceA)},
          {"face_b", jsonText(part.faceB)},
          {"edge_front", jsonText(part.edges[0])},
          {"edge_back", jsonText(part.edges[1])},
          {"recipe", jsonText(part.recipe)},
          {"staves_from", qint64{part.stavesFrom.nm()}},
          {"staves_to", qint64{part.stavesTo.nm()}},
          {"laminae", part.laminae},
          {"run", jsonText(part.run)},
          {"set_ups", part.setUps},
          {"left_long", part.leftLong},
          {"wood_from", jsonText(std::string(word(part.woodFrom)))},
          {"group", jsonText(part.group)},
          {"straight", part.straight},
          {"note", jsonText(part.note)}};
}

Part partFrom(const QJsonObject& row) {
  const auto length = [&](const char* key) {
    return Length::nanometres(row[QLatin1String(key)].toInteger());
  };
  const auto number = [&](const char* key) { return row[QLatin1String(key)].toInt(); };
  Part part;
  part.line = number("line");
  part.name = jsonTextAt(row, "name");
  part.copies = number("copies");
  part.spares = number("spares");
  part.length = length("length");
  part.width = length("width");
  part.thickness = length("thickness");
  const QJsonArray typed = row[QLatin1String("typed")].toArray();
  for (std::size_t i = 0; i < part.typed.size(); ++i)
    part.typed[i] = typed.at(static_cast<qsizetype>(i)).toString().toStdString();
  for (const QJsonValue& name : row[QLatin1String("species")].toArray())
    part.species.push_back(name.toString().toStdString());
  part.faceA = jsonTextAt(row, "face_a");
  part.faceB = jsonTextAt(row, "face_b");
  part.edges = {jsonTextAt(row, "edge_front"), jsonTextAt(row, "edge_back")};
  part.recipe = jsonTextAt(row, "recipe");
  part.stavesFrom = length("staves_from");
  part.stavesTo = length("staves_to");
  part.laminae = number("laminae");
  part.run = jsonTextAt(row, "run");
  part.setUps = number("set_ups");
  part.leftLong = row[QLatin1String("left_long")].toBool();
  part.woodFrom = woodFromNamed(jsonTextAt(row, "wood_from")).value_or(WoodFrom::anyBoards);
  part.group = jsonTextAt(row, "group");
  part.straight = row[QLatin1String("straight")].toBool();
  part.note = jsonTextAt(row, "note");
  return part;
}

}  // namespace

QJsonObject asks(const Job& job) {
  QJsonArray sizes, parts;
  for (const NamedSize& size : job.sizes)
    sizes.push_back(QJsonObject{{"name", jsonText(size.name)},
                                {"expression", jsonText(size.expression)},
                                {"value", qint64{size.value.nm()}}});
  for (const Part& part : job.parts) parts.push_back(partRow(part));
  return {{"sizes", sizes}, {"parts", parts}};
}

void lay(const QJsonObject& asked, Job& job) {
  job.sizes.clear();
  job.parts.clear();
  for (const QJsonValue& size : asked[QLatin1String("sizes")].toArray()) {
    const QJsonObject row = size.toObject();
    job.sizes.push_back({jsonTextAt(row, "name"), jsonTextAt(row, "expression"),
                         Length::nanometres(row[QLatin1String("value")].toInteger())});
  }
  for (const QJsonValue& part : asked[QLatin1String("parts")].toArray())
    job.parts.push_back(partFrom(part.toObject()));
}

void updateJobRows(Database& database, const Job& job, EntryId entry) {
  for (const char* table : {"part_species", "parts", "sizes"})
    database.run("DELETE FROM " + std::string(table) + " WHERE job = ?", job.id);
  insertAsked(database, job);
  database.run("UPDATE jobs SET version = ? WHERE id = ?", entry, job.id);
}

namespace {

/// What the job asked for after an entry; none: it is not changed since.
std::optional<std::string> askedAfter(Database& database, JobId job, EntryId entry) {
  return database.maybe<std::string>(
      "SELECT before FROM edits WHERE record = 'jobs' AND id = ? AND entry > ? AND before IS NOT "
      "NULL ORDER BY entry, line LIMIT 1",
      job, entry);
}

}  // namespace

bool asksAsAfter(Database& database, JobId job, EntryId entry) {
  const auto first = askedAfter(database, job, entry);
  if (!first) return true;
  return first == database.maybe<std::string>(
                      "SELECT after FROM edits WHERE record = 'jobs' AND id = ? AND before IS NOT "
                      "NULL ORDER BY entry DESC, line DESC LIMIT 1",
                      job);
}

void layAsAfter(Database& database, Job& job, EntryId entry) {
  if (const auto asked = askedAfter(database, job.id, entry))
    lay(QJsonDocument::fromJson(QByteArray::fromStdString(*asked)).object(), job);
}

std::optional<ShopProfile> readProfile(Database& database, ProfileId id) {
  const auto body = database.maybe<std::string>("SELECT body FROM profiles WHERE id = ?", id);
  if (!body) return std::nullopt;
  ShopProfile shop = exchange::readProfile(*body);
  shop.id = id;
  return shop;
}

ProfileId newestProfile(Database& database) {
  return database.value<ProfileId>("SELECT max(id) FROM profiles WHERE withdrawn = 0");
}

ProfileId insertProfile(Database& database, const ShopProfile& shop, EntryId entry) {
  const ProfileId id{nextNumber(database, "profile")};
  database.run("INSERT INTO profiles (id, body, version) VALUES (?, ?, ?)", id,
               exchange::writeProfile(shop), entry);
  return id;
}

}  // namespace flitch::store
