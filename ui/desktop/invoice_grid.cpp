#include "ui/desktop/invoice_grid.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "ui/desktop/controls.h"

namespace flitch::desktop {

using desk::InvoiceCell;

namespace {

constexpr std::array all{InvoiceCell::what, InvoiceCell::species, InvoiceCell::nominal,
                         InvoiceCell::feet, InvoiceCell::amount,  InvoiceCell::spread};

constexpr const char* hint = "freight, tax, boards, total …";

/// The cells that Enter goes through in a line of that kind.
std::vector<InvoiceCell> wantedOf(const QString& what) {
  if (what == "boards") {
    return {InvoiceCell::what, InvoiceCell::species, InvoiceCell::nominal, InvoiceCell::feet,
            InvoiceCell::amount};
  }
  if (what == "total") return {InvoiceCell::what, InvoiceCell::feet, InvoiceCell::amount};
  return {InvoiceCell::what, InvoiceCell::amount, InvoiceCell::spread};
}

}  // namespace

InvoiceGrid::InvoiceGrid(const Look& look, Unit unit, QWidget* parent)
    : QAbstractScrollArea(parent), look_(look), unit_(unit), editor_(look, "Invoice", viewport()) {
  setAccessibleName("Invoice");
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::StrongFocus);
  setFocusProxy(&editor_);
  setVerticalScrollBar(new ThinBar(look, this));
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  connect(&editor_, &CellEditor::goOn, this, &InvoiceGrid::goOn);
  connect(&editor_, &CellEditor::moved, this,
          [this](int lines, int cells) { cells == 0 ? goTo(line_ + lines, cell_) : step(cells); });
  connect(&editor_, &CellEditor::givenUp, this, [this] {
    place();
    emit left();
  });
  connect(&editor_, &CellEditor::focusLost, this, &InvoiceGrid::commit);
  connect(&look_, &Look::changed, viewport(), qOverload<>(&QWidget::update));
}

std::array<InvoiceGrid::Column, desk::invoiceCells> InvoiceGrid::columns() const {
  return {{{"What", 22},
           {"Species", 22},
           {unit_ == Unit::inches ? "Qtr" : "mm", 10, true},
           {"bf", 14, true},
           {"Amount", 16, true},
           {"Spread by", 16}}};
}

int InvoiceGrid::lines() const {
  return typed_ == nullptr ? 0 : static_cast<int>(typed_->size()) + 1;
}

QString InvoiceGrid::textAt(int line, InvoiceCell cell) const {
  const auto l = static_cast<std::size_t>(line);
  return typed_ == nullptr || l >= typed_->size() ? QString() : q((*typed_)[l].at(cell));
}

bool InvoiceGrid::faulty(int line, InvoiceCell cell) const {
  const auto l = static_cast<std::size_t>(line);
  if (read_ == nullptr || l >= read_->faults.size()) return false;
  return std::any_of(read_->faults[l].begin(), read_->faults[l].end(),
                     [&](const auto& fault) { return fault.first == cell; });
}

QString InvoiceGrid::fault() const {
  const auto l = static_cast<std::size_t>(line_);
  if (read_ == nullptr || l >= read_->faults.size() || read_->faults[l].empty()) return {};
  return "Invoice: " + q(text(read_->faults[l].front().second));
}

QRect InvoiceGrid::boxOf(int line, InvoiceCell cell) const {
  const auto all = columns();
  int x = 0;
  const auto share = [&](int per) { return viewport()->width() * per / 100; };
  for (std::size_t c = 0; c < static_cast<std::size_t>(cell); ++c) x += share(all[c].share);
  return {x, headHeight + line * rowHeight - verticalScrollBar()->value(),
          share(all[static_cast<std::size_t>(cell)].share), rowHeight};
}

void InvoiceGrid::setInvoice(const std::vector<desk::TypedInvoice>* lines,
                             const desk::ReadInvoice* read) {
  typed_ = lines;
  read_ = read;
  line_ = std::clamp(line_, 0, std::max(0, this->lines() - 1));
  verticalScrollBar()->setSingleStep(rowHeight);
  verticalScrollBar()->setPageStep(viewport()->height());
  verticalScrollBar()->setRange(
      0, std::max(0, headHeight + this->lines() * rowHeight - viewport()->height()));
  place();
}

void InvoiceGrid::goTo(int line, InvoiceCell cell) {
  commit();
  line_ = std::clamp(line, 0, std::max(0, lines() - 1));
  cell_ = cell;
  const QRect box = boxOf(line_, cell_);
  QScrollBar* bar = verticalScrollBar();
  if (box.top() < headHeight) bar->setValue(bar->value() + box.top() - headHeight);
  if (box.bottom() > viewport()->height()) {
    bar->setValue(bar->value() + box.bottom() - viewport()->height());
  }
  place();
  editor_.selectAll();
  emit moved();
}

