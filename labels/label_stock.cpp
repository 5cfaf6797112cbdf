#include "labels/label_stock.h"

#include <algorithm>
#include <stdexcept>

namespace flitch::pages {

std::span<const LabelStock> labelStocks() {
  // Sheet stocks by their sizes, as sold everywhere (common practice, no source).
  static const LabelStock stocks[] = {
      {"roll-100x50", "roll of board tags, 100 × 50 mm", {100, 50}, {100, 50}, 1, 1, {}, {}},
      {"end-72x18", "roll of end tags, 72 × 18 mm", {72, 18}, {72, 18}, 1, 1, {}, {}},
      {"a4-3x8",
       "A4 sheet, 3 × 8 labels of 70 × 37 mm",
       {210, 297},
       {70, 37},
       3,
       8,
       {0, 0.5},
       {70, 37}},
      {"letter-2x5",
       "Letter sheet, 2 × 5 labels of 4 × 2 in",
       {215.9, 279.4},
       {101.6, 50.8},
       2,
       5,
       {3.96875, 12.7},
       {106.3625, 50.8}},
  };
  return stocks;
}

const LabelStock* findLabelStock(std::string_view name) {
  const auto stocks = labelStocks();
  const auto found = std::find_if(stocks.begin(), stocks.end(),
                                  [&](const LabelStock& stock) { return stock.name == name; });
  return found == stocks.end() ? nullptr : &*found;
}

std::vector<Page> impose(const std::vector<Page>& labels, const LabelStock& stock, int startAt) {
  if (startAt < 1 || startAt > stock.perPage())
    throw std::invalid_argument("a sheet has no label of that number");
  std::vector<Page> sheets;
  int place = startAt - 1;
  for (const Page& label : labels) {
    if (sheets.empty() || place == stock.perPage()) {
      if (!sheets.empty()) place = 0;
      sheets.push_back({stock.page, {}});
    }
    const int column = place % stock.columns;
    const int row = place / stock.columns;
    lay(sheets.back(), label,
        stock.origin + QPointF(column * stock.pitch.x(), row * stock.pitch.y()));
    ++place;
  }
  return sheets;
}

}  // namespace flitch::pages
