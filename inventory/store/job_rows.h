#pragma once
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

[[nodiscard]] std::optional<ShopProfile> readProfile(Database& database, ProfileId id);
/// The newest that stands.
[[nodiscard]] ProfileId newestProfile(Database& database);
/// `entry` is none for the profile a book starts with.
ProfileId insertProfile(Database& database, const ShopProfile& shop, EntryId entry);

}  // namespace flitch::store
