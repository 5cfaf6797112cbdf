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
/// hatch: thrown wood, rising lines on sheet colour; unseen: sparse falling ticks on the area's
/// tone.
enum class Fill { none, tone, hatch, unseen };

inline constexpr double mmPerPoint = 25.4 / 72;

[[nodiscard]] inline QString asText(const std::string& text) {
  return QString::fromStdString(text);
}

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
  double outline = 0.3;  ///< pen width, 0: none
  Tone tone = Tone::ink;
  bool filled = false;  ///< with `tone`, without a pen
};
/// A Code 128, QR or Data Matrix symbol; `box` is with its quiet zone. Modules are drawn a whole
/// number of printer dots, as many as fit, centred in the box and rounded to a dot.
struct Symbol {
  enum class Kind { code128, qr, dataMatrix };
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

/// Lays `part` on `page` with its top left corner at `at`.
void lay(Page& page, const Page& part, QPointF at);
/// The same for a single drawing.
void lay(Page& page, const std::vector<Ink>& ink, QPointF at = {});

/// Width in mm of `text` at a size.
[[nodiscard]] double textWidth(const QString& text, double points, bool bold);
/// Largest size up to `points`, in half points and at least 6, at which `text` is at most
/// `maxWidth` mm wide: for what may never be elided, such as a tag code.
[[nodiscard]] double fittingPoints(const QString& text, double points, bool bold, double maxWidth);
/// What is painted of a text: itself, or elided to its maxWidth.
[[nodiscard]] QString shownText(const Text& text);
/// The box of the letters painted, in mm, before it is turned about `at`: ascent of capitals to
/// descent.
[[nodiscard]] QRectF textBox(const Text& text);

/// Where a symbol's modules fall at a resolution, in dots from the page's top left.
struct SymbolDots {
  int module = 0;                                ///< dots a module; 0 when not even one fits
  int left = 0, top = 0, width = 0, height = 0;  ///< dark and light modules without quiet zone
};
[[nodiscard]] SymbolDots symbolDots(const Symbol& symbol, int dpi);

/// Colours for tones; species tints the wood. Lines of tone `grain` are left out without `grain`.
struct Theme {
  QColor colour[10];  ///< by Tone
  bool grain = false;
  [[nodiscard]] QColor of(Tone tone) const { return colour[static_cast<int>(tone)]; }
};
[[nodiscard]] const Theme& paperTheme();

/// The only painter. The painter's device is at `dpi` dots an inch. Symbols snap to whole dots of
/// `symbolDpi` (0: of the device); where not even one dot a module fits (a small window) they are
/// drawn to scale, for the eye only.
void paint(const Page& page, QPainter& painter, int dpi, const Theme& theme = paperTheme(),
           int symbolDpi = 0);
/// Writes pages, each at its own size, to one PDF. Symbols lie on the dots of the printer the page
/// is for: 203 dpi on a label roll's page, 300 dpi (so 600 and 1200) on a sheet; no module is a
/// whole number of dots at both. The file is replaced whole or not at all.
/// Throws Refusal when there is no page or the file cannot be written.
void writePdf(const std::vector<Page>& pages, const std::string& path, const QString& title);
/// Renders at `dpi`, white ground, without antialiasing when `mono` (as a label printer does).
[[nodiscard]] QImage toImage(const Page& page, int dpi, bool mono = false);

}  // namespace flitch::pages
