#include "inventory/records/setting_range.h"

namespace flitch {

std::string rangeIn(std::string_view range, Unit unit) {
  constexpr std::string_view inches = " in", between = " to ";
  const std::size_t at = range.find(between);
  if (unit == Unit::inches || at == std::string_view::npos || !range.ends_with(inches)) {
    return std::string(range);
  }
  const Length low = parseLength(range.substr(0, at), Bare::inches);
  const Length high = parseLength(range.substr(at + between.size()), Bare::inches);
  return text(low, LengthStyle::millimetres) + " to " + lengthText(high, unit);
}

}  // namespace flitch
