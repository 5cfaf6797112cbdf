#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

struct LineRow {
  int line = 0;
  JobLine entry;
};

/// `12`, `2.5`: above zero, three places.
std::int64_t quantity(const Cell& cell) {
  const auto wrong = [&] { return cell.unreadable(" is no quantity", "1, 12, 2.5"); };
  std::int64_t raw = 0;
  try {
    raw = parseMoney(cell.text, "").raw();
  } catch (const Unreadable&) {
    throw wrong();
  }
  constexpr std::int64_t most = 1'000'000;
  if (raw <= 0 || raw % 10 != 0 || raw > most * 10'000) throw wrong();
  return raw / 10;
}

/// What each kind needs beside its name; empty: nothing is wrong.
struct Wrong {
  const char* column;
  const char* sentence;
  const char* accepted;
};
std::optional<Wrong> wrongWith(const JobLine& line) {
  const bool isBar = line.kind == JobLineKind::bar, isCut = line.kind == JobLineKind::cut;
  const bool long_ = line.length > Length();
  if ((isBar || isCut) && !long_) {
    return Wrong{"length", "a bar and a piece cut from it have a length", "96, 30 1/8, 2400 mm"};
  }
  if (!isBar && !isCut && long_) {
    return Wrong{"length", "only bars and their pieces have a length", "bar or cut under what"};
  }
  if (isCut && line.price) {
    return Wrong{"price", "pieces cut from bars cost what their bars cost",
                 "a price in the row of the bar"};
  }
  if (isCut && line.thousandths % 1000 != 0) {
    return Wrong{"count", "pieces are whole", "1, 12"};
  }
  if (isBar && line.thousandths != 1000) {
    return Wrong{"count", "how many bars to buy is worked out", "an empty cell"};
  }
  if (!isCut && line.kind != JobLineKind::hours && !line.price) {
    return Wrong{"price", "its price is missing", "8.20, $8.20"};
  }
  return std::nullopt;
}

constexpr auto jobLineFields = std::to_array<Field<LineRow>>({
    {{"what", "", true,
      "hardware, sheet, glue, finish, other, hours; bar: a length that is sold; cut: pieces cut "
      "from the bars of the same name"},
     Measure::none,
     [](const Cell& c, LineRow& r) {
       r.entry.kind = static_cast<JobLineKind>(wordOf(c, jobLineWords));
     }},
    {{"name", "", true, "what it is: cup pull, drawer work"},
     Measure::none,
     [](const Cell& c, LineRow& r) { r.entry.name = c.note(80); }},
    {{"count", "", false, "how many, or how many hours; 1 if empty"},
     Measure::none,
     [](const Cell& c, LineRow& r) { r.entry.thousandths = quantity(c); }},
    {{"unit", "", false, "of the count: pcs, l, sheets"},
     Measure::none,
     [](const Cell& c, LineRow& r) { r.entry.unit = c.note(20); }},
    {{"price", "money", false, "of one; hours without one at the shop's hourly-rate"},
     Measure::money,
     [](const Cell& c, LineRow& r) { r.entry.price = c.price(); }},
    {{"length", "in", false, "of a bar as sold, of a piece to be cut from it"},
     Measure::inchLength,
     [](const Cell& c, LineRow& r) { r.entry.length = c.length(); }},
    {{"note", "", false, "anything worth remembering"},
     Measure::none,
     [](const Cell& c, LineRow& r) { r.entry.note = c.note(200); }},
});

}  // namespace

std::span<const ImportColumn> jobLineColumns() {
  static const auto columns = columnsOf(jobLineFields);
  return columns;
}

Taken<JobLine> readJobLines(const CsvFile& file, const ReadingRules& rules) {
  Taken<JobLine> taken;
  Complaints complaints(file);
  for (LineRow& row : readRows(file, jobLineFields, rules, complaints, taken.warnings)) {
    if (const auto wrong = wrongWith(row.entry)) {
      complaints.add(row.line, wrong->column, wrong->sentence, "", wrong->accepted);
    }
    taken.rows.push_back(std::move(row.entry));
  }
  complaints.refuse("bad-cell");
  return taken;
}

}  // namespace flitch::exchange
