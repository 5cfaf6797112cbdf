#include "labels/plot.h"

#include <algorithm>
#include <cmath>

namespace flitch::pages {
namespace {

constexpr double wordPoints = 9.75, small = 9, figurePoints = 11;  // points
constexpr double axisRoom = 13, headRoom = 11, footRoom = 13, widestColumn = 24;

/// A round step that divides a span into two to five parts.
double roundStep(double span) {
  const double raw = span / 4, ten = std::pow(10.0, std::floor(std::log10(std::max(raw, 1e-9))));
  for (const double k : {1.0, 2.0, 5.0})
    if (raw <= k * ten) return k * ten;
  return 10 * ten;
}

class Drawing {
 public:
  Drawing(const Plot& plot, const QRectF& box)
      : plot_(plot),
        area_(box.left() + axisRoom, box.top() + headRoom, box.width() - axisRoom,
              box.height() - headRoom - footRoom) {
    double most = 0;
    for (const PlotColumn& column : plot.columns)
      for (const PlotBox& each : column.boxes) most = std::max({most, each.from, each.to});
    step_ = roundStep(std::max(most, 1e-6));
    high_ = std::max(step_, std::ceil(most / step_ - 1e-9) * step_);
  }

  std::vector<Ink> draw() {
    axis();
    for (std::size_t n = 0; n < plot_.columns.size(); ++n) column(n);
    if (plot_.joined) join();
    ink_.emplace_back(
        Line{{area_.bottomLeft(), area_.bottomRight()}, 0.35, Dash::solid, Tone::ink});
    return std::move(ink_);
  }

 private:
  [[nodiscard]] double y(double value) const {
    return area_.bottom() - value / high_ * area_.height();
  }
  [[nodiscard]] double pitch() const {
    return area_.width() / static_cast<double>(plot_.columns.size());
  }
  [[nodiscard]] double middle(std::size_t n) const {
    return area_.left() + (static_cast<double>(n) + 0.5) * pitch();
  }
  [[nodiscard]] double half() const { return std::min(widestColumn, pitch() * 0.62) / 2; }

  void axis() {
    const double left = area_.left() - 2;
    ink_.emplace_back(
        Text{{left, area_.top() - 5}, plot_.unit, small, false, Qt::AlignRight, Tone::soft});
    for (double value = 0; value <= high_ + step_ / 2; value += step_) {
      ink_.emplace_back(Text{{left, y(value) + 1.2},
                             QString::number(value),
                             small,
                             false,
                             Qt::AlignRight,
                             Tone::soft});
      if (value > 0)
        ink_.emplace_back(Line{
            {{area_.left(), y(value)}, {area_.right(), y(value)}}, 0.15, Dash::solid, Tone::edge});
    }
  }

  void column(std::size_t n) {
    const PlotColumn& column = plot_.columns[n];
    double top = area_.bottom();
    for (const PlotBox& each : column.boxes) {
      const double high = y(std::max(each.from, each.to)), low = y(std::min(each.from, each.to));
      top = std::min(top, high);
      if (low - high < 0.05) continue;
      const double x0 = middle(n) - half(), x1 = middle(n) + half();
      const bool thrown = each.look == PlotBox::Look::thrown;
      ink_.emplace_back(Area{{{x0, high}, {x1, high}, {x1, low}, {x0, low}},
                             thrown ? Fill::hatch : Fill::tone,
                             Tone::wood,
                             0.35,
                             Tone::ink,
                             each.look == PlotBox::Look::kept ? Dash::dashed : Dash::solid});
    }
    const double room = pitch() - 1;
    figure(n, top - 1.6, room);
    ink_.emplace_back(Text{{middle(n), area_.bottom() + 4.8},
                           column.name,
                           wordPoints,
                           column.bold,
                           Qt::AlignHCenter,
                           Tone::ink,
                           0,
                           room});
    ink_.emplace_back(Text{{middle(n), area_.bottom() + 9.4},
                           column.under,
                           small,
                           false,
                           Qt::AlignHCenter,
                           Tone::soft,
                           0,
                           room});
  }

  /// On a patch of the sheet, so that no line of the axis crosses it.
  void figure(std::size_t n, double base, double room) {
    const QString& said = plot_.columns[n].figure;
    if (said.isEmpty()) return;
    const double points = fittingPoints(said, figurePoints, true, room);
    const Text text{{middle(n), base}, said, points, true, Qt::AlignHCenter, Tone::ink};
    const QRectF patch = textBox(text).adjusted(-0.8, -0.6, 0.8, 0.6);
    ink_.emplace_back(
        Area{{patch.topLeft(), patch.topRight(), patch.bottomRight(), patch.bottomLeft()},
             Fill::tone,
             Tone::sheet,
             0,
             Tone::ink,
             Dash::solid});
    ink_.emplace_back(text);
  }

  void join() {
    for (std::size_t n = 0; n + 1 < plot_.columns.size(); ++n) {
      if (plot_.columns[n].boxes.empty()) continue;
      const PlotBox& box = plot_.columns[n].boxes.front();
      const double at = y(box.to);
      ink_.emplace_back(Line{
          {{middle(n) + half(), at}, {middle(n + 1) - half(), at}}, 0.25, Dash::dotted, Tone::ink});
    }
  }

  const Plot& plot_;
  QRectF area_;
  double step_ = 1, high_ = 1;
  std::vector<Ink> ink_;
};

}  // namespace

std::vector<Ink> drawPlot(const Plot& plot, const QRectF& box) {
  if (plot.columns.empty()) return {};
  return Drawing(plot, box).draw();
}

}  // namespace flitch::pages
