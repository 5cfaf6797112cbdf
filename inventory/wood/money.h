#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

#include "inventory/wood/measure.h"

namespace flitch {

/// An amount of money as a whole number of ten-thousandths of the currency unit.
class Money {
 public:
  constexpr Money() = default;
  [[nodiscard]] static constexpr Money tenThousandths(std::int64_t n) { return Money(n); }
  [[nodiscard]] static constexpr Money units(std::int64_t n) { return Money(n * 10'000); }

  [[nodiscard]] constexpr std::int64_t raw() const { return raw_; }
  constexpr auto operator<=>(const Money&) const = default;
  constexpr Money operator-() const { return Money(-raw_); }
  constexpr Money& operator+=(Money b) {
    raw_ += b.raw_;
    return *this;
  }
  constexpr Money& operator-=(Money b) {
    raw_ -= b.raw_;
    return *this;
  }
  friend constexpr Money operator+(Money a, Money b) { return Money(a.raw_ + b.raw_); }
  friend constexpr Money operator-(Money a, Money b) { return Money(a.raw_ - b.raw_); }
  friend constexpr Money operator*(Money a, std::int64_t n) { return Money(a.raw_ * n); }
  friend constexpr Money operator*(std::int64_t n, Money a) { return a * n; }

 private:
  explicit constexpr Money(std::int64_t n) : raw_(n) {}
  std::int64_t raw_ = 0;
};

/// A price per board foot, per cubic metre, ... : money for one of something.
struct Rate {
  Money perOne;
  auto operator<=>(const Rate&) const = default;
};

/// `rate` per board foot times `feet`, rounded to the nearest ten-thousandth, halves up.
/// Throws std::overflow_error past int64.
[[nodiscard]] Money cost(Rate rate, Feet feet);

/// `rate` per cubic metre times `volume`, rounded likewise.
[[nodiscard]] Money costPerCubicMetre(Rate rate, CubicMillimetres volume);

/// `rate` per running foot times `length`, fractions of a foot counted, rounded likewise.
[[nodiscard]] Money costPerRunningFoot(Rate rate, Length length);

/// Reads `8.20`, `$8.20`, `1,199.40`, `8`; up to four places; zero or more unless `mayBeNegative`.
/// `sign` is the book's currency sign, allowed before or after. Throws Unreadable.
[[nodiscard]] Money parseMoney(std::string_view text, std::string_view sign = "$",
                               bool mayBeNegative = false);

/// For people: `$1,199.40`, two places, halves away from zero, minus U+2212.
[[nodiscard]] std::string text(Money amount, std::string_view sign = "$");

/// For people, whole money rounded up (the sum that can still be saved): `$9`.
[[nodiscard]] std::string wholeText(Money amount, std::string_view sign = "$");

/// For files: exact, four places at most, no sign, no separators: `1199.4`.
[[nodiscard]] std::string exactText(Money amount);

}  // namespace flitch
