#pragma once
#include <cstdint>

#include "inventory/store/snapshot.h"

namespace flitch::desk::sample {

/// A number of all that the book says of its entries up to `until` and of what stood on its boards'
/// accounts then; the same for the same book, whatever was entered since.
[[nodiscard]] std::uint64_t standing(const store::Snapshot& snapshot, EntryId until);

/// A number of the boards on the rack, of marks, tags, bays and what they are held for, and of the
/// copies made for each job.
[[nodiscard]] std::uint64_t shopNumber(const store::Snapshot& snapshot);

}  // namespace flitch::desk::sample
