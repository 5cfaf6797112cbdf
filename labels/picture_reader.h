#pragma once
#include <QImage>
#include <cstdint>
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

/// What a picture may be, and what reading one may take.
inline constexpr std::int64_t mostPictureBytes = 64'000'000;
inline constexpr std::int64_t mostPicturePixels = 64'000'000;
inline constexpr std::uint64_t readerMemory = 1'500'000'000;  ///< bytes of address space
inline constexpr unsigned readerSeconds = 20;                 ///< of computing, for one picture

/// Reads pictures through `flitch-reader`, a child process with limits on memory, time and size,
/// since the symbol library may abort on some pictures. One child reads them all; after a crash the
/// next picture gets a new one. `program` is the child, by default the one beside the running
/// program. Answers come in the
/// order of `paths`, one each. Throws Refusal when the reader program is missing. Needs a
/// QCoreApplication.
[[nodiscard]] std::vector<PictureReading> readPictures(const std::vector<std::string>& paths,
                                                       const std::string& program = {});

/// Decodes in this process: for the child and for our own renders in tests.
[[nodiscard]] std::vector<Found> decode(const QImage& grey);

}  // namespace flitch::pages
