#include "labels/typeface.h"

#include <QDirIterator>
#include <QFile>
#include <QFontDatabase>
#include <QStandardPaths>
#include <QtEndian>

namespace flitch::pages {
namespace {

/// Contents of an installed font file, empty when there is none of that name.
QByteArray installedFont(const QString& file) {
  for (const QString& folder : QStandardPaths::standardLocations(QStandardPaths::FontsLocation)) {
    QDirIterator files(folder, {file}, QDir::Files, QDirIterator::Subdirectories);
    if (!files.hasNext()) continue;
    QFile font(files.next());
    if (font.open(QIODevice::ReadOnly)) return font.readAll();
  }
  return {};
}

/// Replaces B612 by `other` (four letters as well) in the name table of an OpenType font.
void callFont(QByteArray& font, const QByteArray& other) {
  const auto number = [&](qsizetype at) {
    return static_cast<qsizetype>(qFromBigEndian<quint32>(font.constData() + at));
  };
  const auto wide = [](const QByteArray& ascii) {
    QByteArray result;
    for (const char letter : ascii) result.append('\0').append(letter);
    return result;
  };
  constexpr qsizetype header = 12, entry = 16;
  for (qsizetype at = header; at + entry <= font.size(); at += entry) {
    if (font.mid(at, 4) != "name") continue;
    const qsizetype start = number(at + 8), length = number(at + 12);
    QByteArray names = font.mid(start, length);
    names.replace(wide("B612"), wide(other)).replace("B612", other);
    font.replace(start, length, names);
    return;
  }
}

/// The monospaced sister of B612 calls itself B612 too, and Qt takes either for the other. So the
/// two files wanted are loaded under a name of their own, for this process only.
QString loadedFamily() {
  int loaded = 0;
  for (const char* file : {"B612-Regular.otf", "B612-Bold.otf"}) {
    QByteArray font = installedFont(file);
    if (font.isEmpty()) continue;
    callFont(font, "F612");
    loaded += QFontDatabase::addApplicationFontFromData(font) >= 0;
  }
  return loaded == 2 ? QStringLiteral("F612") : QStringLiteral("DejaVu Sans");
}

}  // namespace

const QString& typefaceFamily() {
  static const QString family = loadedFamily();
  return family;
}

QFont typeface(bool bold) {
  QFont font;
  font.setFamilies({typefaceFamily(), QStringLiteral("DejaVu Sans")});
  font.setPixelSize(layoutPixels);
  font.setBold(bold);
  font.setHintingPreference(QFont::PreferNoHinting);
  return font;
}

}  // namespace flitch::pages
