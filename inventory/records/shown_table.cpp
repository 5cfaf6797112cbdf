#include "inventory/records/shown_table.h"

#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

/// Ten-thousandths in a cent, the least text() shows.
constexpr std::int64_t perCent = 100;

/// Rounds a column of money whose rows add up to its total. Leaves any other as it is.
void roundColumn(Table& table, std::size_t c) {
  const auto* total = std::get_if<Money>(&table.totals[c]);
  if (total == nullptr) return;
  std::vector<Wide> weights;
  Wide sum = 0;
  for (const auto& row : table.rows) {
    const auto* figure = std::get_if<Money>(&row[c]);
    weights.push_back(figure == nullptr ? 0 : figure->raw());
    if (weights.back() < 0) return;
    sum += weights.back();
  }
  if (sum == 0 || sum != total->raw()) return;
  const std::int64_t cents = narrow(nearest(sum, perCent));
  const std::vector<std::int64_t> shares = split(cents, weights);
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    CellValue& cell = table.rows[r][c];
    if (std::holds_alternative<Money>(cell)) cell = Money::tenThousandths(shares[r] * perCent);
  }
  table.totals[c] = Money::tenThousandths(cents * perCent);
}

}  // namespace

Table shown(const Table& table) {
  Table rounded = table;
  if (rounded.totals.empty()) return rounded;
  for (std::size_t c = 0; c < rounded.columns.size(); ++c) roundColumn(rounded, c);
  return rounded;
}

}  // namespace flitch
