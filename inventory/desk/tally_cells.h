#pragma once
#include <array>
#include <string>
#include <string_view>

#include "inventory/desk/tally_sheet.h"

// Shared by what keeps a tally that is typed and what reads it.

namespace flitch::desk {

[[nodiscard]] constexpr std::size_t index(TallyCell cell) { return static_cast<std::size_t>(cell); }

/// The import's column for each cell; marks have one of their own.
[[nodiscard]] std::array<std::string_view, tallyCells> tallyColumnsOf(Unit unit);

/// Without blanks before and behind.
[[nodiscard]] std::string trimmed(const std::string& text);

/// `3x 10-6` in two: how many equal boards, and their length. Without a multiplier: one.
struct Multiplied {
  std::size_t boards = 1;
  std::string length;
};
[[nodiscard]] Multiplied multiplied(const std::string& cell);

}  // namespace flitch::desk
