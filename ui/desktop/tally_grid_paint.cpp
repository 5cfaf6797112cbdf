#include <QPainter>

#include "ui/desktop/rack_model.h"
#include "ui/desktop/tally_grid.h"

namespace flitch::desktop {

using desk::TallyCell;

bool TallyGrid::faulty(int line, TallyCell cell) const {
  const auto l = static_cast<std::size_t>(line);
  if (read_ == nullptr || l >= read_->lines.size()) return false;
  const auto& faults = read_->lines[l].faults;
  return std::any_of(faults.begin(), faults.end(), [&](const desk::CellFault& fault) {
    return fault.cell == cell && !sheet_->lines[l].at(cell).empty();
  });
}

/// Billed, measured and landed of a line: of all its boards.
QString TallyGrid::figure(int line, std::size_t column) const {
  if (read_ == nullptr || read_->figures.empty()) return {};
  const auto l = static_cast<std::size_t>(line);
  if (l >= read_->lines.size() || !read_->lines[l].line) return {};
  const int number = read_->lines[l].line->line;
  Feet billed, measured;
  Money landed;
  for (const TallyFigures& board : read_->figures) {
    if (read_->draft.lines[board.line].line != number) continue;
    billed += board.billed;
    measured += board.measured;
    landed += board.landed;
  }
  const std::size_t fromEnd = columns().size() - column;
  if (fromEnd == 3) return q(text(billed));
  if (fromEnd == 2) return q(text(measured));
  return q(text(landed, ""));
}

/// How the cell at hand's line was read, in a word under the cell.
QString TallyGrid::echo(TallyCell cell) const {
  const auto l = static_cast<std::size_t>(line_);
  if (read_ == nullptr || l >= read_->lines.size()) return {};
  const desk::TypedLine& typed = sheet_->lines[l];
  const desk::ReadLine& read = read_->lines[l];
  if (cell == TallyCell::tag && typed.carried[0] && !typed.at(cell).empty())
    return "next on the roll";
  if (cell == TallyCell::length && typed.at(cell).find('x') != std::string::npos && read.line)
    return longText(read.line->outline[0].length(), unit_) + ", equal boards";
  if (!read.line || typed.at(cell).empty()) return {};
  const Outline& outline = read.line->outline[0];
  switch (cell) {
    case TallyCell::length: return longText(outline.length(), unit_);
    case TallyCell::width:
      return shortText(outline.points().front().far - outline.points().front().near, unit_) +
             (unit_ == Unit::inches ? " in" : " mm");
    case TallyCell::far:
      return shortText(outline.points().back().far - outline.points().back().near, unit_);
    case TallyCell::price:
      return read.line->basis == PriceBasis::perFoot
                 ? QString()
                 : "a " + q(std::string(word(read.line->basis)));
    case TallyCell::outlineA:
    case TallyCell::outlineB: {
      const auto& points = read.line->outline[cell == TallyCell::outlineA ? 0 : 1].points();
      return QString("%1 points").arg(points.size());
    }
    case TallyCell::marks: {
      QStringList words;
      for (const exchange::MarkLine& mark : read.marks) {
        words << QString("%1 to %2 %3")
                     .arg(shortText(mark.xFrom, unit_),
                          mark.xTo ? shortText(*mark.xTo, unit_) : QString("the end"),
                          mark.kind == "unsound knot" ? QString("bad") : q(mark.kind));
      }
      return words.join(", ");
    }
    default: return {};
  }
}

void TallyGrid::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), c.sheet);
  const std::vector<Column> all = columns();
  for (int line = 0; line < lines(); ++line) {
    const int top = topOf(line);
    const bool chosen = line == line_;
    const int high = chosen ? chosenHeight : rowHeight;
    if (top + high < headHeight || top > viewport()->height()) continue;
    if (chosen) {
      painter.fillRect(0, top, viewport()->width(), high, c.picked);
      painter.fillRect(0, top, 4, high, c.blue);
    }
    const desk::TypedLine& typed = sheet_->lines[static_cast<std::size_t>(line)];
    for (std::size_t column = 0; column < all.size(); ++column) {
      const QRect box = boxOf(line, column);
      const double x = all[column].right ? box.right() + 1 - 8 : box.left() + 8;
      const Qt::Alignment align = all[column].right ? Qt::AlignRight : Qt::AlignLeft;
      const int room = box.width() - 12;
      if (!all[column].cell) {
        drawText(painter, x, top + 18, figure(line, column), 13, false, c.ink, align);
        continue;
      }
      const TallyCell cell = *all[column].cell;
      const bool wrong = faulty(line, cell);
      const bool carried = typed.carried[static_cast<std::size_t>(cell)];
      const bool bold = cell == TallyCell::tag ||
                        (!carried && (cell == TallyCell::length || cell == TallyCell::width));
      if (!chosen || cell != cell_ || !editor_.isVisible()) {
        drawText(painter, x, top + 18, elided(q(typed.at(cell)), 13, bold, room), 13, bold,
                 wrong                               ? c.red
                 : carried && cell != TallyCell::tag ? c.soft
                                                     : c.ink,
                 align);
      }
      if (wrong && (!chosen || cell != cell_)) {
        drawRule(painter, box.left() + 8, top + 23, box.right() - 7, top + 23, c.red);
      }
      if (chosen) {
        const int over = cell == TallyCell::marks ? 150 : cell == TallyCell::tag ? 60 : 20;
        drawText(painter, x, top + 38, elided(echo(cell), 12, false, room + over), 12, false,
                 c.soft, align);
      }
    }
    drawRule(painter, 0, top + high - 1, viewport()->width(), top + high - 1, c.rule);
  }
  painter.fillRect(0, 0, viewport()->width(), headHeight, c.sheet);
  int x = 0;
  for (const Column& column : all) {
    drawText(painter, column.right ? x + column.width - 8 : x + 8, 18, column.title, 12, false,
             c.soft, column.right ? Qt::AlignRight : Qt::AlignLeft);
    x += column.width;
  }
  drawRule(painter, 0, headHeight - 1, viewport()->width(), headHeight - 1, c.ink);
  if (editor_.isVisible() && editor_.hasFocus()) {
    drawCellFrame(painter, editor_, faulty(line_, cell_), c);
  }
}

}  // namespace flitch::desktop
