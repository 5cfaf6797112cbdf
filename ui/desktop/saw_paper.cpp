#include "ui/desktop/saw_paper.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>
#include <map>
#include <set>

#include "inventory/records/refusal.h"
#include "ui/desktop/controls.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {
namespace {

/// "kept, 18 7/8", "thrown", of what is left at the tag end and elsewhere.
QString remainderOf(const Cutting& cutting, Unit unit) {
  QStringList kept;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind == PieceKind::offcut) {
      kept << shortText(piece.at.dx, unit) + " × " + shortText(piece.at.dy, unit);
    }
  }
  return kept.isEmpty() ? QString("thrown") : "kept, " + kept.join(", ");
}

/// "D1, D2, E1 to E6".
QString marksText(const Cutting& cutting) {
  std::map<int, std::set<int>> copies;
  for (const Piece& piece : cutting.pieces) {
    if (piece.kind == PieceKind::blank) copies[piece.line].insert(piece.copy);
  }
  QStringList words;
  for (const auto& [line, numbers] : copies) {
    const int first = *numbers.begin(), last = *numbers.rbegin();
    if (numbers.size() > 2 && last - first + 1 == static_cast<int>(numbers.size())) {
      words << q(handMark(line, first)) + " to " + q(handMark(line, last));
      continue;
    }
    for (const int copy : numbers) words << q(handMark(line, copy));
  }
  return words.join(", ");
}

}  // namespace

SawPaper::SawPaper(const Look& look, Unit unit, QWidget* parent)
    : QAbstractScrollArea(parent),
      look_(look),
      unit_(unit),
      editor_(look, "What went otherwise", viewport()) {
  setAccessibleName("From paper");
  setFrameShape(QFrame::NoFrame);
  setFocusProxy(&editor_);
  setVerticalScrollBar(new ThinBar(look, this));
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  connect(&editor_, &CellEditor::goOn, this, [this] { goTo(line_ + 1); });
  connect(&editor_, &CellEditor::moved, this,
          [this](int lines, int cells) { goTo(line_ + lines + cells); });
  connect(&editor_, &CellEditor::givenUp, this, [this] {
    commit();
    emit left();
  });
  connect(&look_, &Look::changed, viewport(), qOverload<>(&QWidget::update));
}

void SawPaper::setBoards(const PlanSheet* sheet, const std::vector<std::size_t>& order,
                         const exchange::ReadingRules& rules) {
  rules_ = rules;
  request_ = requestOf(*sheet, unit_);
  tick_ = sheet->plan.tick;
  std::map<BoardId, QString> typed;
  for (const Line& line : lines_) typed[line.board] = line.typed;
  lines_.clear();
  for (const std::size_t b : order) {
    const OpenedBoard& opened = sheet->boards[b];
    if (opened.sawn) continue;
    Line& line = lines_.emplace_back();
    line.board = opened.board.id;
    line.opened = &opened;
    line.typed = typed[line.board];
    read(line);
  }
  line_ = std::clamp(line_, 0, std::max(0, static_cast<int>(lines_.size()) - 1));
  place();
  emit changed();
}

int SawPaper::sawn() const {
  return static_cast<int>(
      std::count_if(lines_.begin(), lines_.end(), [](const Line& line) { return line.read.sawn; }));
}

int SawPaper::otherwise() const {
  return static_cast<int>(std::count_if(lines_.begin(), lines_.end(),
                                        [](const Line& line) { return !line.typed.isEmpty(); }));
}

QString SawPaper::trouble() const {
  for (const Line& line : lines_) {
    if (!line.trouble.isEmpty()) return tagText(line.opened->board) + ": " + line.trouble;
  }
  return {};
}

void SawPaper::read(Line& line) const {
  line.trouble.clear();
  line.reading.clear();
  line.read = {};
  try {
    const OpenedBoard& opened = *line.opened;
    line.read = desk::readPaper(line.typed.toStdString(), opened.cutting, rules_);
    line.reading = q(desk::readingOf(line.read, {opened.cutting, opened.board, request_, tick_}));
  } catch (const Refusal& refusal) {
    line.trouble = q(text(refusal.complaints().front()));
  }
}

void SawPaper::commit() {
  if (lines_.empty()) return;
  Line& line = lines_[static_cast<std::size_t>(line_)];
  line.typed = editor_.text().trimmed();
  read(line);
  viewport()->update();
  emit changed();
}

int SawPaper::otherwiseAt() const { return viewport()->width() * 56 / 100; }

int SawPaper::topOf(int line) const {
  return headHeight + line * rowHeight - verticalScrollBar()->value();
}

