#pragma once
#include <vector>

#include "inventory/store/database.h"
#include "inventory/wood/species.h"

namespace flitch::store {

/// The maker's own species that stand, the newest first. Every figure has the row's source.
[[nodiscard]] std::vector<Species> readOwnSpecies(Database& database);
/// A new row; returns its id.
std::int64_t insertOwnSpecies(Database& database, const Species& species, EntryId entry);

}  // namespace flitch::store
