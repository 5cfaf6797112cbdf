#include "labels/page.h"

#include <QFileInfo>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <catch2/catch.hpp>

#include "inventory/records/refusal.h"
#include "labels/symbol.h"
#include "tests/labels/outside_readers.h"

using namespace flitch::pages;

namespace {

bool dark(const QImage& image, int x, int y) { return qGray(image.pixel(x, y)) < 128; }

}  // namespace

TEST_CASE("a symbol is painted in whole dots, module for module") {
  for (const auto kind : {Symbol::Kind::code128, Symbol::Kind::qr})
    for (const int dpi : {203, 300, 600}) {
      const bool bars = kind == Symbol::Kind::code128;
      const Symbol symbol{kind, "T0042F", QRectF(3.3, 4.7, bars ? 47 : 23, bars ? 9 : 24)};
      const SymbolDots dots = symbolDots(symbol, dpi);
      const Modules modules = bars ? code128("T0042F") : qr("T0042F");
      REQUIRE(dots.module >= 2);
      CHECK(dots.width == dots.module * modules.columns);
      const QImage image = toImage({{60, 40}, {symbol}}, dpi, true);
      int wrong = 0;
      for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
          const int column = (x - dots.left) / dots.module;
          const int row = bars ? 0 : (y - dots.top) / dots.module;
          const bool inside = x >= dots.left && x < dots.left + dots.width && y >= dots.top &&
                              y < dots.top + dots.height;
          wrong += dark(image, x, y) != (inside && modules.at(column, row));
        }
      CHECK(wrong == 0);
      // Quiet zones lie inside the box: 10 modules beside bars, 4 round a square.
      const double dot = 25.4 / dpi, quiet = (bars ? quietCode128 : quietQr) * dots.module * dot;
      CHECK(dots.left * dot - quiet >= symbol.box.left() - dot / 2);
      CHECK((dots.left + dots.width) * dot + quiet <= symbol.box.right() + dot / 2);
    }
}

TEST_CASE("text is as wide on paper as it was measured") {
  const Text text{{10, 10}, "T0042-F 37 1/2 × 8", 20, true};
  const QRectF box = textBox(text);
  const QImage image = toImage({{90, 20}, {text}}, 600);
  int left = image.width(), right = 0, top = image.height(), bottom = 0;
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x)
      if (dark(image, x, y)) {
        left = std::min(left, x);
        right = std::max(right, x);
        top = std::min(top, y);
        bottom = std::max(bottom, y);
      }
  const double dot = 25.4 / 600;
  CHECK(left * dot >= box.left() - 0.1);
  CHECK(right * dot <= box.right() + 0.1);
  CHECK(right * dot >= box.right() - 1.5);
  CHECK(top * dot == Approx(box.top()).margin(0.2));
  CHECK(bottom * dot == Approx(box.bottom()).margin(0.2));
}

TEST_CASE("figures are as wide in regular as in bold, letters are not all alike") {
  for (const char* figure : {"0", "1", "7"})
    CHECK(textWidth(figure, 12, false) == Approx(textWidth("8", 12, true)));
  CHECK(textWidth("W", 12, false) > 1.5 * textWidth("i", 12, false));
}

TEST_CASE("text longer than its room is cut short with a sign") {
  Text text{{0, 10}, "quartersawn European sycamore, steamed", 12};
  text.maxWidth = 30;
  CHECK(shownText(text).endsWith(QChar(0x2026)));
  CHECK(textBox(text).width() <= 30);
  text.maxWidth = 300;
  CHECK(shownText(text) == text.text);
}

TEST_CASE("a tag code set smaller to fit keeps all its characters") {
  const double points = fittingPoints("T999999999-X", 38, true, 50);
  CHECK(points < 38);
  CHECK(textWidth("T999999999-X", points, true) <= 50);
  CHECK(fittingPoints("T1", 38, true, 50) == 38);
}

TEST_CASE("pages of a PDF keep their own sizes") {
  const QTemporaryDir folder;
  const QString path = folder.filePath("sizes.pdf");
  const std::vector<QSizeF> sizes{{100, 50}, {297, 210}, {210, 297}, {72, 18}};
  std::vector<Page> pages;
  for (const QSizeF& size : sizes) pages.push_back({size, {Text{{5, 10}, "sheet", 11}}});
  writePdf(pages, path.toStdString(), "Sizes");
  const std::vector<QImage> images = flitch::test::renderPdf(path, 100);
  REQUIRE(images.size() == sizes.size());
  for (std::size_t at = 0; at < sizes.size(); ++at) {
    CHECK(images[at].width() == Approx(sizes[at].width() / 25.4 * 100).margin(2));
    CHECK(images[at].height() == Approx(sizes[at].height() / 25.4 * 100).margin(2));
  }
}

TEST_CASE("a PDF carries its text and embeds its font") {
  const QTemporaryDir folder;
  const QString path = folder.filePath("text.pdf");
  writePdf({{{100, 50}, {Text{{5, 20}, "T0042-F 37 1/2 × 8", 20, true}}}}, path.toStdString(),
           "Text");
  CHECK(flitch::test::run("pdftotext", {path, "-"}).join(' ').contains("T0042-F 37 1/2 × 8"));
  const QStringList fonts = flitch::test::run("pdffonts", {path}).mid(2);
  REQUIRE(fonts.size() == 1);
  CHECK(fonts[0].contains(QRegularExpression("Identity-H +yes")));  // embedded
}

TEST_CASE("a PDF that cannot be written is refused and nothing is left behind") {
  const Page page{{50, 50}, {}};
  CHECK_THROWS_AS(writePdf({page}, "/no-such-folder/tags.pdf", "Tags"), flitch::Refusal);
  const QTemporaryDir folder;
  const QString path = folder.filePath("none.pdf");
  CHECK_THROWS_AS(writePdf({}, path.toStdString(), "None"), flitch::Refusal);
  CHECK_FALSE(QFileInfo::exists(path));
}

TEST_CASE("a thrown area is hatched, an unseen one ticked, a plain one left white on paper") {
  const auto darkShare = [](Fill fill) {
    const Area area{{{5, 5}, {55, 5}, {55, 35}, {5, 35}}, fill, Tone::wood};
    const QImage image = toImage({{60, 40}, {area}}, 203, true);
    int count = 0;
    for (int y = 0; y < image.height(); ++y)
      for (int x = 0; x < image.width(); ++x) count += dark(image, x, y);
    return count / (50 * 30 * (203 / 25.4) * (203 / 25.4));
  };
  CHECK(darkShare(Fill::tone) == 0);
  CHECK(darkShare(Fill::unseen) > 0.005);
  CHECK(darkShare(Fill::unseen) < darkShare(Fill::hatch) / 2);
  CHECK(darkShare(Fill::hatch) < 0.2);
}
