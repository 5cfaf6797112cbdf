#include "ui/desktop/laid_photos.h"

#include <algorithm>

#include "labels/photo.h"

namespace flitch::desktop {

std::array<QImage, 2> laidPhotos(const store::Snapshot& now, const Board& board) {
  std::array<QImage, 2> laid;
  const Rect all = boundsOf(board);
  constexpr int wide = 2000;  // pixels, as the widest window has
  const int high =
      std::max(1, static_cast<int>(wide * all.dy.nm() / std::max<std::int64_t>(1, all.dx.nm())));
  for (const Photo& photo : now.photos(board.id)) {
    if (!photo.corners || !photo.face) continue;
    const QImage kept =
        QImage::fromData(QByteArray::fromStdString(now.photoBytes(photo.id)), "JPEG");
    laid[static_cast<std::size_t>(*photo.face)] =
        pages::rectified(kept, *photo.corners, *photo.face, {wide, high});
  }
  return laid;
}

}  // namespace flitch::desktop
