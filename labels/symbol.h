#pragma once
#include <string>
#include <vector>

namespace flitch::pages {

/// Modules of a symbol without quiet zone. Code 128: one row. Quiet zones: Code 128 10 modules each
/// side (ISO/IEC 15417), QR 4 modules each side (ISO/IEC 18004), Data Matrix 1 (ISO/IEC 16022).
struct Modules {
  int columns = 0, rows = 0;
  std::vector<bool> dark;  ///< row by row
  [[nodiscard]] bool at(int column, int row) const {
    return dark[static_cast<std::size_t>(row * columns + column)];
  }
};
inline constexpr int quietCode128 = 10;
inline constexpr int quietQr = 4;
inline constexpr int quietDataMatrix = 1;

/// Throws std::invalid_argument for text Code 128 cannot hold (ASCII, 1 to 80 characters).
[[nodiscard]] Modules code128(const std::string& text);
/// Error correction Q.
[[nodiscard]] Modules qr(const std::string& text);
/// ECC 200, square.
[[nodiscard]] Modules dataMatrix(const std::string& text);

}  // namespace flitch::pages
