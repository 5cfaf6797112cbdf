#include "inventory/wood/air.h"

#include <charconv>
#include <cmath>
#include <optional>

#include "inventory/wood/unreadable.h"
#include "inventory/wood/writing.h"

namespace flitch {
namespace {

constexpr const char* temperatures = "70 F, 21 C, from -4 to 275 F (-20 to 135 C)";
constexpr const char* airs = "a temperature and a humidity: 70 F 30 %, 21 C, 45 %";

/// A figure at the start of `text`, which goes on behind it.
std::optional<double> figure(std::string_view& text) {
  double value = 0;
  const auto [stop, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc()) return std::nullopt;
  text = trimmed(text.substr(static_cast<std::size_t>(stop - text.data())));
  return std::isfinite(value) ? std::optional(value) : std::nullopt;
}

/// `f`, `°c` or nothing at the start of `text`, which goes on behind it: whether it is Fahrenheit.
bool scale(std::string_view& text, Unit bare) {
  constexpr std::string_view degree = "\xC2\xB0";
  if (text.starts_with(degree)) text = trimmed(text.substr(degree.size()));
  if (text.empty() || (text.front() != 'f' && text.front() != 'c')) return bare == Unit::inches;
  const bool fahrenheit = text.front() == 'f';
  text = trimmed(text.substr(1));
  return fahrenheit;
}

/// Degrees Celsius at the start of `text`, which goes on behind them.
std::optional<double> celsiusAt(std::string_view& text, Unit bare) {
  const std::optional<double> degrees = figure(text);
  if (!degrees) return std::nullopt;
  const double celsius = scale(text, bare) ? celsiusOf(*degrees) : *degrees;
  // A twentieth of a degree over, since -4 F is -20 C but for rounding.
  return celsius >= -20.05 && celsius <= 135.05 ? std::optional(celsius) : std::nullopt;
}

}  // namespace

double parseCelsius(std::string_view text, Unit bare) {
  const std::string written = plain(text);
  std::string_view rest = written;
  const std::optional<double> celsius = celsiusAt(rest, bare);
  if (!celsius || !rest.empty()) {
    throw Unreadable(inBackticks(text) + " is not a temperature here", shortened(text),
                     temperatures);
  }
  return *celsius;
}

Air parseAir(std::string_view text, Unit bare) {
  const std::string written = plain(text);
  std::string_view rest = written;
  const auto fail = [text](const char* what, const char* accepted) {
    throw Unreadable(inBackticks(text) + what, shortened(text), accepted);
  };
  const std::optional<double> celsius = celsiusAt(rest, bare);
  if (!celsius) fail(" begins with no temperature", temperatures);
  if (rest.starts_with(',')) rest = trimmed(rest.substr(1));
  const std::optional<double> humidity = figure(rest);
  if (rest.starts_with('%')) rest = trimmed(rest.substr(1));
  if (!humidity || !rest.empty()) fail(" is no air", airs);
  if (*humidity < 0 || *humidity > 100) fail(" has a humidity outside 0 to 100 %", airs);
  return {*celsius, *humidity};
}

std::string temperatureText(double celsius, Unit unit) {
  return unit == Unit::inches ? std::to_string(std::lround(fahrenheitOf(celsius))) + " F"
                              : std::to_string(std::lround(celsius)) + " \xC2\xB0" + "C";
}

std::string airText(Air air, Unit unit) {
  return temperatureText(air.celsius, unit) + ", " + percentText(air.humidity);
}

std::string percentText(double percent) {
  return decimal(std::llround(percent * 10), 1, "-") + " %";
}

}  // namespace flitch
