#pragma once
#include <vector>

#include "inventory/records/label_paper.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Those that stand, the newest of a name, in order of name.
[[nodiscard]] std::vector<LabelPaper> readLabelPapers(Database& database);
[[nodiscard]] std::vector<PrinterAlignment> readPrinters(Database& database);
/// A new row each; return its id.
std::int64_t insertLabelPaper(Database& database, const LabelPaper& paper, EntryId entry);
std::int64_t insertPrinter(Database& database, const PrinterAlignment& printer, EntryId entry);

}  // namespace flitch::store
