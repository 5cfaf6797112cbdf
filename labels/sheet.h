#pragma once
#include <string>
#include <utility>
#include <vector>

#include "labels/page.h"

namespace flitch::pages {

/// A sheet of paper with its frame (after ISO 5457: 0.7 mm), title block at the foot and content
/// margins; writes texts on it. All measures in mm.
class Sheet {
 public:
  static constexpr double margin = 12;  ///< of the content; the frame stands 4 mm further out
  static constexpr double titleHeight = 14;

  Sheet(bool letter, bool landscape);
  [[nodiscard]] double width() const { return page.mm.width(); }
  [[nodiscard]] double height() const { return page.mm.height(); }
  [[nodiscard]] double left() const { return margin; }
  [[nodiscard]] double right() const { return width() - margin; }
  /// Where the title block begins.
  [[nodiscard]] double foot() const { return height() - margin + 4 - titleHeight; }

  /// Returns the x where the text ends. A room above 0 elides.
  double write(double x, double y, const QString& text, double points, bool bold = false,
               double room = 0, Tone tone = Tone::ink);
  double writeRight(double x, double y, const QString& text, double points, bool bold = false,
                    double room = 0, Tone tone = Tone::ink);
  double writeCentred(double x, double y, const QString& text, double points, bool bold = false);
  /// Across the frame.
  void rule(double y, double pen = 0.35);
  void line(double x0, double x1, double y, double pen, Tone tone = Tone::ink);
  void box(const QRectF& where, double pen);
  void filled(const QRectF& where, Tone tone);
  void ring(double x, double y, double radius);

  struct Cell {
    const char* label;
    QString value;
    double share;  ///< of the width
  };
  void titleBlock(const std::vector<Cell>& cells);

  Page page;
};

/// Breaks text at blanks so that no line is wider than `room`; a single longer word stays whole.
[[nodiscard]] std::vector<QString> wrapped(const QString& text, double points, bool bold,
                                           double room);

}  // namespace flitch::pages
