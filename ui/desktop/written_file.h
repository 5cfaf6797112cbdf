#pragma once
#include <QString>

#include "inventory/records/table.h"

namespace flitch::desktop {

/// Writes a table's rows as CSV, the file whole or not at all. Throws Refusal.
void writeRows(const Table& table, const QString& path);

}  // namespace flitch::desktop
