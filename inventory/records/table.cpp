#include "inventory/records/table.h"

#include <type_traits>

#include "inventory/wood/writing.h"

namespace flitch {
namespace {

std::string volumeText(CubicMillimetres wood, Unit unit) {
  constexpr std::int64_t perCubicInchThousandfold = 16'387'064;  // 25.4³ mm³, times 1000
  if (unit == Unit::inches) {
    const Wide cubicInches =
        nearest(static_cast<Wide>(wood.value) * 1000, perCubicInchThousandfold);
    return decimal(narrow(cubicInches), 0, minusSign) + " in\xC2\xB3";
  }
  return decimal(narrow(nearest(wood.value, 100'000)), 1, minusSign) + " dm\xC2\xB3";
}

}  // namespace

std::string text(const CellValue& cell, Unit unit, std::string_view sign) {
  return std::visit(
      [unit, sign](const auto& value) -> std::string {
        using T = std::decay_t<decltype(value)>;
        if constexpr (std::is_same_v<T, std::monostate>) {
          return "";
        } else if constexpr (std::is_same_v<T, std::string>) {
          return value;
        } else if constexpr (std::is_same_v<T, std::int64_t>) {
          return decimal(value, 0, minusSign);
        } else if constexpr (std::is_same_v<T, Length>) {
          return text(value, unit == Unit::inches ? LengthStyle::inches : LengthStyle::millimetres);
        } else if constexpr (std::is_same_v<T, CubicMillimetres>) {
          return volumeText(value, unit);
        } else if constexpr (std::is_same_v<T, Feet>) {
          return text(value);
        } else if constexpr (std::is_same_v<T, Money>) {
          return text(value, sign);
        } else {
          return decimal(value.value, 1, minusSign) + " %";
        }
      },
      cell);
}

std::string exactText(const CellValue& cell) {
  return std::visit(
      [](const auto& value) -> std::string {
        using T = std::decay_t<decltype(value)>;
        if constexpr (std::is_same_v<T, std::monostate>) {
          return "";
        } else if constexpr (std::is_same_v<T, std::string>) {
          return value;
        } else if constexpr (std::is_same_v<T, std::int64_t>) {
          return std::to_string(value);
        } else if constexpr (std::is_same_v<T, CubicMillimetres>) {
          return std::to_string(value.value);
        } else if constexpr (std::is_same_v<T, Permille>) {
          return decimal(value.value, 1, "-");
        } else {
          return exactText(value);
        }
      },
      cell);
}

}  // namespace flitch
