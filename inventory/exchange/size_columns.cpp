#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

struct SizeRow {
  int line = 0;
  NamedSize size;
};

constexpr auto sizeFields = std::to_array<Field<SizeRow>>({
    {{"name", "", true, "a word of letters, digits and _ that parts' sizes may name"},
     Measure::none,
     [](const Cell& c, SizeRow& r) { r.size.name = plain(c.note(40)); }},
    {{"size", "", true, "24, 37 1/2, 600 mm, width/2 - stile; 5 pcs for a count"},
     Measure::none,
     [](const Cell& c, SizeRow& r) { r.size.expression = c.note(200); }},
});

}  // namespace

std::span<const ImportColumn> sizeColumns() {
  static const auto columns = columnsOf(sizeFields);
  return columns;
}

Taken<NamedSize> readSizes(const CsvFile& file, const ReadingRules& rules) {
  Taken<NamedSize> taken;
  Complaints complaints(file);
  for (SizeRow& row : readRows(file, sizeFields, rules, complaints, taken.warnings)) {
    taken.rows.push_back(std::move(row.size));
  }
  complaints.refuse("bad-cell");
  return taken;
}

}  // namespace flitch::exchange
