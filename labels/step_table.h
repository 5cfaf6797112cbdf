#pragma once
#include <QString>
#include <vector>

#include "labels/board_drawing.h"
#include "labels/sheet.h"

namespace flitch::pages {

inline constexpr double rowHeight = 10, leastRowHeight = 8.6;

/// One line of the table of steps.
struct Row {
  enum class Sign { ring, edge, tag } sign = Sign::ring;
  QString number, what, measure, from;
  QString chalk;        ///< a figure, or
  QString mark, falls;  ///< what falls: hand mark and words
  bool keeps = false;   ///< an offcut falls, whose size is never cut short
};

[[nodiscard]] Row rowOf(const SawStep& step, const Cutting& cutting, Unit unit);

/// Widths of the table's columns, taken from the longest entries, and its letter sizes.
struct Columns {
  double words = 12, figures = 18;
  double measureEnd = 0;  ///< measures end here
  double fromStart = 0, fallsStart = 0;
  double width = 0;
};

[[nodiscard]] Columns columnsFor(const std::vector<Row>& rows, double width);

/// Draws a row `step` mm high with its top left at (x, top).
void drawRow(Sheet& sheet, double x, double top, double step, const Row& row,
             const Columns& columns);

}  // namespace flitch::pages
