#include "ui/desktop/tally_grid.h"

#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>
#include <span>

#include "ui/desktop/controls.h"
#include "ui/desktop/place.h"
#include "ui/desktop/rack_model.h"

namespace flitch::desktop {

using desk::TallyCell;

namespace {

/// The cells that Enter goes through; the others are carried down or come up by arrow.
constexpr std::array wantedFirst{TallyCell::length, TallyCell::width, TallyCell::far,
                                 TallyCell::marks};
constexpr std::array wantedOther{TallyCell::length,   TallyCell::width,     TallyCell::outlineA,
                                 TallyCell::outlineB, TallyCell::thickness, TallyCell::note};

}  // namespace

TallyGrid::TallyGrid(const Look& look, Unit unit, std::string sign, QWidget* parent)
    : QAbstractScrollArea(parent),
      look_(look),
      unit_(unit),
      sign_(std::move(sign)),
      editor_(look, "Tally", viewport()) {
  setAccessibleName("Tally");
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::StrongFocus);
  setFocusProxy(&editor_);
  setVerticalScrollBar(new ThinBar(look, this));
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  connect(&editor_, &CellEditor::goOn, this, &TallyGrid::goOn);
  connect(&editor_, &CellEditor::moved, this,
          [this](int lines, int cells) { cells == 0 ? goTo(line_ + lines, cell_) : step(cells); });
  connect(&editor_, &CellEditor::givenUp, this, [this] {
    placeEditor();
    editor_.selectAll();
  });
  connect(&editor_, &CellEditor::pasted, this,
          [this](const QString& rows) { emit pasted(line_, cell_, rows); });
  connect(&editor_, &CellEditor::focusLost, this, &TallyGrid::commit);
  connect(&look_, &Look::changed, viewport(), qOverload<>(&QWidget::update));
}

std::vector<TallyGrid::Column> TallyGrid::columns() const {
  using Cell = TallyCell;
  const int room = viewport()->width();
  const bool wide = room > 1100, widest = room > 1700, other = otherShown();
  std::vector<Column> all{{"Tag", Cell::tag, 72},
                          {"Species", Cell::species, 74},
                          {unit_ == Unit::inches ? "Qtr" : "mm", Cell::nominal, 38, true},
                          {"Length", Cell::length, 72, true},
                          {"Width", Cell::width, 60, true}};
  const std::vector<Column> first{{"Far", Cell::far, 54, true},
                                  {"Grade", Cell::grade, 80},
                                  {"Looked", Cell::looked, 54},
                                  {"Marks", Cell::marks, 96},
                                  {"Price", Cell::price, 50, true}};
  const std::vector<Column> places{{"Bay", Cell::bay, 52}, {"Log", Cell::log, 64}};
  const std::vector<Column> others{
      {"Outline A", Cell::outlineA, 96},    {"Outline B", Cell::outlineB, 62},
      {"Thick", Cell::thickness, 46, true}, {"Moist.", Cell::moisture, 48, true},
      {"Cut from", Cell::cutFrom, 64},      {"Note", Cell::note, 40}};
  const auto add = [&](const std::vector<Column>& more) {
    all.insert(all.end(), more.begin(), more.end());
  };
  if (!other || widest) add(first);
  if (other || widest) add(others);
  if (other || wide) add(places);
  if (wide) add({{"Count", Cell::count, 48, true}});
  if (!other || wide) {
    add({{"Billed", std::nullopt, 46, true},
         {"Measured", std::nullopt, 64, true},
         {"Landed", std::nullopt, 58, true}});
  }
  // What is left goes to the cells that hold words.
  int sum = 0;
  for (const Column& column : all) sum += column.width;
  const int rest = std::max(0, room - sum);
  const auto widen = [&](Cell cell, int more) {
    for (Column& column : all) {
      if (column.cell == cell) column.width += more;
    }
  };
  if (widest) {
    for (const Cell cell : {Cell::marks, Cell::outlineA, Cell::outlineB, Cell::note}) {
      widen(cell, rest / 4);
    }
  } else {
    widen(other ? Cell::outlineA : Cell::marks, rest / 2);
    widen(Cell::species, rest / 4);
    widen(other ? Cell::outlineB : Cell::grade, rest - rest / 2 - rest / 4);
  }
  return all;
}

bool TallyGrid::otherShown() const {
  switch (cell_) {
    case TallyCell::far:
    case TallyCell::grade:
    case TallyCell::looked:
    case TallyCell::marks:
    case TallyCell::price: return false;
    case TallyCell::tag:
    case TallyCell::species:
    case TallyCell::nominal:
    case TallyCell::length:
    case TallyCell::width: return other_;
    default: return true;
  }
}

