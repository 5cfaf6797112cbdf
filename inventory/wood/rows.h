#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace flitch {

/// One row of a table of published figures, by column name.
using PublishedRow = std::map<std::string, std::string>;

/// Rows of a CSV text with a head row, as the published tables are kept: quotes round cells with
/// commas, no line break inside quotes, no quote inside a cell. Imports are read by exchange.
[[nodiscard]] std::vector<PublishedRow> publishedRows(std::string_view csv);

/// The species tables of inventory/wood/data, as the program carries them.
extern const std::string_view dimensionalChangeTable;
extern const std::string_view shrinkageTable;
extern const std::string_view gravityTable;
extern const std::string_view tradeNameTable;

}  // namespace flitch
