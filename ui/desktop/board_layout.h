#pragma once
#include <QPointF>
#include <QRectF>
#include <QSize>
#include <optional>

#include "inventory/records/board.h"

namespace flitch::desktop {

/// A place on a face of the board, as the book measures it on either face.
struct FacePlace {
  Face face = Face::a;
  Length x, y;
  friend bool operator==(const FacePlace&, const FacePlace&) = default;
};

/// Where both faces lie on a widget, opened about the near edge: the tag end stays left, y is
/// measured from the fold on both, so what goes through stands at the same x and as far from the
/// fold on A as on B.
struct BoardLayout {
  double scale = 1;  ///< pixels an inch
  double x = 64, top[2]{}, height = 0, fold = 0, warp = 0;
  Rect bounds;

  [[nodiscard]] QRectF box(Face face, const Rect& r) const;
  /// To the nearest 64th of an inch; none beside the faces' bounds.
  [[nodiscard]] std::optional<FacePlace> placeAt(QPointF point) const;
  /// As far along and across as the face reaches when the point lies past its bounds.
  [[nodiscard]] FacePlace nearestOn(Face face, QPointF point) const;
  /// The point that shows the same place of the board on the other face.
  [[nodiscard]] QPointF mirrored(QPointF point) const;
};

/// Both faces as large as fits `size` under `head` pixels, with room for `warp` below.
[[nodiscard]] BoardLayout layBoard(const Board& board, QSize size, double head, double warp);

}  // namespace flitch::desktop
