#include "labels/plot.h"

#include <QPolygonF>
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using namespace flitch;
using namespace flitch::pages;

namespace {

template <class Kind>
std::vector<Kind> all(const std::vector<Ink>& ink) {
  std::vector<Kind> found;
  for (const Ink& one : ink)
    if (const auto* kind = std::get_if<Kind>(&one)) found.push_back(*kind);
  return found;
}

/// Boxes of columns: outlined areas, in the order drawn.
std::vector<QRectF> boxes(const std::vector<Ink>& ink) {
  std::vector<QRectF> found;
  for (const Area& area : all<Area>(ink))
    if (area.outline > 0)
      found.push_back(QPolygonF(QList(area.points.begin(), area.points.end())).boundingRect());
  return found;
}

Plot randomPlot(std::mt19937& random) {
  const auto below = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(random); };
  Plot plot;
  plot.unit = "bf";
  for (int n = 1 + below(9); n > 0; --n) {
    PlotColumn column;
    column.name = below(3) == 0 ? "The sawmill at the upper end of the valley" : "Kerf";
    column.under = "9.4 % · $270.00";
    column.figure = "$" + QString::number(below(100'000)) + ".00";
    double from = 0;
    for (int b = below(3); b >= 0; --b) {
      const double to = from + below(1000);
      column.boxes.push_back({from, to, b ? PlotBox::Look::used : PlotBox::Look::kept});
      from = to;
    }
    plot.columns.push_back(column);
  }
  return plot;
}

}  // namespace

TEST_CASE("heights of a plot are to scale, from the axis up") {
  Plot plot;
  plot.joined = true;
  plot.columns = {{"sawn", "", "400", {{0, 400, PlotBox::Look::used}}},
                  {"kerf", "", "-100", {{400, 300, PlotBox::Look::thrown}}},
                  {"parts", "", "300", {{0, 300, PlotBox::Look::used}}}};
  const auto ink = drawPlot(plot, QRectF(0, 0, 200, 100));
  const auto drawn = boxes(ink);
  REQUIRE(drawn.size() == 3);
  CHECK(drawn[1].height() == Approx(drawn[0].height() / 4));
  CHECK(drawn[2].height() == Approx(drawn[0].height() * 3 / 4));
  CHECK(drawn[1].top() == Approx(drawn[0].top()));
  CHECK(drawn[1].bottom() == Approx(drawn[2].top()));
  CHECK(drawn[0].bottom() == Approx(drawn[2].bottom()));
  const auto lines = all<Line>(ink);
  CHECK(std::count_if(lines.begin(), lines.end(),
                      [](const Line& line) { return line.dash == Dash::dotted; }) == 2);
  const auto areas = all<Area>(ink);
  CHECK(std::count_if(areas.begin(), areas.end(),
                      [](const Area& area) { return area.fill == Fill::hatch; }) == 1);
}

TEST_CASE("in random plots nothing leaves its box and no figure is cut") {
  std::mt19937 random(7);
  for (int n = 0; n < 60; ++n) {
    const Plot plot = randomPlot(random);
    const QRectF box(5, 5, 120 + 10 * (n % 30), 70 + n);
    const auto ink = drawPlot(plot, box);
    for (const Text& text : all<Text>(ink)) {
      INFO(text.text.toStdString());
      CHECK(box.adjusted(-6, -1, 1, 1).contains(textBox(text)));
    }
    for (const PlotColumn& column : plot.columns) {
      const auto texts = all<Text>(ink);
      CHECK(std::any_of(texts.begin(), texts.end(),
                        [&](const Text& text) { return shownText(text) == column.figure; }));
    }
  }
}

TEST_CASE("a plot without columns is empty, one of nothing has its axis") {
  CHECK(drawPlot({}, QRectF(0, 0, 100, 100)).empty());
  Plot plot;
  plot.columns = {{"used", "", "$0.00", {{0, 0, PlotBox::Look::used}}}};
  const auto ink = drawPlot(plot, QRectF(0, 0, 100, 100));
  CHECK(boxes(ink).empty());
  CHECK_FALSE(all<Line>(ink).empty());
}
