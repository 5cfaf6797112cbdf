#include "ui/desktop/empty_rack.h"

#include <QPainter>

namespace flitch::desktop {

EmptyRack::EmptyRack(const Look& look, const Actions& actions, QWidget* parent)
    : QWidget(parent),
      look_(look),
      tally_(look, actions.at(Act::takeTally), this),
      open_(look, actions.at(Act::openBook), this, "Open another book") {
  tally_.setPrimary(true);
  setFocusProxy(&tally_);
  setAccessibleName("Nothing on the rack yet");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void EmptyRack::resizeEvent(QResizeEvent*) {
  const int first = 268, second = 228, top = height() / 2 + 113;
  const int x = (width() - first - second - 12) / 2;
  tally_.setGeometry(x, top, first, 40);
  open_.setGeometry(x + first + 12, top, second, 40);
}

void EmptyRack::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  const double middle = width() / 2.0, x0 = middle - 340, x1 = middle + 340;
  const double top = height() / 2.0 - 171;
  const double foot = top + 26 + 3 * 44;
  painter.setRenderHint(QPainter::Antialiasing);
  for (int i = 0; i < 3; ++i) {
    const double y = top + 26 + i * 44;
    QPen board(c.edge, 1.2);
    board.setDashPattern({12, 3, 3, 3, 3, 3});
    painter.setPen(board);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(QRectF(x0 + 40, y, x1 - x0 - 80, 22));
    painter.setPen(QPen(c.edge, 1.2));
    painter.setBrush(c.sheet);
    for (double x : {x0 + 110, x1 - 150}) {
      const QRectF bearer(x, y + 22, 40, 22);
      painter.drawRect(bearer);
      painter.drawLine(bearer.topLeft(), bearer.bottomRight());
      painter.drawLine(bearer.bottomLeft(), bearer.topRight());
    }
  }
  painter.setPen(QPen(c.ink, 1.6));
  painter.setBrush(c.oak);
  for (double x : {x0, x1 - 14}) painter.drawRect(QRectF(x, top - 6, 14, foot - top + 20));
  painter.drawRect(QRectF(x0, foot, x1 - x0, 14));

  const double line = height() / 2.0 + 51;
  drawText(painter, middle, line, "Nothing on the rack yet", 30, true, c.ink, Qt::AlignHCenter);
  drawText(
      painter, middle, line + 34,
      "Boards come onto the rack with a delivery: tally them, print their tags, and they lie here.",
      14, false, c.ink, Qt::AlignHCenter);
  drawText(
      painter, middle, line + 134,
      "Have tagged boards already? Scan any tag. It is looked for in this book, and you are told "
      "if it is not there.",
      13, false, c.soft, Qt::AlignHCenter);
}

}  // namespace flitch::desktop
