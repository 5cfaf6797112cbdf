#include "ui/desktop/key_sheet.h"

#include <QKeyEvent>
#include <QPainter>
#include <utility>
#include <vector>

namespace flitch::desktop {

KeySheet::KeySheet(const Look& look, QWidget* parent) : QWidget(parent), look_(look) {
  setVisible(false);
  setFocusPolicy(Qt::StrongFocus);
  setAccessibleName("Keys");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void KeySheet::show(Where place, const QString& name) {
  place_ = place;
  name_ = name;
  QString all;
  for (const ActionRow& r : actionTable()) {
    if (r.where & (place_ | inDrawing | whilePlanning)) {
      all += QString("%1: %2. ").arg(QString(r.key), QString(r.name));
    }
  }
  setAccessibleDescription(all);
  setVisible(true);
  raise();
  setFocus();
}

void KeySheet::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Escape || event->key() == Qt::Key_F1) {
    setVisible(false);
    parentWidget()->setFocus();
    return;
  }
  QWidget::keyPressEvent(event);
}

void KeySheet::focusOutEvent(QFocusEvent*) { setVisible(false); }

void KeySheet::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  painter.setPen(QPen(c.ink, 1.5));
  painter.drawRect(rect().adjusted(8, 8, -9, -9));
  drawText(painter, 32, 46, "Keys", 22, true, c.ink);
  drawText(painter, 96, 46, "Esc puts this sheet away", 13, false, c.soft);

  std::vector<const ActionRow*> here, drawing, all;
  for (const ActionRow& r : actionTable()) {
    if ((r.where & ~inDrawing) == 0) {
      if (place_ == inRack) drawing.push_back(&r);
    } else if (r.where == everywhere) {
      all.push_back(&r);
    } else if (r.where & (place_ | (place_ == inJobs ? whilePlanning : 0u))) {
      here.push_back(&r);
    }
  }
  const double columns = drawing.empty() ? 2 : 3, w = (width() - 64) / columns;
  double x = 32;
  for (const auto& [title, rows] :
       {std::pair(name_, here), std::pair(QString("With the board in focus"), drawing),
        std::pair(QString("Everywhere"), all)}) {
    if (rows.empty()) continue;
    double y = 86;
    drawText(painter, x, y, title, 14, true, c.ink);
    y += 12;
    for (const ActionRow* r : rows) {
      painter.fillRect(QRectF(x, y, w - 24, 1), c.rule);
      const QString key = QString(r->key).replace("Return", "Enter");
      drawText(painter, x, y + 18, key, 13, true, c.ink);
      drawText(painter, x + 132, y + 18,
               elided(QString(r->name), 13, false, static_cast<int>(w) - 160), 13, false, c.ink);
      y += 26;
    }
    x += w;
  }
}

}  // namespace flitch::desktop
