#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/wood/wide.h"

namespace flitch {

[[nodiscard]] constexpr bool isDigit(char c) { return c >= '0' && c <= '9'; }

/// The typewriter's spelling of what a person or a spreadsheet wrote: lower case ASCII letters,
/// typographic primes, quotes and minus signs as ' " -, `''` as ", blanks of any kind as single
/// blanks, trimmed; the fraction slash as /, one-sign fractions spelled out (`7½` as `7 1/2`).
/// Other characters stay as they are.
[[nodiscard]] std::string plain(std::string_view text);

/// Without outer blanks (ASCII and U+00A0).
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// What stands between marks, each part trimmed; one more part than there are marks.
[[nodiscard]] std::vector<std::string_view> divided(std::string_view text, char mark);

/// Cut to 60 characters of UTF-8, control characters as blanks: how a value is named in a message.
[[nodiscard]] std::string shortened(std::string_view text);
/// `shortened` between backticks (an inch sign would end ordinary quotes).
[[nodiscard]] std::string inBackticks(std::string_view text);

/// n / d as a decimal with at most `places` places, trailing zeros cut: 7375 over 1000 is `7.375`.
/// `d` is 10^places. A minus sign is `minus`.
[[nodiscard]] std::string decimal(std::int64_t n, int places, std::string_view minus);

/// Nearest whole number to n / d, halves toward plus infinity; d above zero, n below 2^125.
[[nodiscard]] constexpr Wide nearest(Wide n, Wide d) {
  const Wide twice = 2 * n + d;
  Wide q = twice / (2 * d);
  if (twice % (2 * d) < 0) --q;
  return q;
}
/// Throws std::overflow_error when `n` does not fit.
[[nodiscard]] std::int64_t narrow(Wide n);

inline constexpr std::string_view minusSign = "\xE2\x88\x92";  ///< U+2212

}  // namespace flitch
