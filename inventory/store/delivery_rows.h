#pragma once
#include <optional>

#include "inventory/records/delivery.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// With what its invoice asks and claims; its boards are inserted apart.
DeliveryId insertDelivery(Database& database, const DeliveryDraft& draft, EntryId entry);
/// A delivery that stands, without its lines.
[[nodiscard]] std::optional<DeliveryDraft> readDelivery(Database& database, DeliveryId id);

}  // namespace flitch::store
