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

TEST_CASE("copies of a label follow each other") {
  const LabelStock& stock = *findLabelStock("letter-2x5");
  std::vector<Page> labels;
  for (int n = 0; n < 4; ++n)
    labels.push_back({stock.label, {Text{{1, 2}, QString::number(n), 11}}});
  const std::vector<Page> sheets = impose(labels, stock, 9, 3);
  REQUIRE(sheets.size() == 2);  // 2 + 10
  QString order;
  for (const Page& sheet : sheets)
    for (const Ink& ink : sheet.ink) order += std::get<Text>(ink).text;
  CHECK(order == "000111222333");
  CHECK_THROWS_AS(impose(labels, stock, 1, 0), std::invalid_argument);
}

TEST_CASE("a printer that lies gets every ink where it belongs, and whole dots still") {
  const Symbol symbol{Symbol::Kind::qr, "T0042F", QRectF(60, 80, 14.5, 14.5)};
  const Page page{{210, 297},
                  {Text{{100, 200}, "T0042-F", 20}, Line{{{0, 0}, {200, 100}}},
                   Ellipse{QRectF(10, 20, 30, 40)}, symbol}};
  const flitch::PrinterAlignment printer{"office", 500'000, -1'250'000, 10'040, 9'970};
  const Page moved = aligned({page}, printer).front();
  const auto at = [](double x, double y) { return QPointF(x * 1.004 + 0.5, y * 0.997 - 1.25); };
  CHECK(std::get<Text>(moved.ink[0]).at == at(100, 200));
  CHECK(std::get<Line>(moved.ink[1]).points[1] == at(200, 100));
  CHECK(std::get<Ellipse>(moved.ink[2]).box == QRectF(at(10, 20), at(40, 60)));
  const Symbol& shifted = std::get<Symbol>(moved.ink[3]);
  CHECK(shifted.box.size() == symbol.box.size());
  CHECK(shifted.box.center() == at(67.25, 87.25));
  for (const int dpi : {203, 300, 600})
    CHECK(symbolDots(shifted, dpi).module == symbolDots(symbol, dpi).module);
  CHECK(moved.mm == page.mm);
}

TEST_CASE("a stock of the maker's own stands beside the others and takes the place of one") {
  flitch::LabelPaper own;
  own.name = "freezer";
  own.pageWidth = flitch::Length::millimetres(100);
  own.pageHeight = flitch::Length::millimetres(60);
  own.labelWidth = flitch::Length::millimetres(48);
  own.labelHeight = flitch::Length::millimetres(25);
  own.columns = own.rows = 2;
  own.left = own.top = flitch::Length::millimetres(1);
  own.across = flitch::Length::millimetres(50);
  own.down = flitch::Length::millimetres(30);
  flitch::validate(own);
  const std::size_t builtIn = labelStocks().size();
  std::vector<LabelStock> all = labelStocks({own});
  REQUIRE(all.size() == builtIn + 1);
  CHECK(all.back().label == QSizeF(48, 25));
  CHECK(all.back().perPage() == 4);
  own.name = "a4-3x8";
  all = labelStocks({own});
  CHECK(all.size() == builtIn);
  for (const LabelStock& stock : all)
    if (stock.name == "a4-3x8") CHECK(stock.label == QSizeF(48, 25));
  for (const LabelStock& stock : labelStocks()) CHECK_FALSE(stock.care.empty());
}
