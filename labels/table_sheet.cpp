#include "labels/table_sheet.h"

#include <algorithm>

#include "labels/sheet.h"

namespace flitch::pages {
namespace {

constexpr double points = 10, rowHeight = 6.4, gap = 4;

struct Shown {
  QString title;
  bool right = false;
  std::vector<QString> cells;
  QString total;
  double width = 0;
};

std::vector<Shown> columnsOf(const Table& table, Unit unit, std::string_view sign) {
  std::vector<Shown> columns;
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    Shown column{QString::fromStdString(table.columns[i].title), table.columns[i].right, {}, {}, 0};
    column.width = textWidth(column.title, points - 1, false);
    const auto textOf = [&](const CellValue& cell, bool bold) {
      const QString words = QString::fromStdString(text(cell, unit, sign));
      column.width = std::max(column.width, textWidth(words, points, bold));
      return words;
    };
    bool any = false;
    for (const auto& row : table.rows) {
      column.cells.push_back(textOf(row[i], false));
      any = any || !column.cells.back().isEmpty();
    }
    if (i < table.totals.size()) column.total = textOf(table.totals[i], true);
    if (any || !column.total.isEmpty()) columns.push_back(std::move(column));
  }
  return columns;
}

/// Narrows the widest column of words until all fit.
void fit(std::vector<Shown>& columns, double room) {
  double sum = -gap;
  for (const Shown& column : columns) sum += column.width + gap;
  while (sum > room) {
    const auto widest =
        std::max_element(columns.begin(), columns.end(), [](const Shown& a, const Shown& b) {
          return (a.right ? 0 : a.width) < (b.right ? 0 : b.width);
        });
    if (widest == columns.end() || widest->width < 20) return;
    const double less = std::min(sum - room, widest->width * 0.1);
    widest->width -= less;
    sum -= less;
  }
}

class Writer {
 public:
  Writer(const Table& table, std::vector<Shown> columns, std::string foot)
      : table_(table), columns_(std::move(columns)), foot_(std::move(foot)) {}

  std::vector<Page> pages() && {
    std::size_t next = 0;
    do {
      begin();
      while (next < table_.rows.size() && y_ + 3 * rowHeight < sheets_.back().foot()) {
        line(false, [&](const Shown& column) { return column.cells[next]; });
        ++next;
      }
    } while (next < table_.rows.size());
    if (!table_.totals.empty()) {
      Sheet& sheet = sheets_.back();
      sheet.line(sheet.left(), sheet.right(), y_ - rowHeight + 1.4, 0.35);
      line(true, [](const Shown& column) { return column.total; });
    }
    Sheet& last = sheets_.back();
    last.write(last.left(), y_ + 1, QString::fromStdString(table_.note), 9, false,
               last.right() - last.left(), Tone::soft);
    std::vector<Page> pages;
    for (std::size_t i = 0; i < sheets_.size(); ++i) {
      sheets_[i].titleBlock(
          {{"what", QString::fromStdString(foot_), 0.8},
           {"page", QString::number(i + 1) + " of " + QString::number(sheets_.size()), 0.2}});
      pages.push_back(std::move(sheets_[i].page));
    }
    return pages;
  }

 private:
  void begin() {
    Sheet& sheet = sheets_.emplace_back(false, true);
    sheet.write(sheet.left(), 20, QString::fromStdString(table_.title), 16, true,
                sheet.right() - sheet.left());
    y_ = 30;
    double x = sheet.left();
    for (const Shown& column : columns_) {
      if (column.right) {
        sheet.writeRight(x + column.width, y_, column.title, points - 1, false, 0, Tone::soft);
      } else {
        sheet.write(x, y_, column.title, points - 1, false, column.width, Tone::soft);
      }
      x += column.width + gap;
    }
    sheet.line(sheet.left(), sheet.right(), y_ + 1.8, 0.35);
    y_ += rowHeight + 1;
  }

  template <class Cell>
  void line(bool bold, const Cell& cell) {
    Sheet& sheet = sheets_.back();
    double x = sheet.left();
    for (const Shown& column : columns_) {
      if (column.right) {
        sheet.writeRight(x + column.width, y_, cell(column), points, bold, 0);
      } else {
        sheet.write(x, y_, cell(column), points, bold, column.width + 0.1);
      }
      x += column.width + gap;
    }
    y_ += rowHeight;
  }

  const Table& table_;
  std::vector<Shown> columns_;
  std::string foot_;
  std::vector<Sheet> sheets_;
  double y_ = 0;
};

}  // namespace

std::vector<Page> tableSheets(const Table& table, Unit unit, std::string_view sign,
                              const std::string& foot) {
  std::vector<Shown> columns = columnsOf(table, unit, sign);
  const Sheet sheet(false, true);
  fit(columns, sheet.right() - sheet.left());
  return Writer(table, std::move(columns), foot).pages();
}

}  // namespace flitch::pages