void TallyGrid::turnCells() {
  other_ = !otherShown();
  goTo(line_, other_ ? TallyCell::outlineA : TallyCell::length);
}

int TallyGrid::lines() const {
  return sheet_ == nullptr ? 0 : static_cast<int>(sheet_->lines.size());
}

int TallyGrid::topOf(int line) const {
  const int taller = line > line_ ? chosenHeight - rowHeight : 0;
  return headHeight + line * rowHeight + taller - verticalScrollBar()->value();
}

QRect TallyGrid::boxOf(int line, std::size_t column) const {
  const std::vector<Column> all = columns();
  int x = 0;
  for (std::size_t c = 0; c < column; ++c) x += all[c].width;
  return {x, topOf(line), all[column].width, rowHeight};
}

void TallyGrid::setTally(const desk::TallySheet* sheet, const desk::ReadTally* read) {
  sheet_ = sheet;
  read_ = read;
  line_ = std::clamp(line_, 0, std::max(0, lines() - 1));
  const int all = headHeight + lines() * rowHeight + chosenHeight - rowHeight;
  verticalScrollBar()->setSingleStep(rowHeight);
  verticalScrollBar()->setPageStep(viewport()->height());
  verticalScrollBar()->setRange(0, std::max(0, all - viewport()->height()));
  placeEditor();
  viewport()->update();
}

void TallyGrid::goTo(int line, TallyCell cell) {
  commit();
  line_ = std::clamp(line, 0, std::max(0, lines() - 1));
  cell_ = cell;
  reveal();
  placeEditor();
  editor_.selectAll();
  viewport()->update();
}

void TallyGrid::reveal() {
  const int top = topOf(line_);
  if (top < headHeight)
    verticalScrollBar()->setValue(verticalScrollBar()->value() + top - headHeight);
  if (top + chosenHeight > viewport()->height()) {
    verticalScrollBar()->setValue(verticalScrollBar()->value() + top + chosenHeight -
                                  viewport()->height());
  }
}

void TallyGrid::placeEditor() {
  editor_.setVisible(lines() > 0);
  if (lines() == 0) return;
  const std::vector<Column> all = columns();
  for (std::size_t c = 0; c < all.size(); ++c) {
    if (all[c].cell != cell_) continue;
    const QRect box = boxOf(line_, c);
    editor_.setGeometry(box.adjusted(all[c].right ? 2 : 6, 2, all[c].right ? -6 : -2, -2));
    editor_.setAlignment(all[c].right ? Qt::AlignRight : Qt::AlignLeft);
    editor_.setAccessibleName(all[c].title);
  }
  editor_.setText(q(sheet_->lines[static_cast<std::size_t>(line_)].at(cell_)));
}

void TallyGrid::commit() {
  if (lines() == 0) return;
  const QString before = q(sheet_->lines[static_cast<std::size_t>(line_)].at(cell_));
  const QString now = editor_.text().trimmed();
  if (now != before) emit typed(line_, cell_, now);
}

void TallyGrid::goOn() {
  const std::span<const TallyCell> wanted = otherShown() ? std::span<const TallyCell>(wantedOther)
                                                         : std::span<const TallyCell>(wantedFirst);
  const auto at = std::find(wanted.begin(), wanted.end(), cell_);
  commit();
  if (at + 1 == wanted.end()) {
    emit lineDone(line_);
    return;
  }
  goTo(line_, at == wanted.end() ? wanted.front() : *(at + 1));
}

void TallyGrid::step(int way) {
  const std::vector<Column> all = columns();
  std::vector<TallyCell> cells;
  for (const Column& column : all)
    if (column.cell) cells.push_back(*column.cell);
  const auto at = std::find(cells.begin(), cells.end(), cell_) - cells.begin() + way;
  if (at < 0 || at >= static_cast<std::ptrdiff_t>(cells.size())) return;
  goTo(line_, cells[static_cast<std::size_t>(at)]);
}

void TallyGrid::focusInEvent(QFocusEvent*) { editor_.setFocus(); }

void TallyGrid::mousePressEvent(QMouseEvent* event) {
  const QPoint at = event->position().toPoint();
  const std::vector<Column> all = columns();
  for (int line = 0; line < lines(); ++line)
    for (std::size_t c = 0; c < all.size(); ++c) {
      QRect box = boxOf(line, c);
      if (line == line_) box.setHeight(chosenHeight);
      if (all[c].cell && box.contains(at)) {
        goTo(line, *all[c].cell);
        editor_.setFocus();
        return;
      }
    }
}

void TallyGrid::resizeEvent(QResizeEvent*) {
  setTally(sheet_, read_);
  reveal();
  placeEditor();
}

}  // namespace flitch::desktop
