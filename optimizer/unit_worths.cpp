#include "optimizer/unit_worths.h"

#include <algorithm>

#include "optimizer/index.h"

namespace flitch::optimizer {

void UnitWorths::setTable(std::size_t need, std::vector<Worth> worths) {
  unit_[need] = 0;
  for (std::size_t u = 1; u < worths.size(); ++u) {
    const auto units = static_cast<Worth>(u);
    unit_[need] = std::max(unit_[need], (worths[u] + units - 1) / units);
  }
  wanted_[need] = static_cast<std::int64_t>(worths.size()) - 1;
  tables_[need] = std::move(worths);
}

void UnitWorths::limit(std::size_t need, std::int64_t most) {
  if (most >= wanted_[need]) return;
  if (!isTable(need)) {
    wanted_[need] = most;
    return;
  }
  std::vector<Worth> worths = std::move(tables_[need]);
  worths.resize(static_cast<std::size_t>(most) + 1);
  setTable(need, std::move(worths));
}

Worth UnitWorths::of(std::span<const std::int64_t> units) const {
  Worth sum = 0;
  for (std::size_t n = 0; n < units.size(); ++n) sum += of(n, units[n]);
  return sum;
}

Worth UnitWorths::over(std::size_t need, Worth price) const {
  if (!isTable(need)) return std::max<Worth>(0, unit_[need] - price) * wanted_[need];
  Worth most = 0;
  for (std::int64_t u = 1; u <= wanted_[need]; ++u) most = std::max(most, of(need, u) - price * u);
  return most;
}

Worth UnitWorths::ahead(std::size_t need, std::int64_t many, std::int64_t few) const {
  if (!isTable(need)) return many > few ? unit_[need] * (many - few) : 0;
  Worth most = 0;
  for (std::int64_t more = 1; more <= wanted_[need]; ++more)
    most = std::max(
        most, (of(need, few + more) - of(need, few)) - (of(need, many + more) - of(need, many)));
  return most;
}

}  // namespace flitch::optimizer
