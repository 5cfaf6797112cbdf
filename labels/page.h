#pragma once
#include <QColor>
#include <QImage>
#include <QPainter>
#include <QPointF>
#include <QRectF>
#include <QSizeF>
#include <QString>
#include <string>
#include <variant>
#include <vector>

namespace flitch::pages {

/// How ink looks. On paper everything is black, white and grey for hatching; the window sets a
/// theme.
enum class Tone { ink, soft, blue, red, good, caution, edge, sheet, grain, wood };
enum class Dash { solid, dashed, dotted, chain };
enum class Fill {
  none,
  tone,
  hatch,
  unseen
};  ///< hatch: thrown wood; unseen: sparse falling ticks

/// All measures in millimetres on the page, y down.
struct Text {
  QPointF at;  ///< baseline, at the left, centre or right end as `align` says
  QString text;
  double points = 11;
  bool bold = false;
  Qt::Alignment align = Qt::AlignLeft;
  Tone tone = Tone::ink;
  double turned = 0;    ///< degrees, clockwise, about `at`
  double maxWidth = 0;  ///< above 0: elided to this width in mm
};
struct Line {
  std::vector<QPointF> points;
  double width = 0.3;
  Dash dash = Dash::solid;
  Tone tone = Tone::ink;
};
struct Area {
  std::vector<QPointF> points;  ///< closed polygon
  Fill fill = Fill::tone;
  Tone tone = Tone::wood;
  double outline = 0;  ///< pen width, 0: none
  Tone outlineTone = Tone::ink;
  Dash dash = Dash::solid;
};
struct Ellipse {
  QRectF box;
  double outline = 0.3;
  Tone tone = Tone::ink;
  bool filled = false;
};
/// A Code 128 or QR symbol; `box` is with its quiet zone. Modules are drawn a whole number of
/// printer dots, as many as fit, from the box's top left after centring.
struct Symbol {
  enum class Kind { code128, qr };
  Kind kind = Kind::code128;
  std::string text;
  QRectF box;
};
struct Picture {
  QRectF box;
  QImage image;
};
using Ink = std::variant<Text, Line, Area, Ellipse, Symbol, Picture>;

/// A page as a value: what is drawn, in mm. Preview, PDF, PNG and printer paint the same page.
struct Page {
  QSizeF mm;
  std::vector<Ink> ink;
};

/// Colours for tones; species tints the wood.
struct Theme {
  QColor colour[10];  ///< by Tone
  bool grain = false;
  [[nodiscard]] QColor of(Tone tone) const { return colour[static_cast<int>(tone)]; }
};
[[nodiscard]] const Theme& paperTheme();

/// The only painter. The painter's device is at `dpi` dots an inch; symbols snap to whole dots.
void paint(const Page& page, QPainter& painter, int dpi, const Theme& theme = paperTheme());
/// Writes pages, each at its own size, to one PDF. Throws Refusal when the file cannot be written.
void writePdf(const std::vector<Page>& pages, const std::string& path, const QString& title);
/// Renders at `dpi`, white ground, without antialiasing when `mono` (as a label printer does).
[[nodiscard]] QImage toImage(const Page& page, int dpi, bool mono = false);

}  // namespace flitch::pages
