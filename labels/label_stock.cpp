#include "labels/label_stock.h"

#include <algorithm>
#include <stdexcept>

namespace flitch::pages {
namespace {

double mmOf(Length length) { return static_cast<double>(length.nm()) / 1e6; }

/// Moves a place on the paper; what has a size keeps it about its centre.
class Aligner {
 public:
  explicit Aligner(const PrinterAlignment& printer)
      : shift_(static_cast<double>(printer.right) / 1e6, static_cast<double>(printer.down) / 1e6),
        wide_(printer.wide / 10'000.0),
        high_(printer.high / 10'000.0) {}

  void operator()(Text& text) const { text.at = moved(text.at); }
  void operator()(Line& line) const { move(line.points); }
  void operator()(Area& area) const { move(area.points); }
  void operator()(Ellipse& ellipse) const { ellipse.box = stretched(ellipse.box); }
  void operator()(Symbol& symbol) const { symbol.box.moveCenter(moved(symbol.box.center())); }
  void operator()(Picture& picture) const { picture.box = stretched(picture.box); }

 private:
  [[nodiscard]] QPointF moved(QPointF at) const {
    return QPointF(at.x() * wide_, at.y() * high_) + shift_;
  }
  [[nodiscard]] QRectF stretched(const QRectF& box) const {
    return {moved(box.topLeft()), moved(box.bottomRight())};
  }
  void move(std::vector<QPointF>& points) const {
    for (QPointF& point : points) point = moved(point);
  }

  QPointF shift_;
  double wide_, high_;
};

// How labels bear a shop (common practice, no source).
constexpr const char* thermal =
    "Direct thermal print fades in sun and heat within months and blackens near a stove; printed "
    "by thermal transfer it lasts years. Wax and oil lift it: staple it.";
constexpr const char* office =
    "Toner stands light and a damp day; ink-jet print runs in rain. Glue holds on planed wood, on "
    "rough, wet or waxed wood it needs a staple.";

}  // namespace

const std::vector<LabelStock>& labelStocks() {
  // Sheet stocks by their sizes, as sold everywhere (common practice, no source).
  static const std::vector<LabelStock> stocks{
      {"roll-100x50",
       "roll of board tags, 100 × 50 mm",
       {100, 50},
       {100, 50},
       1,
       1,
       {},
       {},
       thermal},
      {"end-72x18", "roll of end tags, 72 × 18 mm", {72, 18}, {72, 18}, 1, 1, {}, {}, thermal},
      {"slip-38x13",
       "roll of slips for thin and short pieces, 38 × 13 mm",
       {38, 13},
       {38, 13},
       1,
       1,
       {},
       {},
       thermal},
      {"a4-3x8",
       "A4 sheet, 3 × 8 labels of 70 × 37 mm",
       {210, 297},
       {70, 37},
       3,
       8,
       {0, 0.5},
       {70, 37},
       office},
      {"letter-2x5",
       "Letter sheet, 2 × 5 labels of 4 × 2 in",
       {215.9, 279.4},
       {101.6, 50.8},
       2,
       5,
       {3.96875, 12.7},
       {106.3625, 50.8},
       office},
  };
  return stocks;
}

const LabelStock* findLabelStock(std::string_view name) {
  const auto& stocks = labelStocks();
  const auto found = std::find_if(stocks.begin(), stocks.end(),
                                  [&](const LabelStock& stock) { return stock.name == name; });
  return found == stocks.end() ? nullptr : &*found;
}

LabelStock labelStock(const LabelPaper& paper) {
  LabelStock stock;
  stock.name = paper.name;
  stock.text = "your own, " + std::to_string(paper.columns) + " × " + std::to_string(paper.rows) +
               " of " + text(paper.labelWidth, LengthStyle::millimetres) + " × " +
               text(paper.labelHeight, LengthStyle::millimetres) + " mm";
  stock.page = {mmOf(paper.pageWidth), mmOf(paper.pageHeight)};
  stock.label = {mmOf(paper.labelWidth), mmOf(paper.labelHeight)};
  stock.columns = paper.columns;
  stock.rows = paper.rows;
  stock.origin = {mmOf(paper.left), mmOf(paper.top)};
  stock.pitch = {mmOf(paper.across), mmOf(paper.down)};
  stock.care = paper.care;
  return stock;
}

std::vector<LabelStock> labelStocks(const std::vector<LabelPaper>& own) {
  std::vector<LabelStock> stocks = labelStocks();
  for (const LabelPaper& paper : own) {
    const auto same = std::find_if(stocks.begin(), stocks.end(), [&](const LabelStock& stock) {
      return stock.name == paper.name;
    });
    if (same == stocks.end()) {
      stocks.push_back(labelStock(paper));
    } else {
      *same = labelStock(paper);
    }
  }
  return stocks;
}

std::vector<Page> impose(const std::vector<Page>& labels, const LabelStock& stock, int startAt,
                         int copies) {
  if (startAt < 1 || startAt > stock.perPage())
    throw std::invalid_argument("a sheet has no label of that number");
  if (copies < 1) throw std::invalid_argument("at least one copy is printed");
  std::vector<Page> sheets;
  int place = startAt - 1;
  for (std::size_t n = 0; n < labels.size() * static_cast<std::size_t>(copies); ++n) {
    if (sheets.empty() || place == stock.perPage()) {
      if (!sheets.empty()) place = 0;
      sheets.push_back({stock.page, {}});
    }
    const int column = place % stock.columns;
    const int row = place / stock.columns;
    lay(sheets.back(), labels[n / static_cast<std::size_t>(copies)],
        stock.origin + QPointF(column * stock.pitch.x(), row * stock.pitch.y()));
    ++place;
  }
  return sheets;
}

std::vector<Page> aligned(std::vector<Page> pages, const PrinterAlignment& printer) {
  const Aligner aligner(printer);
  for (Page& page : pages)
    for (Ink& ink : page.ink) std::visit(aligner, ink);
  return pages;
}

}  // namespace flitch::pages
