#pragma once
#include <QImage>
#include <array>

#include "inventory/store/snapshot.h"

namespace flitch::desktop {

/// The newest photo of each face of a board whose corners were pulled to the board's, laid to scale
/// as the face is drawn; null where there is none. Reads and warps pictures: a tenth of a second.
[[nodiscard]] std::array<QImage, 2> laidPhotos(const store::Snapshot& now, const Board& board);

}  // namespace flitch::desktop
