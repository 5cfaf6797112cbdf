#pragma once
#include <QFont>
#include <QString>

namespace flitch::pages {

/// Family of the face everything is set in, on paper and in the window: B612 where it is installed
/// (Debian package fonts-b612), else DejaVu Sans. Needs a QGuiApplication.
[[nodiscard]] const QString& typefaceFamily();

/// The face at the size pages are laid out with, not hinted, so that widths scale exactly.
[[nodiscard]] QFont typeface(bool bold);
/// Pixel size of typeface().
inline constexpr int layoutPixels = 64;

}  // namespace flitch::pages
