#pragma once
#include <string>
#include <string_view>

#include "inventory/wood/length.h"
#include "inventory/wood/moisture.h"

namespace flitch {

/// Reads `70 F`, `21 C`, `21.5 °C`, in degrees from -20 to 135 °C; a bare figure is Fahrenheit
/// where the unit is inches, else Celsius. Degrees Celsius. Throws Unreadable.
[[nodiscard]] double parseCelsius(std::string_view text, Unit bare);
/// Reads air as `70 F 30 %`, `21 C, 45`: a temperature, then relative humidity from 0 to 100 %.
/// Throws Unreadable.
[[nodiscard]] Air parseAir(std::string_view text, Unit bare);

/// `70 F`, `21 °C`: to the nearest degree.
[[nodiscard]] std::string temperatureText(double celsius, Unit unit);
/// `70 F, 30 %`.
[[nodiscard]] std::string airText(Air air, Unit unit);
/// `8 %`, `9.2 %`: to the nearest tenth.
[[nodiscard]] std::string percentText(double percent);

}  // namespace flitch
