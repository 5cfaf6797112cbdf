#pragma once
#include <vector>

#include "inventory/records/photo.h"
#include "inventory/store/database.h"

namespace flitch::store {

/// Photos of a board that stand, oldest first, each with its newest corners.
[[nodiscard]] std::vector<Photo> readPhotos(Database& database, BoardId board);
[[nodiscard]] std::optional<Photo> readPhoto(Database& database, PhotoId id);
/// Bytes of a JPEG; empty for no photo.
[[nodiscard]] std::string readPhotoBytes(Database& database, PhotoId id);
/// The photo that came of a file of that sum, if it stands.
[[nodiscard]] PhotoId photoOfFile(Database& database, const std::string& sha256);
/// A new row each; return its id. Corners of the photo are a row of their own.
PhotoId insertPhoto(Database& database, const Photo& photo, const std::string& jpeg, EntryId entry);
std::int64_t insertCorners(Database& database, PhotoId photo, Face face,
                           const PhotoCorners& corners, EntryId entry);

}  // namespace flitch::store
