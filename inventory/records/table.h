#pragma once
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

#include "inventory/records/ids.h"
#include "inventory/wood/measure.h"
#include "inventory/wood/money.h"

namespace flitch {

/// A share in thousandths, shown as per cent with one place.
struct Permille {
  std::int64_t value = 0;
  auto operator<=>(const Permille&) const = default;
};

using CellValue = std::variant<std::monostate, std::string, std::int64_t, Length, CubicMillimetres,
                               Feet, Money, Permille>;

struct Column {
  std::string key;     ///< for CSV and JSON: lower case with underscores
  std::string title;   ///< for people
  bool right = false;  ///< figures are set right
};

/// What every report is before it becomes CSV, JSON, text, page or model.
struct Table {
  std::string title;
  std::vector<Column> columns;
  std::vector<std::vector<CellValue>> rows;  ///< as many cells as columns
  std::vector<CellValue> totals;             ///< empty, or as many cells as columns
  std::string note;                          ///< a line under the table
  /// The boards a row is made of, for going down to them; empty, or as many as rows.
  std::vector<std::vector<BoardId>> boards;
};

/// For people: lengths in `unit`, money with `sign`.
[[nodiscard]] std::string text(const CellValue& cell, Unit unit, std::string_view sign);
/// For files: exact, without sign.
[[nodiscard]] std::string exactText(const CellValue& cell);

}  // namespace flitch
