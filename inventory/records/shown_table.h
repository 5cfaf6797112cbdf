#pragma once
#include "inventory/records/table.h"

namespace flitch {

/// The table with money in whole cents and feet in tenths, as text() shows them: where the rows of
/// a column add up to its total they still do, their rounding shared out by split(). For people
/// alone.
[[nodiscard]] Table shown(const Table& table);

}  // namespace flitch
