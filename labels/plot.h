#pragma once
#include <QRectF>
#include <QString>
#include <vector>

#include "labels/page.h"

namespace flitch::pages {

/// A box of a column, from one value to another. Thrown wood is hatched, what is kept dashed, as in
/// the drawing of a board.
struct PlotBox {
  enum class Look { used, thrown, kept };
  double from = 0, to = 0;
  Look look = Look::used;
};
struct PlotColumn {
  QString name, under;  ///< under the axis: in ink, in soft ink
  QString figure;       ///< above the topmost box
  std::vector<PlotBox> boxes;
  bool bold = false;
};
/// Upright columns over an axis of round steps.
struct Plot {
  QString unit;  ///< over the axis
  std::vector<PlotColumn> columns;
  bool joined = false;  ///< dotted lines from each column's lower end to the next: a waterfall
};

/// The plot within `box`, in mm; words give way before figures do. Empty without columns.
[[nodiscard]] std::vector<Ink> drawPlot(const Plot& plot, const QRectF& box);

}  // namespace flitch::pages
