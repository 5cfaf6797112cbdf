#pragma once
#include <QSizeF>
#include <string>
#include <string_view>
#include <vector>

#include "inventory/records/label_paper.h"
#include "labels/page.h"

namespace flitch::pages {

/// Label stock as data. A roll has one label a page (rows = columns = 1, page = label).
struct LabelStock {
  std::string name;  ///< "roll-100x50", "a4-3x8"
  std::string text;
  QSizeF page;   ///< mm
  QSizeF label;  ///< mm
  int columns = 1, rows = 1;
  QPointF origin;    ///< top left of the first label
  QPointF pitch;     ///< from one label to the next
  std::string care;  ///< what light, water and wax do to it
  [[nodiscard]] int perPage() const { return columns * rows; }
};
/// Those everybody has.
[[nodiscard]] const std::vector<LabelStock>& labelStocks();
/// Of those, by name; null for an unknown one.
[[nodiscard]] const LabelStock* findLabelStock(std::string_view name);
/// One of the maker's own.
[[nodiscard]] LabelStock labelStock(const LabelPaper& paper);
/// Those everybody has, then the maker's own; one of the same name takes its place.
[[nodiscard]] std::vector<LabelStock> labelStocks(const std::vector<LabelPaper>& own);

/// Lays labels (pages of the label's size) on sheets, each `copies` times, left to right, top to
/// bottom, from label `startAt` (1-based) of the first sheet.
[[nodiscard]] std::vector<Page> impose(const std::vector<Page>& labels, const LabelStock& stock,
                                       int startAt = 1, int copies = 1);

/// The pages as a printer that lies needs them: ink moved and stretched from the top left corner.
/// Letters and symbols keep their size, so that modules stay whole dots; only their places move.
[[nodiscard]] std::vector<Page> aligned(std::vector<Page> pages, const PrinterAlignment& printer);

}  // namespace flitch::pages
