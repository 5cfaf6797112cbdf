#include "inventory/records/job_line.h"

#include "inventory/wood/writing.h"

namespace flitch {

std::string_view word(JobLineKind kind) { return jobLineWords.at(static_cast<std::size_t>(kind)); }

Money amountOf(Money price, std::int64_t thousandths) {
  return Money::tenThousandths(narrow(nearest(static_cast<Wide>(price.raw()) * thousandths, 1000)));
}

std::string countText(const JobLine& line) { return decimal(line.thousandths, 3, "-"); }

std::string quantityText(const JobLine& line) {
  const std::string unit = line.kind == JobLineKind::hours ? "h" : line.unit;
  return countText(line) + (unit.empty() ? "" : " " + unit);
}

}  // namespace flitch
