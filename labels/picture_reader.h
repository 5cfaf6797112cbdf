#pragma once
#include <QImage>
#include <cstdint>
#include <string>
#include <vector>

namespace flitch::pages {

/// A symbol found in a picture.
struct Found {
  std::string text;
  std::string format;  ///< "Code128", "QRCode", "DataMatrix"
};
struct PictureReading {
  std::string path;
  std::vector<Found> found;  ///< without repeats, top to bottom
  std::string trouble;       ///< a sentence when the picture could not be read, else empty
};

/// What a picture may be, and what reading one may take.
inline constexpr std::int64_t mostPictureBytes = 64'000'000;
inline constexpr std::int64_t mostPicturePixels = 64'000'000;
inline constexpr std::uint64_t readerMemory = 1'500'000'000;  ///< bytes of address space
inline constexpr unsigned readerSeconds = 20;                 ///< of computing, for one picture

/// A picture taken in as a photo: scaled down, as JPEG, and what symbols were seen in it.
struct PhotoReading {
  PictureReading reading;
  std::string jpeg;
  int width = 0, height = 0;  ///< of the JPEG, pixels
  std::string sha256;         ///< of the file, hexadecimal
};
/// Longest side of a photo that is kept: a 16 ft board has 12 pixels an inch.
inline constexpr int photoSide = 2400;

/// Reads pictures through `flitch-reader`, a child process with limits on memory, time and size,
/// since the symbol library may abort on some pictures. One child reads them all; after a crash the
/// next picture gets a new one. `program` is the child, by default the one beside the running
/// program. Answers come in the
/// order of `paths`, one each. Throws Refusal when the reader program is missing. Needs a
/// QCoreApplication.
[[nodiscard]] std::vector<PictureReading> readPictures(const std::vector<std::string>& paths,
                                                       const std::string& program = {});

/// The same for photos: JPEG and PNG alone.
[[nodiscard]] std::vector<PhotoReading> readPhotos(const std::vector<std::string>& paths,
                                                   const std::string& program = {});

/// Decodes in this process: for the child and for our own renders in tests.
[[nodiscard]] std::vector<Found> decode(const QImage& grey);

}  // namespace flitch::pages
