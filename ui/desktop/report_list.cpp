#include "ui/desktop/report_list.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

namespace flitch::desktop {

ReportList::ReportList(const Look& look, std::vector<Row> rows, QWidget* parent)
    : QWidget(parent), look_(look), rows_(std::move(rows)) {
  setAccessibleName("Reports");
  setFocusPolicy(Qt::StrongFocus);
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
  setCurrent(0);
}

void ReportList::setRows(std::vector<Row> rows) {
  rows_ = std::move(rows);
  setCurrent(current_);
}

void ReportList::setCurrent(int row) {
  current_ = std::clamp(row, 0, static_cast<int>(rows_.size()) - 1);
  const Row& now = rows_[static_cast<std::size_t>(current_)];
  setAccessibleDescription(now.name + ", " + now.what);
  update();
}

void ReportList::choose(int row) {
  const int before = current_;
  setCurrent(row);
  if (current_ != before) emit chosen(current_);
}

void ReportList::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.ground);
  for (std::size_t n = 0; n < rows_.size(); ++n) {
    const int y = static_cast<int>(n) * rowHeight;
    const bool now = static_cast<int>(n) == current_;
    if (now) {
      painter.fillRect(0, y, width(), rowHeight - 1, c.picked);
      painter.fillRect(0, y, 4, rowHeight - 1, c.blue);
    }
    drawText(painter, 12, y + 20, elided(rows_[n].name, 13, now, width() - 16), 13, now, c.ink);
    drawText(painter, 12, y + 37, elided(rows_[n].what, 12, false, width() - 16), 12, false,
             c.soft);
    drawRule(painter, 0, y + rowHeight - 1, width(), y + rowHeight - 1, c.rule);
  }
  if (hasFocus()) {
    painter.setPen(QPen(c.blue, 2));
    painter.drawRect(rect().adjusted(1, 1, -1, -1));
  }
}

void ReportList::keyPressEvent(QKeyEvent* event) {
  switch (event->key()) {
    case Qt::Key_Up: choose(current_ - 1); break;
    case Qt::Key_Down: choose(current_ + 1); break;
    case Qt::Key_Home: choose(0); break;
    case Qt::Key_End: choose(static_cast<int>(rows_.size()) - 1); break;
    default: QWidget::keyPressEvent(event);
  }
}

void ReportList::mousePressEvent(QMouseEvent* event) {
  choose(static_cast<int>(event->position().y()) / rowHeight);
}

}  // namespace flitch::desktop
