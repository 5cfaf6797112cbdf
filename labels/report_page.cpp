#include "labels/report_page.h"

#include <algorithm>
#include <numeric>

#include "inventory/records/shown_table.h"
#include "labels/page.h"
#include "labels/sheet.h"

namespace flitch::pages {
namespace {

constexpr double gap = 4;

/// A table in words, its columns as wide as their longest entries.
struct Laid {
  const Table* table = nullptr;
  std::vector<std::size_t> columns;  ///< those that hold something
  std::vector<QString> heads;
  std::vector<std::vector<QString>> rows;
  std::vector<QString> totals;
  std::vector<double> widths;
  double points = 10;
  [[nodiscard]] double width() const {
    return std::accumulate(widths.begin(), widths.end(), 0.0) +
           gap * static_cast<double>(widths.empty() ? 0 : widths.size() - 1);
  }
  [[nodiscard]] bool right(std::size_t c) const { return table->columns[columns[c]].right; }
};

void measure(Laid& laid) {
  laid.widths.assign(laid.columns.size(), 0);
  for (std::size_t c = 0; c < laid.columns.size(); ++c) {
    laid.widths[c] = textWidth(laid.heads[c], laid.points - 1, false);
    for (const auto& row : laid.rows)
      laid.widths[c] = std::max(laid.widths[c], textWidth(row[c], laid.points, false));
    if (!laid.totals.empty())
      laid.widths[c] = std::max(laid.widths[c], textWidth(laid.totals[c], laid.points, true));
  }
}

Laid lay(const Table& exact, Unit unit, const std::string& sign) {
  const Table table = shown(exact);
  const auto words = [&](const CellValue& cell) { return asText(text(cell, unit, sign)); };
  Laid laid;
  laid.table = &exact;
  for (std::size_t c = 0; c < table.columns.size(); ++c) {
    bool any = !table.totals.empty() && !words(table.totals[c]).isEmpty();
    for (const auto& row : table.rows) any = any || !words(row[c]).isEmpty();
    if (any) laid.columns.push_back(c);
  }
  const auto take = [&](const std::vector<CellValue>& cells) {
    std::vector<QString> line;
    for (const std::size_t c : laid.columns) line.push_back(words(cells[c]));
    return line;
  };
  for (const std::size_t c : laid.columns) laid.heads.push_back(asText(table.columns[c].title));
  for (const auto& row : table.rows) laid.rows.push_back(take(row));
  if (!table.totals.empty()) laid.totals = take(table.totals);
  measure(laid);
  return laid;
}

/// Makes a table fit: smaller letters first, then the widest columns of words give way.
void fit(Laid& laid, double room) {
  while (laid.width() > room && laid.points > 8) {
    laid.points -= 0.5;
    measure(laid);
  }
  constexpr double least = 12;
  while (laid.width() > room) {
    std::size_t widest = laid.widths.size();
    for (std::size_t c = 0; c < laid.widths.size(); ++c)
      if (!laid.right(c) && laid.widths[c] > least &&
          (widest == laid.widths.size() || laid.widths[c] > laid.widths[widest]))
        widest = c;
    if (widest == laid.widths.size()) return;
    laid.widths[widest] = std::max(least, laid.widths[widest] - (laid.width() - room));
  }
}

class Report {
 public:
  Report(const std::vector<Table>& tables, const ReportFacts& facts, const ReportPlot& plot)
      : facts_(facts), plot_(plot) {
    double widest = 0;
    for (const Table& table : tables) {
      laid_.push_back(lay(table, facts.unit, facts.sign));
      widest = std::max(widest, laid_.back().width());
    }
    const Sheet upright(false, false);
    const bool many = plot.plot.columns.size() > mostUpright;
    landscape_ = many || widest > upright.right() - upright.left();
  }

  std::vector<Page> draw() {
    begin();
    drawPlotOnTop();
    for (Laid& laid : laid_) {
      fit(laid, sheet().right() - sheet().left());
      draw(laid);
    }
    std::vector<Page> pages;
    const std::string title = laid_.empty() ? "" : laid_.front().table->title;
    for (std::size_t n = 0; n < sheets_.size(); ++n) {
      sheets_[n].titleBlock(
          {{"Report", asText(title), 0.4},
           {"Book", asText(facts_.book), 0.26},
           {"Sheet", QString::number(n + 1) + " of " + QString::number(sheets_.size()), 0.14},
           {"Printed", asText(facts_.printed), 0.2}});
      pages.push_back(std::move(sheets_[n].page));
    }
    return pages;
  }

