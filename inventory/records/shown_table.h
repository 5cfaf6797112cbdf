#pragma once
#include "inventory/records/table.h"

namespace flitch {

/// The table with money in whole cents, as text() shows it: where the rows of a column add up to
/// its total they still do, their rounding shared out by split(). Measures stay as they are: a
/// board shows its own feet. For people alone.
[[nodiscard]] Table shown(const Table& table);

}  // namespace flitch
