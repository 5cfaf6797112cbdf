#pragma once

namespace flitch {

/// The air wood lives in.
struct Air {
  double celsius = 20;
  double humidity = 50;  ///< relative, percent
  friend bool operator==(const Air&, const Air&) = default;
};
[[nodiscard]] constexpr double celsiusOf(double fahrenheit) { return (fahrenheit - 32) / 1.8; }
[[nodiscard]] constexpr double fahrenheitOf(double celsius) { return celsius * 1.8 + 32; }

/// Moistures of the place a piece will live in, percent.
struct Climate {
  double driest = 6, wettest = 11;
};

/// Moistures a piece is made at and will live between, percent.
struct Season {
  double made = 8, driest = 6, wettest = 11;
};

}  // namespace flitch
