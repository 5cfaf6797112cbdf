#include "ui/desktop/plot_view.h"

#include <QPainter>

namespace flitch::desktop {

PlotView::PlotView(const Look& look, QWidget* parent) : QWidget(parent), look_(look) {
  setAccessibleName("Plot");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void PlotView::setPlot(pages::Plot plot, const QString& said, const QString& nothing) {
  plot_ = std::move(plot);
  nothing_ = nothing;
  setAccessibleDescription(plot_.columns.empty() ? nothing_ : said);
  update();
}

void PlotView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.fillRect(rect(), look_.colours().sheet);
  if (plot_.columns.empty()) {
    drawText(painter, 24, 40, nothing_, 13, false, look_.colours().soft);
    return;
  }
  painter.setRenderHint(QPainter::Antialiasing);
  pages::Page page;
  page.mm = QSizeF(toMm(width()), toMm(height()));
  page.ink = pages::drawPlot(plot_, QRectF(toMm(16), 0, toMm(width() - 40), toMm(height())));
  pages::paint(page, painter, windowDpi, look_.wood("cherry"));
}

}  // namespace flitch::desktop
