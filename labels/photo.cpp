#include "labels/photo.h"

#include <QPainter>
#include <algorithm>
#include <stdexcept>

#include "labels/sheet.h"

namespace flitch::pages {

QTransform toScale(const PhotoCorners& corners, Face face, QSize size) {
  const double w = size.width(), h = size.height();
  const double near = face == Face::a ? h : 0, far = face == Face::a ? 0 : h;
  QPolygonF from;
  for (const PhotoPoint& corner : corners)
    from << QPointF(static_cast<double>(corner.x), static_cast<double>(corner.y)) / 1000.0;
  const QPolygonF to{{{0, near}, {w, near}, {w, far}, {0, far}}};
  QTransform transform;
  if (!QTransform::quadToQuad(from, to, transform))
    throw std::invalid_argument("corners that are no quadrilateral");
  return transform;
}

QImage rectified(const QImage& photo, const PhotoCorners& corners, Face face, QSize size) {
  QImage laid(size, QImage::Format_RGB32);
  laid.fill(Qt::white);
  QPainter painter(&laid);
  painter.setRenderHint(QPainter::SmoothPixmapTransform);
  painter.setTransform(toScale(corners, face, size));
  painter.drawImage(0, 0, photo);
  return laid;
}

PhotoPrint photoPrint(const std::string& jpeg, std::string caption) {
  return {QImage::fromData(QByteArray::fromStdString(jpeg), "JPEG"), std::move(caption)};
}

std::vector<Page> photoPages(const std::vector<PhotoPrint>& photos, const std::string& title) {
  constexpr double top = Sheet::margin + 14, captionHeight = 8;
  std::vector<Sheet> sheets;
  const std::size_t count = (photos.size() + 1) / 2;
  for (std::size_t n = 0; n < photos.size(); ++n) {
    if (n % 2 == 0) {
      sheets.emplace_back(false, false);
      sheets.back().write(Sheet::margin, Sheet::margin + 8, "Photos", 17, true);
    }
    Sheet& sheet = sheets.back();
    const double high = (sheet.foot() - top) / 2 - captionHeight - 4;
    const double y = top + static_cast<double>(n % 2) * (high + captionHeight + 4);
    const QSizeF size = QSizeF(photos[n].image.size())
                            .scaled(sheet.right() - sheet.left(), high, Qt::KeepAspectRatio);
    sheet.page.ink.emplace_back(Picture{QRectF(QPointF(sheet.left(), y), size), photos[n].image});
    sheet.write(sheet.left(), y + size.height() + 5.4, QString::fromStdString(photos[n].caption),
                11, false, sheet.right() - sheet.left());
  }
  std::vector<Page> pages;
  for (std::size_t n = 0; n < sheets.size(); ++n) {
    sheets[n].titleBlock({{"Photos of", QString::fromStdString(title), 0.8},
                          {"Sheet", QString("%1 of %2").arg(n + 1).arg(count), 0.2}});
    pages.push_back(std::move(sheets[n].page));
  }
  return pages;
}

}  // namespace flitch::pages
