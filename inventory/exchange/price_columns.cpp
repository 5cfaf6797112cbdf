#include <charconv>
#include <chrono>

#include "inventory/exchange/cells.h"
#include "inventory/wood/writing.h"

namespace flitch::exchange {
namespace {

struct PriceRow {
  int line = 0;
  ReplacementPrice price;
  bool quarters = false, millimetres = false, priced = false;
};

/// A day as 2026-05-31.
std::string dayCell(const Cell& cell) {
  const std::string written = plain(cell.text);
  const auto part = [&](std::size_t from, std::size_t count) {
    int n = -1;
    const char* begin = written.data() + from;
    const auto [stop, error] = std::from_chars(begin, begin + count, n);
    return error == std::errc() && stop == begin + count ? n : -1;
  };
  const bool shaped = written.size() == 10 && written[4] == '-' && written[7] == '-';
  const std::chrono::year_month_day day{
      std::chrono::year(shaped ? part(0, 4) : -1),
      std::chrono::month(shaped ? static_cast<unsigned>(part(5, 2)) : 0U),
      std::chrono::day(shaped ? static_cast<unsigned>(part(8, 2)) : 0U)};
  if (!day.ok()) throw cell.unreadable(" is not a day", "2026-05-31");
  return written;
}

constexpr auto priceFields = std::to_array<Field<PriceRow>>({
    {{"species", "", true, "a species of the book"},
     Measure::none,
     [](const Cell& c, PriceRow& r) { r.price.species = c.oneOf(c.rules.species, "species"); }},
    {{"quarters", "quarters", false, "nominal thickness: 4, 4/4, 12/4"},
     Measure::none,
     [](const Cell& c, PriceRow& r) {
       r.price.nominal = nominalCell(c, Unit::inches);
       r.quarters = true;
     }},
    {{"nominal_mm", "mm", false, "nominal thickness of metric stock, in place of quarters"},
     Measure::millimetres,
     [](const Cell& c, PriceRow& r) {
       r.price.nominal = nominalCell(c, Unit::millimetres);
       r.millimetres = true;
     }},
    {{"grade", "", false, "as it would be bought; if empty, any grade without a row of its own"},
     Measure::none,
     [](const Cell& c, PriceRow& r) { r.price.grade = c.note(60); }},
    {{"price_per_bf", "money", true, "of a board foot bought today"},
     Measure::money,
     [](const Cell& c, PriceRow& r) { r.price.perFoot = {c.price()}; }},
    {{"since", "", false, "day it holds from, 2026-05-31; today if empty"},
     Measure::none,
     [](const Cell& c, PriceRow& r) { r.price.since = dayCell(c); }},
    {{"note", "", false, "whose list, whose word"},
     Measure::none,
     [](const Cell& c, PriceRow& r) { r.price.note = c.note(200); }},
});

}  // namespace

std::span<const ImportColumn> priceColumns() {
  static const auto columns = columnsOf(priceFields);
  return columns;
}

Taken<ReplacementPrice> readPrices(const CsvFile& file, const ReadingRules& rules) {
  Taken<ReplacementPrice> taken;
  Complaints complaints(file);
  for (PriceRow& row : readRows(file, priceFields, rules, complaints, taken.warnings)) {
    if (row.quarters == row.millimetres) {
      complaints.add(row.line, "quarters", "a price needs one nominal thickness", "",
                     "4/4 under quarters, or 27 under nominal_mm");
      continue;
    }
    taken.rows.push_back(std::move(row.price));
  }
  complaints.refuse("bad-cell");
  return taken;
}

}  // namespace flitch::exchange