void InvoiceGrid::place() {
  editor_.setVisible(lines() > 0);
  if (lines() == 0) return;
  const Column column = columns()[static_cast<std::size_t>(cell_)];
  editor_.setGeometry(
      boxOf(line_, cell_).adjusted(column.right ? 2 : 6, 3, column.right ? -6 : -2, -3));
  editor_.setAlignment(column.right ? Qt::AlignRight : Qt::AlignLeft);
  editor_.setAccessibleName("Invoice, " + QString(column.title));
  editor_.setPlaceholderText(cell_ == InvoiceCell::what ? hint : "");
  editor_.setText(textAt(line_, cell_));
  viewport()->update();
}

void InvoiceGrid::commit() {
  if (lines() == 0) return;
  const QString now = editor_.text().trimmed();
  if (now != textAt(line_, cell_)) emit typed(line_, cell_, now);
}

void InvoiceGrid::goOn() {
  commit();
  const std::vector<InvoiceCell> wanted = wantedOf(textAt(line_, InvoiceCell::what));
  const auto at = std::find(wanted.begin(), wanted.end(), cell_);
  if (cell_ == InvoiceCell::what && textAt(line_, cell_).isEmpty()) {
    emit left();
  } else if (at == wanted.end() || at + 1 == wanted.end()) {
    goTo(line_ + 1, InvoiceCell::what);
  } else {
    goTo(line_, *(at + 1));
  }
}

void InvoiceGrid::step(int way) {
  const int to = static_cast<int>(cell_) + way;
  if (to >= 0 && to < static_cast<int>(all.size())) goTo(line_, all[static_cast<std::size_t>(to)]);
}

void InvoiceGrid::focusInEvent(QFocusEvent*) { editor_.setFocus(); }

void InvoiceGrid::mousePressEvent(QMouseEvent* event) {
  for (int line = 0; line < lines(); ++line) {
    for (const InvoiceCell cell : all) {
      if (!boxOf(line, cell).contains(event->position().toPoint())) continue;
      goTo(line, cell);
      editor_.setFocus();
      return;
    }
  }
}

void InvoiceGrid::resizeEvent(QResizeEvent*) { setInvoice(typed_, read_); }

void InvoiceGrid::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), c.sheet);
  const auto columns = this->columns();
  for (int line = 0; line < lines(); ++line) {
    const QRect row(0, boxOf(line, InvoiceCell::what).top(), viewport()->width(), rowHeight);
    if (line == line_ && editor_.hasFocus()) {
      painter.fillRect(row, c.picked);
      painter.fillRect(0, row.top(), 4, rowHeight, c.blue);
    }
    for (const InvoiceCell cell : all) {
      const Column& column = columns[static_cast<std::size_t>(cell)];
      const QRect box = boxOf(line, cell);
      const bool wrong = faulty(line, cell);
      const bool empty = line + 1 == lines() && cell == InvoiceCell::what;
      if (line == line_ && cell == cell_) continue;
      drawText(painter, column.right ? box.right() - 7 : box.left() + 8, box.top() + 19,
               elided(empty ? QString(hint) : textAt(line, cell), 13, false, box.width() - 12), 13,
               false,
               wrong   ? c.red
               : empty ? c.soft
                       : c.ink,
               column.right ? Qt::AlignRight : Qt::AlignLeft);
      if (wrong) {
        drawRule(painter, box.left() + 8, box.top() + 24, box.right() - 7, box.top() + 24, c.red);
      }
    }
    drawRule(painter, 0, row.bottom(), viewport()->width(), row.bottom(), c.rule);
  }
  painter.fillRect(0, 0, viewport()->width(), headHeight, c.sheet);
  for (const InvoiceCell cell : all) {
    const Column& column = columns[static_cast<std::size_t>(cell)];
    const QRect box = boxOf(0, cell);
    drawText(painter, column.right ? box.right() - 7 : box.left() + 8, 17, column.title, 12, false,
             c.soft, column.right ? Qt::AlignRight : Qt::AlignLeft);
  }
  drawRule(painter, 0, headHeight - 1, viewport()->width(), headHeight - 1, c.ink);
  if (editor_.isVisible() && editor_.hasFocus()) {
    drawCellFrame(painter, editor_, faulty(line_, cell_), c);
  }
}

}  // namespace flitch::desktop
