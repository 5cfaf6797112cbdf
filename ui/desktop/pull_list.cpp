#include "ui/desktop/pull_list.h"

#include <QAccessible>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include "ui/desktop/controls.h"

namespace flitch::desktop {

PullList::PullList(const Look& look, QWidget* parent) : QAbstractScrollArea(parent), look_(look) {
  setAccessibleName("Pull list");
  setFrameShape(QFrame::NoFrame);
  setFocusPolicy(Qt::StrongFocus);
  setVerticalScrollBar(new ThinBar(look, this));
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  connect(&look_, &Look::changed, viewport(), qOverload<>(&QWidget::update));
}

void PullList::setRows(std::vector<PullRow> rows) {
  rows_ = std::move(rows);
  if (current_ >= static_cast<int>(rows_.size())) current_ = -1;
  verticalScrollBar()->setSingleStep(rowHeight);
  verticalScrollBar()->setPageStep(viewport()->height());
  verticalScrollBar()->setRange(
      0, std::max(0, static_cast<int>(rows_.size()) * rowHeight - viewport()->height()));
  describe();
  viewport()->update();
}

void PullList::setCurrent(int row) {
  current_ = row;
  if (row >= 0) {
    const int top = row * rowHeight, shown = verticalScrollBar()->value();
    if (top < shown) verticalScrollBar()->setValue(top);
    if (top + rowHeight > shown + viewport()->height()) {
      verticalScrollBar()->setValue(top + rowHeight - viewport()->height());
    }
  }
  describe();
  viewport()->update();
}

void PullList::describe() {
  QString text;
  if (current_ >= 0) {
    const PullRow& row = rows_[static_cast<std::size_t>(current_)];
    text = QString("%1, %2, %3, %4")
               .arg(row.bay.isEmpty() ? QString("no bay") : "bay " + row.bay, row.tag, row.wood,
                    row.state);
  }
  setAccessibleDescription(text);
  QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
  QAccessible::updateAccessibility(&changed);
}

void PullList::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), c.sheet);
  const int width = viewport()->width();
  int y = -verticalScrollBar()->value();
  QString bay;
  for (std::size_t r = 0; r < rows_.size(); ++r, y += rowHeight) {
    const PullRow& row = rows_[r];
    const bool firstOfBay = r == 0 || row.bay != bay;
    bay = row.bay;
    if (y + rowHeight < 0 || y > viewport()->height()) continue;
    const bool chosen = static_cast<int>(r) == current_;
    if (chosen) {
      painter.fillRect(0, y, width, rowHeight, c.picked);
      painter.fillRect(0, y, 4, rowHeight, c.blue);
    }
    const QColor ink = row.sawn ? c.soft : c.ink;
    if (firstOfBay || chosen) {
      drawText(painter, 10, y + 24, elided(row.bay, 13, true, 32), 13, true, c.ink);
    }
    const int stateWidth = textWidth(row.state, 12, chosen);
    const int room = width - 46 - stateWidth - 20;
    drawText(painter, 46, y + 17, row.tag, 13, !row.sawn, ink);
    drawText(painter, 46, y + 32, elided(row.wood, 12, false, room), 12, false, c.soft);
    drawText(painter, width - 10, y + 24, row.state, 12, chosen, row.sawn ? c.good : ink,
             Qt::AlignRight);
    drawRule(painter, 0, y + rowHeight - 1, width, y + rowHeight - 1, c.rule);
  }
  if (hasFocus()) {
    painter.setPen(QPen(c.blue, 2));
    painter.drawRect(viewport()->rect().adjusted(1, 1, -1, -1));
  }
}

void PullList::resizeEvent(QResizeEvent*) { setRows(std::move(rows_)); }

void PullList::keyPressEvent(QKeyEvent* event) {
  const int last = static_cast<int>(rows_.size()) - 1;
  int to = current_;
  switch (event->key()) {
    case Qt::Key_Down: to = std::min(last, current_ + 1); break;
    case Qt::Key_Up: to = std::max(std::min(0, last), current_ - 1); break;
    case Qt::Key_Home: to = std::min(0, last); break;
    case Qt::Key_End: to = last; break;
    default: QAbstractScrollArea::keyPressEvent(event); return;
  }
  if (to != current_) emit chosen(to);
}

void PullList::mousePressEvent(QMouseEvent* event) {
  const int row = (event->position().toPoint().y() + verticalScrollBar()->value()) / rowHeight;
  if (row >= 0 && row < static_cast<int>(rows_.size())) emit chosen(row);
}

}  // namespace flitch::desktop
