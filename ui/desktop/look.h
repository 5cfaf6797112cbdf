#pragma once
#include <QColor>
#include <QFont>
#include <QObject>
#include <QPainter>
#include <QPalette>
#include <QString>
#include <string>

#include "labels/page.h"

namespace flitch::desktop {

/// The colours of the window. Contrast of text and lines on every ground they stand on is at least
/// 4.5 : 1 by the WCAG 2.1 formula; a test computes it.
struct Colours {
  QColor ground, sheet, field, stripe, picked, errorBand, cautionBand, cherry, ash, oak;
  QColor ink, soft, blue, red, good, caution, edge, grain, rule;
};
[[nodiscard]] const Colours& dayColours();
[[nodiscard]] const Colours& nightColours();

/// How the window looks now: follows the system until the maker chooses.
class Look : public QObject {
  Q_OBJECT
 public:
  explicit Look(QObject* parent = nullptr);

  [[nodiscard]] bool night() const { return night_; }
  [[nodiscard]] const Colours& colours() const { return night_ ? nightColours() : dayColours(); }
  [[nodiscard]] QPalette palette() const;
  /// The pages' painter with the window's colours, wood tinted by species.
  [[nodiscard]] pages::Theme wood(const std::string& species) const;

  void choose(bool night);
  /// The system's palette changed: followed unless a maker chose.
  void systemChanged();

 signals:
  void changed();

 private:
  bool night_ = false;
  bool chosen_ = false;
};

/// The window's type: B612, all figures of one width; DejaVu Sans where it is missing.
[[nodiscard]] QFont typeface(int pixels, bool bold = false);
[[nodiscard]] int textWidth(const QString& text, int pixels, bool bold = false);
[[nodiscard]] QString elided(const QString& text, int pixels, bool bold, int width);

/// Dots an inch at which a page's millimetres become window pixels.
inline constexpr int windowDpi = 96;
[[nodiscard]] constexpr double toMm(double pixels) { return pixels * 25.4 / windowDpi; }
[[nodiscard]] constexpr double toPixels(double mm) { return mm * windowDpi / 25.4; }

/// Text at a baseline; the pen is set, the painter's font changed.
void drawText(QPainter& painter, double x, double baseline, const QString& text, int pixels,
              bool bold, const QColor& colour, Qt::Alignment align = Qt::AlignLeft);
/// A thin line on whole pixels.
void drawRule(QPainter& painter, int x1, int y1, int x2, int y2, const QColor& colour);
/// The frame of a field or button, corners of 3 px; in focus 2 px blue with a gap of 1 px.
void drawFrame(QPainter& painter, const QRect& box, const QColor& fill, const QColor& edge,
               bool focus, const Colours& colours);
/// The bookmatch sign: two leaves of one board, opened about the shared edge.
void drawSign(QPainter& painter, const QRectF& box, const Colours& colours);

[[nodiscard]] inline QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace flitch::desktop
