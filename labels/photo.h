#pragma once
#include <QImage>
#include <QTransform>
#include <string>
#include <vector>

#include "inventory/records/photo.h"
#include "labels/page.h"

namespace flitch::pages {

/// The perspective that lays a photo to scale: from its pixels to those of a picture of `size` that
/// shows the face as it is drawn, tag end left; near edge at the foot for face A, at the top for
/// face B. The corners must be valid.
[[nodiscard]] QTransform toScale(const PhotoCorners& corners, Face face, QSize size);
/// The photo so laid, smoothly.
[[nodiscard]] QImage rectified(const QImage& photo, const PhotoCorners& corners, Face face,
                               QSize size);

/// A photo on paper: its picture, and what stands under it.
struct PhotoPrint {
  QImage image;
  std::string caption;
};
/// One as the book keeps it.
[[nodiscard]] PhotoPrint photoPrint(const std::string& jpeg, std::string caption);
/// Photos on A4, two to a sheet, each as large as fits, after a report.
[[nodiscard]] std::vector<Page> photoPages(const std::vector<PhotoPrint>& photos,
                                           const std::string& title);

}  // namespace flitch::pages
