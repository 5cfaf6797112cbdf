#include "inventory/records/photo.h"

#include "inventory/records/refusal.h"
#include "inventory/wood/wide.h"

namespace flitch {
namespace {

/// Twice the area of the triangle, above zero when it goes round with the clock as y grows down.
Wide turn(const PhotoPoint& a, const PhotoPoint& b, const PhotoPoint& c) {
  return Wide(b.x - a.x) * (c.y - a.y) - Wide(b.y - a.y) * (c.x - a.x);
}

[[noreturn]] void refuse(const char* sentence, const char* accepted) {
  throw Refusal("bad-corners", Complaint{"--corners", sentence, "", accepted});
}

}  // namespace

void validate(const PhotoCorners& corners, Face face, int width, int height) {
  for (const PhotoPoint& corner : corners) {
    if (corner.x < 0 || corner.y < 0 || corner.x > std::int64_t{width} * 1000 ||
        corner.y > std::int64_t{height} * 1000) {
      refuse("a corner lies off the photo",
             "four places on the photo, pixels from its top left corner");
    }
  }
  int with = 0, against = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Wide way = turn(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
    with += way > 0;
    against += way < 0;
  }
  const char* order = "tag end near, far end near, far end far, tag end far";
  if (with != 4 && against != 4) refuse("the corners do not go round a board", order);
  if ((face == Face::a) == (with == 4)) {
    refuse("the corners go round the wrong way: the board would be mirrored", order);
  }
}

}  // namespace flitch
