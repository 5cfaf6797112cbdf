#include "labels/label_stock.h"

#include <catch2/catch.hpp>
#include <set>
#include <stdexcept>

using namespace flitch::pages;

TEST_CASE("every label of every stock lies on its page and none on another") {
  for (const LabelStock& stock : labelStocks()) {
    INFO(stock.name);
    CHECK(findLabelStock(stock.name) == &stock);
    const QRectF page(QPointF(0, 0), stock.page);
    std::vector<QRectF> labels;
    for (int row = 0; row < stock.rows; ++row)
      for (int column = 0; column < stock.columns; ++column)
        labels.emplace_back(stock.origin + QPointF(column * stock.pitch.x(), row * stock.pitch.y()),
                            stock.label);
    CHECK(labels.size() == static_cast<std::size_t>(stock.perPage()));
    for (std::size_t a = 0; a < labels.size(); ++a) {
      CHECK(page.contains(labels[a]));
      for (std::size_t b = a + 1; b < labels.size(); ++b)
        CHECK_FALSE(labels[a].adjusted(0.01, 0.01, -0.01, -0.01).intersects(labels[b]));
    }
  }
  CHECK(findLabelStock("a4-9x9") == nullptr);
}

TEST_CASE("labels fill sheets from the label asked for") {
  const LabelStock& stock = *findLabelStock("a4-3x8");
  std::vector<Page> labels;
  for (int n = 0; n < 30; ++n)
    labels.push_back({stock.label, {Text{{1, 2}, QString::number(n), 11}}});
  const std::vector<Page> sheets = impose(labels, stock, 23);
  REQUIRE(sheets.size() == 3);  // 2 + 24 + 4
  CHECK(sheets[0].ink.size() == 2);
  CHECK(sheets[1].ink.size() == 24);
  CHECK(sheets[2].ink.size() == 4);
  const Text& first = std::get<Text>(sheets[0].ink[0]);
  CHECK(first.text == "0");
  CHECK(first.at.x() == Approx(70 + 1));  // label 23: second of the last row
  CHECK(first.at.y() == Approx(0.5 + 7 * 37 + 2));
  const Text& third = std::get<Text>(sheets[1].ink[0]);
  CHECK(third.text == "2");
  CHECK(third.at == QPointF(1, 2.5));
  CHECK_THROWS_AS(impose(labels, stock, 25), std::invalid_argument);
  CHECK(impose({}, stock).empty());
}
