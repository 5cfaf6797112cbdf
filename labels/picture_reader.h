#pragma once
#include <QImage>
#include <string>
#include <vector>

namespace flitch::pages {

/// A symbol found in a picture.
struct Found {
  std::string text;
  std::string format;  ///< "Code128", "QRCode"
};
struct PictureReading {
  std::string path;
  std::vector<Found> found;  ///< without repeats, top to bottom
  std::string trouble;       ///< a sentence when the picture could not be read, else empty
};

/// Reads pictures through `flitch-reader`, a child process with limits on memory, time and size,
/// since the symbol library may abort on some pictures. After a crash the next picture gets a new
/// child. Throws Refusal when the reader program is missing.
[[nodiscard]] std::vector<PictureReading> readPictures(const std::vector<std::string>& paths);

/// Decodes in this process: for the child and for our own renders in tests.
[[nodiscard]] std::vector<Found> decode(const QImage& grey);

}  // namespace flitch::pages