 private:
  [[nodiscard]] Sheet& sheet() { return sheets_.back(); }
  [[nodiscard]] bool fits(double high) { return y_ + high <= sheet().foot() - 3; }

  void begin() {
    sheets_.emplace_back(false, landscape_);
    y_ = Sheet::margin + 4;
  }

  void drawPlotOnTop() {
    if (plot_.plot.columns.empty()) return;
    constexpr double high = 78;
    const double room = sheet().right() - sheet().left();
    for (const QString& line : wrapped(plot_.said, 12, true, room)) {
      y_ += 6;
      sheet().write(sheet().left(), y_, line, 12, true);
    }
    y_ += 3;
    for (Ink& ink : drawPlot(plot_.plot, {sheet().left(), y_, room, high})) {
      sheet().page.ink.push_back(std::move(ink));
    }
    y_ += high + 3;
  }

  void draw(const Laid& laid) {
    const double row = laid.points * mmPerPoint * 1.75;
    if (!fits(18 + 3 * row)) begin();
    for (const QString& line :
         wrapped(asText(laid.table->title), 15, true, sheet().right() - sheet().left())) {
      y_ += 7;
      sheet().write(sheet().left(), y_, line, 15, true);
    }
    y_ += 3;
    if (!laid.rows.empty()) head(laid, row);
    for (const auto& cells : laid.rows) {
      if (!fits(row)) {
        begin();
        head(laid, row);
      }
      line(laid, cells, row, laid.points, false, Tone::ink);
      sheet().line(sheet().left(), end(laid), y_ + row * 0.3, 0.15, Tone::edge);
    }
    if (!laid.totals.empty()) {
      if (!fits(row)) begin();
      sheet().line(sheet().left(), end(laid), y_ + row * 0.3, 0.4);
      line(laid, laid.totals, row, laid.points, true, Tone::ink);
    }
    y_ += 3;
    note(laid.table->note);
    y_ += 5;
  }

  void note(const std::string& words) {
    if (words.empty()) return;
    for (const QString& line : wrapped(asText(words), 9, false, sheet().right() - sheet().left())) {
      if (!fits(5)) begin();
      y_ += 4.4;
      sheet().write(sheet().left(), y_, line, 9, false, 0, Tone::soft);
    }
  }

  [[nodiscard]] double end(const Laid& laid) { return sheet().left() + laid.width(); }

  void head(const Laid& laid, double row) {
    line(laid, laid.heads, row, laid.points - 1, false, Tone::soft);
    sheet().line(sheet().left(), end(laid), y_ + row * 0.3, 0.4);
  }

  void line(const Laid& laid, const std::vector<QString>& cells, double row, double points,
            bool bold, Tone tone) {
    y_ += row;
    double x = sheet().left();
    for (std::size_t c = 0; c < cells.size(); ++c) {
      // Totals count rows in a column of words, where the next is often empty.
      const double room = laid.right(c) ? 0 : laid.widths[c] + 0.1;
      if (laid.right(c))
        sheet().writeRight(x + laid.widths[c], y_, cells[c], points, bold, 0, tone);
      else
        sheet().write(x, y_, cells[c], points, bold, room, tone);
      x += laid.widths[c] + gap;
    }
  }

  static constexpr std::size_t mostUpright = 6;  ///< columns of a plot on an upright sheet
  const ReportFacts& facts_;
  const ReportPlot& plot_;
  std::vector<Laid> laid_;
  bool landscape_ = false;
  std::vector<Sheet> sheets_;
  double y_ = 0;
};

}  // namespace

std::vector<Page> reportPages(const std::vector<Table>& tables, const ReportFacts& facts,
                              const ReportPlot& plot) {
  return Report(tables, facts, plot).draw();
}

std::vector<Page> claimPages(const Table& claim, const std::vector<PhotoPrint>& photos,
                             const ReportFacts& facts) {
  std::vector<Page> pages = reportPages({claim}, facts);
  for (Page& page : photoPages(photos, claim.title)) pages.push_back(std::move(page));
  return pages;
}

}  // namespace flitch::pages
