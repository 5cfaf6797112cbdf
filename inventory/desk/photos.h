#pragma once
#include <optional>
#include <string>
#include <vector>

#include "inventory/records/photo.h"
#include "inventory/store/book.h"

namespace flitch::desk {

/// The board that a photo is of, by the codes seen in it: the only tag of a board of this book.
/// Throws Refusal with a sentence when there is none, or several boards are seen.
[[nodiscard]] Board boardSeen(const store::Snapshot& snapshot,
                              const std::vector<std::string>& codes);

struct PhotoAdded {
  EntryId entry;
  PhotoId photo;
};
/// Keeps a photo of a board with its bytes (JPEG). Throws Refusal when the same file is kept
/// already, or its bytes are none or more than a book should hold.
PhotoAdded addPhoto(store::Book& book, const Photo& photo, const std::string& jpeg,
                    const store::Hand& hand);
/// Says where the board's corners lie on a photo of one of its faces. Throws Refusal for corners
/// of no board, or an unknown photo.
EntryId placePhoto(store::Book& book, PhotoId photo, Face face, const PhotoCorners& corners,
                   const store::Hand& hand);

}  // namespace flitch::desk
