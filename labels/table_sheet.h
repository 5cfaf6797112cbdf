#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/table.h"
#include "labels/page.h"

namespace flitch::pages {

/// A report on A4, landscape: title, head, rows, totals, note. Columns are as wide as their longest
/// entry; where the sheet is too narrow the widest column of words gives way and is elided. Columns
/// without any entry are left out. `foot` stands in the title block beside the page's number.
[[nodiscard]] std::vector<Page> tableSheets(const Table& table, Unit unit, std::string_view sign,
                                            const std::string& foot);

}  // namespace flitch::pages
