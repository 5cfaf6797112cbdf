#include "inventory/store/job_rows.h"

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

void insertJob(Database& database, const Job& job, EntryId entry) {
  // `profile`: the settings of the day; a plan takes the newest and keeps its own.
  database.run("INSERT INTO jobs (id, name, customer, profile, version) VALUES (?, ?, ?, ?, ?)",
               job.id, job.name, job.customer, newestProfile(database), entry);
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
