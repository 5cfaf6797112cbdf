#include <ZXing/ReadBarcode.h>
#include <QPainter>
#include <QTransform>
#include <algorithm>
#include <cmath>

#include "labels/picture_reader.h"

namespace flitch::pages {
namespace {

using ZXing::BarcodeFormat;

/// More symbols than this on one picture are not a shop's.
constexpr int mostSymbols = 200;

struct Placed {
  Found found;
  QPointF at;  ///< in the picture as given
};

ZXing::ImageView viewOf(const QImage& grey) {
  return {grey.constBits(), grey.width(), grey.height(), ZXing::ImageFormat::Lum,
          static_cast<int>(grey.bytesPerLine())};
}

/// Whitens a convex quadrilateral, one pixel wider all round.
void whiten(QImage& grey, const ZXing::Position& corners) {
  int low = grey.height(), high = -1;
  for (const auto& corner : corners) {
    low = std::min(low, corner.y - 1);
    high = std::max(high, corner.y + 1);
  }
  for (int y = std::max(low, 0); y <= std::min(high, grey.height() - 1); ++y) {
    double left = grey.width(), right = -1;
    for (std::size_t side = 0; side < corners.size(); ++side) {
      const auto a = corners[side], b = corners[(side + 1) % corners.size()];
      if (std::min(a.y, b.y) - 1 > y || std::max(a.y, b.y) + 1 < y) continue;
      const double part =
          a.y == b.y ? 0.0 : std::clamp((y - a.y) / static_cast<double>(b.y - a.y), 0.0, 1.0);
      for (const double x :
           {a.x + part * (b.x - a.x), a.y == b.y ? b.x : a.x + part * (b.x - a.x)}) {
        left = std::min(left, x - 1);
        right = std::max(right, x + 1);
      }
    }
    uchar* row = grey.scanLine(y);
    for (int x = std::max(static_cast<int>(left), 0);
         x <= std::min(static_cast<int>(std::ceil(right)), grey.width() - 1); ++x)
      row[x] = 255;
  }
}

/// Square symbols at any angle. One call misses most of a dense page: found ones are whitened and
/// the rest is read again until nothing is new.
void readSquares(QImage grey, BarcodeFormat format, const char* name, std::vector<Placed>& all) {
  ZXing::DecodeHints hints;
  hints.setFormats(format);
  hints.setTryHarder(true);
  hints.setTryRotate(true);
  while (static_cast<int>(all.size()) < mostSymbols) {
    bool more = false;
    for (const auto& result : ZXing::ReadBarcodes(viewOf(grey), hints)) {
      if (!result.isValid()) continue;
      const auto& corners = result.position();
      all.push_back(
          {{result.text(), name},
           QPointF(corners.topLeft().x, std::min(corners.topLeft().y, corners.bottomRight().y))});
      whiten(grey, corners);
      more = true;
    }
    if (!more) return;
  }
}

/// Light to dark and back, along a row.
int changes(const QImage& grey, int y, int x0, int x1) {
  const uchar* row = grey.constScanLine(y);
  const auto [least, most] = std::minmax_element(row + x0, row + x1 + 1);
  if (*most - *least < 48) return 0;
  const int middle = (*most + *least) / 2;
  int count = 0;
  for (int x = x0 + 1; x <= x1; ++x) count += (row[x] < middle) != (row[x - 1] < middle);
  return count;
}

/// Code 128 that lies across the picture. The library's reader of several linear symbols aborts on
/// two of the same text, so one is read, its band of rows whitened, and the next is read.
void readBars(QImage grey, const QTransform& back, std::vector<Placed>& all) {
  ZXing::DecodeHints hints;
  hints.setFormats(BarcodeFormat::Code128);
  hints.setTryHarder(true);
  hints.setTryRotate(false);
  while (static_cast<int>(all.size()) < mostSymbols) {
    const auto result = ZXing::ReadBarcode(viewOf(grey), hints);
    if (!result.isValid()) return;
    const auto& corners = result.position();
    const int middle =
        std::clamp((corners.topLeft().y + corners.bottomRight().y) / 2, 0, grey.height() - 1);
    const auto [leftmost, rightmost] =
        std::minmax({corners.topLeft().x, corners.topRight().x, corners.bottomLeft().x,
                     corners.bottomRight().x});
    const int x0 = std::clamp(leftmost - 2, 0, grey.width() - 1);
    const int x1 = std::clamp(rightmost + 2, x0, grey.width() - 1);
    const int enough = changes(grey, middle, x0, x1) / 2;
    int top = middle, bottom = middle;
    while (top > 0 && changes(grey, top - 1, x0, x1) > enough) --top;
    while (bottom + 1 < grey.height() && changes(grey, bottom + 1, x0, x1) > enough) ++bottom;
    all.push_back({{result.text(), "Code128"}, back.map(QPointF(x0, top))});
    for (int y = top; y <= bottom; ++y) {
      uchar* row = grey.scanLine(y);
      std::fill(row + x0, row + x1 + 1, uchar{255});
    }
  }
}

/// White outside the picture: a black corner would eat a quiet zone.
QImage turnedBy(const QImage& grey, const QTransform& turn, QSize size) {
  QImage turned(size, QImage::Format_RGB32);
  turned.fill(Qt::white);
  QPainter painter(&turned);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.setTransform(turn);
  painter.drawImage(0, 0, grey);
  painter.end();
  return turned.convertToFormat(QImage::Format_Grayscale8);
}

void readBarsTurned(const QImage& grey, double degrees, std::vector<Placed>& all) {
  const QTransform turn =
      QImage::trueMatrix(QTransform().rotate(degrees), grey.width(), grey.height());
  const QSize size = turn.mapRect(QRectF(QPointF(0, 0), QSizeF(grey.size()))).size().toSize();
  readBars(turnedBy(grey, turn, size), turn.inverted(), all);
}

}  // namespace

std::vector<Found> decode(const QImage& picture) {
  const QImage grey = picture.convertToFormat(QImage::Format_Grayscale8);
  std::vector<Placed> all;
  if (grey.isNull()) return {};
  readSquares(grey, BarcodeFormat::QRCode, "QRCode", all);
  readBars(grey, QTransform(), all);
  readBarsTurned(grey, 90, all);
  // Bars stand up to about 11 degrees askew; the other angles are tried only when all else failed,
  // since they cost six more readings of a picture.
  for (const double degrees : {22.5, 45.0, 67.5, 112.5, 135.0, 157.5})
    if (all.empty()) readBarsTurned(grey, degrees, all);
  // Only slips carry a Data Matrix, and they carry nothing else.
  if (all.empty()) readSquares(grey, BarcodeFormat::DataMatrix, "DataMatrix", all);
  std::stable_sort(all.begin(), all.end(), [](const Placed& a, const Placed& b) {
    return a.at.y() != b.at.y() ? a.at.y() < b.at.y() : a.at.x() < b.at.x();
  });
  std::vector<Found> found;
  for (Placed& placed : all) {
    const auto same = [&](const Found& other) {
      return other.text == placed.found.text && other.format == placed.found.format;
    };
    if (std::none_of(found.begin(), found.end(), same)) found.push_back(std::move(placed.found));
  }
  return found;
}

}  // namespace flitch::pages
