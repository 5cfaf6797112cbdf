#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include "inventory/records/board.h"
#include "inventory/records/ids.h"

namespace flitch {

/// A place on a photo, thousandths of a pixel, x to the right and y down from its top left corner.
struct PhotoPoint {
  std::int64_t x = 0, y = 0;
  friend bool operator==(const PhotoPoint&, const PhotoPoint&) = default;
};

/// Where a board's corners lie on a photo of one of its faces, going round: near and far edge at
/// the ends as tag end near, far end near, far end far, tag end far.
using PhotoCorners = std::array<PhotoPoint, 4>;

/// A picture of a board, kept in the book scaled down; its bytes are read apart (JPEG).
struct Photo {
  PhotoId id;
  BoardId board;
  std::optional<Face> face;  ///< none: of the board as it lies
  std::string takenOn;       ///< ISO date
  std::string fileName;
  std::string sha256;         ///< of the file it came from, hexadecimal
  int width = 0, height = 0;  ///< pixels, as kept
  std::optional<PhotoCorners> corners;
  friend bool operator==(const Photo&, const Photo&) = default;
};

/// Throws Refusal unless the corners are those of a board's face seen from above: on the photo, no
/// two on one line, going round without crossing, and not mirrored. Face A goes round against the
/// clock, face B with it, since it is looked at from the other side.
void validate(const PhotoCorners& corners, Face face, int width, int height);

}  // namespace flitch
