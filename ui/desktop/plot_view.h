#pragma once
#include <QWidget>

#include "labels/plot.h"
#include "ui/desktop/look.h"

namespace flitch::desktop {

/// A plot in the window's colours; says why where there is nothing to draw.
class PlotView : public QWidget {
  Q_OBJECT
 public:
  PlotView(const Look& look, QWidget* parent);
  void setPlot(pages::Plot plot, const QString& said, const QString& nothing);
  [[nodiscard]] const pages::Plot& plot() const { return plot_; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const Look& look_;
  pages::Plot plot_;
  QString nothing_;
};

}  // namespace flitch::desktop