void SawPaper::goTo(int line) {
  commit();
  line_ = std::clamp(line, 0, std::max(0, static_cast<int>(lines_.size()) - 1));
  const int top = topOf(line_);
  if (top < headHeight) {
    verticalScrollBar()->setValue(verticalScrollBar()->value() + top - headHeight);
  }
  if (top + rowHeight > viewport()->height()) {
    verticalScrollBar()->setValue(verticalScrollBar()->value() + top + rowHeight -
                                  viewport()->height());
  }
  place();
  editor_.selectAll();
}

void SawPaper::place() {
  verticalScrollBar()->setSingleStep(rowHeight);
  verticalScrollBar()->setPageStep(viewport()->height());
  verticalScrollBar()->setRange(
      0,
      std::max(0, headHeight + static_cast<int>(lines_.size()) * rowHeight - viewport()->height()));
  editor_.setVisible(!lines_.empty());
  if (!lines_.empty()) {
    editor_.setGeometry(otherwiseAt() + 4, topOf(line_) + 6, fieldWidth - 8, rowHeight - 13);
    editor_.setText(lines_[static_cast<std::size_t>(line_)].typed);
  }
  viewport()->update();
}

void SawPaper::mousePressEvent(QMouseEvent* event) {
  const int line =
      (event->position().toPoint().y() - headHeight + verticalScrollBar()->value()) / rowHeight;
  if (line >= 0 && line < static_cast<int>(lines_.size())) goTo(line);
  editor_.setFocus();
}

void SawPaper::resizeEvent(QResizeEvent*) { place(); }

void SawPaper::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), c.sheet);
  const int width = viewport()->width();
  const int bay = 60, tag = 104, wood = 196, planned = 330;
  const int left = std::max(planned + 150, width * 40 / 100), field = otherwiseAt();
  const int reading = field + fieldWidth + 12;
  for (int l = 0; l < static_cast<int>(lines_.size()); ++l) {
    const Line& line = lines_[static_cast<std::size_t>(l)];
    const int top = topOf(l), base = top + 24;
    if (top + rowHeight < headHeight || top > viewport()->height()) continue;
    if (l == line_) {
      painter.fillRect(0, top, width, rowHeight, c.picked);
      painter.fillRect(0, top, 4, rowHeight, c.blue);
    }
    const Board& board = line.opened->board;
    if (line.read.sawn && line.trouble.isEmpty()) {
      drawText(painter, 26, base, "✓", 14, false, c.good, Qt::AlignHCenter);
    }
    drawText(painter, bay, base, q(board.bay), 13, true, c.ink);
    drawText(painter, tag, base, tagText(board), 13, true, c.ink);
    drawText(
        painter, wood, base,
        elided(q(board.species) + " " + q(text(board.nominal)), 13, false, planned - wood - 10), 13,
        false, c.ink);
    drawText(painter, planned, base,
             elided(marksText(line.opened->cutting), 13, false, left - planned - 12), 13, false,
             c.ink);
    drawText(painter, left, base,
             elided(remainderOf(line.opened->cutting, unit_), 13, false, field - left - 12), 13,
             false, c.soft);
    if (l != line_) {
      drawText(painter, field + 10, base,
               line.typed.isEmpty() ? QString("as planned")
                                    : elided(line.typed, 13, true, fieldWidth - 12),
               13, !line.typed.isEmpty(), line.typed.isEmpty() ? c.soft : c.ink);
    }
    const QString& said = line.trouble.isEmpty() ? line.reading : line.trouble;
    drawText(painter, reading, base, elided(said, 12, false, width - reading - 10), 12, false,
             line.trouble.isEmpty() ? c.soft : c.red);
    drawRule(painter, 0, top + rowHeight - 1, width, top + rowHeight - 1, c.rule);
  }
  painter.fillRect(0, 0, width, headHeight, c.sheet);
  const std::pair<int, const char*> heads[] = {{12, "Sawn"},
                                               {bay, "Bay"},
                                               {tag, "Tag"},
                                               {wood, "Wood"},
                                               {planned, "Planned"},
                                               {left, "Offcuts"},
                                               {field + 10, "What went otherwise"}};
  for (const auto& [x, title] : heads) drawText(painter, x, 19, title, 12, false, c.soft);
  drawRule(painter, 0, headHeight - 1, width, headHeight - 1, c.ink);
  if (editor_.isVisible()) {
    drawCellFrame(painter, editor_, !lines_[static_cast<std::size_t>(line_)].trouble.isEmpty(), c);
  }
}

}  // namespace flitch::desktop
