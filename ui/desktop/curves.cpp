#include "ui/desktop/curves.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace flitch::desktop {
namespace {

/// A round step of money that divides a span into two to five parts.
double roundStep(double span) {
  const double raw = span / 4, ten = std::pow(10.0, std::floor(std::log10(std::max(raw, 1e-9))));
  for (double k : {1.0, 2.0, 5.0}) {
    if (raw <= k * ten) return k * ten;
  }
  return 10 * ten;
}

}  // namespace

Curves::Curves(const Look& look, const std::string& sign, QWidget* parent)
    : QWidget(parent), look_(look), sign_(sign) {
  setAccessibleName("Curves of cost and bound");
  connect(&look_, &Look::changed, this, qOverload<>(&QWidget::update));
}

void Curves::setSteps(const std::vector<Step>& steps) {
  steps_ = steps;
  QString said = "No plan was made in this window.";
  if (!steps_.empty()) {
    said = QString("After %1 seconds: best so far %2, nothing cheaper than %3.")
               .arg(steps_.back().seconds, 0, 'f', 1)
               .arg(q(text(steps_.back().cost, sign_)), q(text(steps_.back().bound, sign_)));
  }
  setAccessibleDescription(said);
  update();
}

void Curves::paintEvent(QPaintEvent*) {
  const Colours& c = look_.colours();
  QPainter painter(this);
  painter.fillRect(rect(), c.sheet);
  if (steps_.empty()) {
    drawText(painter, 46, 28, "No plan was made in this window yet.", 13, false, c.soft);
    return;
  }
  const auto money = [](Money m) { return static_cast<double>(m.raw()) / 10'000; };
  double low = 1e300, high = -1e300, end = 0.1;
  for (const Step& s : steps_) {
    if (s.boundKind != PlanBound::none) low = std::min(low, money(s.bound));
    low = std::min(low, money(s.cost));
    high = std::max(high, money(s.cost));
    end = std::max(end, s.seconds);
  }
  if (high - low < 4) high = low + 4;
  const double step = roundStep(high - low);
  low = std::floor(low / step) * step;
  high = std::ceil(high / step) * step;
  const QRectF plot(64, 28, width() - 64 - 24, height() - 28 - 26);
  const auto at = [&](double seconds, double amount) {
    return QPointF(plot.left() + plot.width() * seconds / end,
                   plot.bottom() - plot.height() * (amount - low) / (high - low));
  };
  for (double v = low; v <= high + step / 2; v += step) {
    const double y = at(0, v).y();
    drawRule(painter, static_cast<int>(plot.left()), static_cast<int>(y),
             static_cast<int>(plot.right()), static_cast<int>(y), c.rule);
    drawText(painter, plot.left() - 8, y + 4,
             q(wholeText(Money::tenThousandths(std::llround(v * 10'000)), "")), 11, false, c.soft,
             Qt::AlignRight);
  }
  painter.setRenderHint(QPainter::Antialiasing);
  QPainterPath best, bound;
  bool started = false;
  for (std::size_t i = 0; i < steps_.size(); ++i) {
    const Step& s = steps_[i];
    const double next = i + 1 < steps_.size() ? steps_[i + 1].seconds : end;
    if (i == 0) {
      best.moveTo(at(s.seconds, money(s.cost)));
    } else {
      best.lineTo(at(s.seconds, money(s.cost)));
    }
    best.lineTo(at(next, money(s.cost)));
    if (s.boundKind == PlanBound::none) continue;
    const QPointF here = at(s.seconds, std::max(low, money(s.bound)));
    if (!started) {
      bound.moveTo(here);
    } else {
      bound.lineTo(here);
    }
    started = true;
    bound.lineTo(at(next, std::max(low, money(s.bound))));
  }
  if (started) {
    QPainterPath open = best;
    open.connectPath(bound.toReversed());
    painter.fillPath(open, QBrush(c.rule, Qt::BDiagPattern));
  }
  painter.setPen(QPen(c.edge, 1));
  painter.drawLine(plot.topLeft(), plot.bottomLeft());
  painter.drawLine(plot.bottomLeft(), plot.bottomRight());
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(c.ink, 2.4));
  painter.drawPath(best);
  QPen dashed(c.blue, 2.4);
  dashed.setDashPattern({3.4, 1.4});
  painter.setPen(dashed);
  painter.drawPath(bound);
  painter.setPen(Qt::NoPen);
  painter.setBrush(c.ink);
  painter.drawEllipse(best.currentPosition(), 3.5, 3.5);
  if (started)
    painter.fillRect(QRectF(bound.currentPosition() - QPointF(3.5, 3.5), QSizeF(7, 7)), c.blue);
  for (int i = 0; i <= 4; ++i) {
    const double t = end * i / 4;
    drawText(painter, at(t, low).x(), plot.bottom() + 16,
             QString::number(t, 'f', end < 8 ? 1 : 0) + (i == 4 ? " s" : ""), 11, false, c.soft,
             Qt::AlignHCenter);
  }
  const double x = plot.left() + 8, y = 12;
  painter.setPen(QPen(c.ink, 2.4));
  painter.drawLine(QPointF(x, y), QPointF(x + 30, y));
  drawText(painter, x + 38, y + 4, "best so far", 12, false, c.ink);
  painter.setPen(dashed);
  painter.drawLine(QPointF(x + 140, y), QPointF(x + 170, y));
  drawText(painter, x + 178, y + 4, "nothing cheaper", 12, false, c.ink);
}

}  // namespace flitch::desktop
