#include "inventory/records/shown_table.h"

#include "inventory/wood/split.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

std::int64_t raw(Money money) { return money.raw(); }
std::int64_t raw(Feet feet) { return feet.thousandths; }
Money from(std::int64_t value, Money /*kind*/) { return Money::tenThousandths(value); }
Feet from(std::int64_t value, Feet /*kind*/) { return Feet{value}; }
/// Ten-thousandths in a cent, thousandths in a tenth of a foot: the least text() shows.
constexpr std::int64_t perCent = 100, perTenth = 100;

/// Rounds a column whose rows add up to its total. Leaves any other as it is.
template <class Figure>
void roundColumn(Table& table, std::size_t c, std::int64_t step) {
  const auto* total = std::get_if<Figure>(&table.totals[c]);
  if (total == nullptr) return;
  std::vector<Wide> weights;
  Wide sum = 0;
  for (const auto& row : table.rows) {
    const auto* figure = std::get_if<Figure>(&row[c]);
    weights.push_back(figure == nullptr ? 0 : raw(*figure));
    if (weights.back() < 0) return;
    sum += weights.back();
  }
  if (sum == 0 || sum != raw(*total)) return;
  const std::int64_t steps = narrow(nearest(sum, step));
  const std::vector<std::int64_t> shares = split(steps, weights);
  for (std::size_t r = 0; r < table.rows.size(); ++r) {
    CellValue& cell = table.rows[r][c];
    if (std::holds_alternative<Figure>(cell)) cell = from(shares[r] * step, Figure{});
  }
  table.totals[c] = from(steps * step, Figure{});
}

}  // namespace

Table shown(const Table& table) {
  Table rounded = table;
  if (rounded.totals.empty()) return rounded;
  for (std::size_t c = 0; c < rounded.columns.size(); ++c) {
    roundColumn<Money>(rounded, c, perCent);
    roundColumn<Feet>(rounded, c, perTenth);
  }
  return rounded;
}

}  // namespace flitch
