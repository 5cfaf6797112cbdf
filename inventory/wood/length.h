#pragma once
#include <compare>
#include <cstdint>
#include <string>
#include <string_view>

namespace flitch {

inline constexpr std::int64_t nmPerInch = 25'400'000;

/// A length as a whole number of nanometres: 1/64 in = 396 875 nm and every metric figure a shop
/// writes are exact. Sums are exact; multiplying two lengths is done by Area (measure.h).
class Length {
 public:
  constexpr Length() = default;
  [[nodiscard]] static constexpr Length nanometres(std::int64_t n) { return Length(n); }
  [[nodiscard]] static constexpr Length micrometres(std::int64_t n) { return Length(n * 1'000); }
  [[nodiscard]] static constexpr Length millimetres(std::int64_t n) {
    return Length(n * 1'000'000);
  }
  [[nodiscard]] static constexpr Length sixtyFourths(std::int64_t n) { return Length(n * 396'875); }
  [[nodiscard]] static constexpr Length inches(std::int64_t n) { return Length(n * nmPerInch); }
  [[nodiscard]] static constexpr Length feet(std::int64_t n) { return Length(n * 304'800'000); }

  [[nodiscard]] constexpr std::int64_t nm() const { return nm_; }
  constexpr auto operator<=>(const Length&) const = default;
  constexpr Length operator-() const { return Length(-nm_); }
  constexpr Length& operator+=(Length b) {
    nm_ += b.nm_;
    return *this;
  }
  constexpr Length& operator-=(Length b) {
    nm_ -= b.nm_;
    return *this;
  }
  friend constexpr Length operator+(Length a, Length b) { return Length(a.nm_ + b.nm_); }
  friend constexpr Length operator-(Length a, Length b) { return Length(a.nm_ - b.nm_); }
  friend constexpr Length operator*(Length a, std::int64_t n) { return Length(a.nm_ * n); }
  friend constexpr Length operator*(std::int64_t n, Length a) { return a * n; }
  /// Whole times b goes into a, rounded down; both at least zero, b above zero.
  friend constexpr std::int64_t operator/(Length a, Length b) { return a.nm_ / b.nm_; }
  /// Rounded toward zero.
  friend constexpr Length operator/(Length a, std::int64_t n) { return Length(a.nm_ / n); }

 private:
  explicit constexpr Length(std::int64_t n) : nm_(n) {}
  std::int64_t nm_ = 0;
};

/// The unit a book is kept and shown in. Never two on one sheet.
enum class Unit { inches, millimetres };

/// How a number without a unit is meant: a tally's length in feet ("10-6" is 10 ft 6 in), a width
/// or a job size in inches ("1-1/2" is 1 1/2), everything in a metric book in millimetres.
enum class Bare { feet, inches, millimetres };

/// Reads a length in any form the trade writes: `37 1/2`, `37-1/2`, `3' 1-1/2"`, `10'6`, `10-6`
/// (feet only), `10 ft 6 in`, `952.5 mm`, `95.25cm`, `1.2m`, `7.375`. Fractions have a denominator
/// up to 64 that is a power of two; decimals are rounded to the nanometre, halves away from zero.
/// Decimals take a point only: a comma parts quick marks and thousands. Metric sizes take no
/// fraction. A bare `10-1/2` is 10 1/2 of the bare unit. Also typographic primes, U+00A0, the
/// fraction slash and one-sign fractions (plain() in writing.h). Result is zero or more.
/// Throws Unreadable for anything else, negative numbers and lengths above 100 m.
[[nodiscard]] Length parseLength(std::string_view text, Bare bare);

/// How a length is written.
enum class LengthStyle {
  inches,      ///< `37 1/2`: to the nearest 1/64, lowest terms, no sign for inches
  feetInches,  ///< `10' 6"`, `9' 5 3/8"`; under a foot `7 1/2"`
  millimetres  ///< `952.5`: to the nearest tenth, no unit
};

/// For people: rounds (storage never does). A minus sign is U+2212.
[[nodiscard]] std::string text(Length length, LengthStyle style);

/// With its unit: `37 1/2 in`, `952.5 mm`.
[[nodiscard]] std::string lengthText(Length length, Unit unit);

/// Whole steps at or below, at or above a length, which may be below zero; step above zero.
[[nodiscard]] std::int64_t stepsDown(Length length, Length step);
[[nodiscard]] std::int64_t stepsUp(Length length, Length step);

/// For files: exact, with unit, and read back to the same value: `37 1/2 in`, `952.5 mm`, else
/// millimetres with up to six places.
[[nodiscard]] std::string exactText(Length length);

}  // namespace flitch
