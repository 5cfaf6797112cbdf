#pragma once
#include <QJsonObject>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/job.h"
#include "inventory/records/shop.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Jobs that stand, or the one named by id (withdrawn or not), in order of id.
[[nodiscard]] std::vector<Job> readJobs(Database& database, std::optional<JobId> only);
void insertJob(Database& database, const Job& job, EntryId entry);

/// What a job asks for (its named sizes and parts), as an edit holds it.
[[nodiscard]] QJsonObject asks(const Job& job);
/// Sets these in place of the job's own.
void lay(const QJsonObject& asked, Job& job);
/// Writes them, with `entry` as the job's version.
void updateJobRows(Database& database, const Job& job, EntryId entry);
/// Whether the job asks for the same now as it did after an entry.
[[nodiscard]] bool asksAsAfter(Database& database, JobId job, EntryId entry);
/// Sets what it asked for after an entry in place of what it asks for now.
void layAsAfter(Database& database, Job& job, EntryId entry);

[[nodiscard]] std::optional<ShopProfile> readProfile(Database& database, ProfileId id);
/// The newest that stands.
[[nodiscard]] ProfileId newestProfile(Database& database);
/// `entry` is none for the profile a book starts with.
ProfileId insertProfile(Database& database, const ShopProfile& shop, EntryId entry);

}  // namespace flitch::store
