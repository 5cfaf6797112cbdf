#pragma once
#include <compare>
#include <cstdint>
#include <functional>

namespace flitch {

/// A whole number that names one kind of record and is never mixed with another kind. 0: none.
template <class Kind>
struct Id {
  std::int64_t value = 0;
  auto operator<=>(const Id&) const = default;
  explicit constexpr operator bool() const { return value != 0; }
};

using BoardId = Id<struct BoardKindOfId>;
using DeliveryId = Id<struct DeliveryKindOfId>;
using JobId = Id<struct JobKindOfId>;
using PlanId = Id<struct PlanKindOfId>;
using ProfileId = Id<struct ProfileKindOfId>;
using ReturnId = Id<struct ReturnKindOfId>;
using PhotoId = Id<struct PhotoKindOfId>;
using BinId = Id<struct BinKindOfId>;
using CuttingId = Id<struct CuttingKindOfId>;
/// An entry of the ledger. A record's version is the entry that last changed it.
using EntryId = Id<struct EntryKindOfId>;
using Version = EntryId;

}  // namespace flitch

template <class Kind>
struct std::hash<flitch::Id<Kind>> {
  std::size_t operator()(flitch::Id<Kind> id) const noexcept {
    return std::hash<std::int64_t>{}(id.value);
  }
};
