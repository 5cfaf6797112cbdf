#pragma once
#include <QSizeF>
#include <span>
#include <string_view>
#include <vector>

#include "labels/page.h"

namespace flitch::pages {

/// Label stock as data. A roll has one label a page (rows = columns = 1, page = label).
struct LabelStock {
  std::string_view name;  ///< "roll-100x50", "a4-3x8"
  std::string_view text;
  QSizeF page;   ///< mm
  QSizeF label;  ///< mm
  int columns = 1, rows = 1;
  QPointF origin;  ///< top left of the first label
  QPointF pitch;   ///< from one label to the next
  [[nodiscard]] int perPage() const { return columns * rows; }
};
[[nodiscard]] std::span<const LabelStock> labelStocks();
/// Null for an unknown name.
[[nodiscard]] const LabelStock* findLabelStock(std::string_view name);

/// Lays labels (pages of the label's size) on sheets, left to right, top to bottom, from label
/// `startAt` (1-based) of the first sheet.
[[nodiscard]] std::vector<Page> impose(const std::vector<Page>& labels, const LabelStock& stock,
                                       int startAt = 1);

}  // namespace flitch::pages
