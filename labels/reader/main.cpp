// flitch-reader: decodes the symbols of pictures in a process of its own, since the symbol library
// may abort on some pictures. Paths come one a line on standard input; for each a line of JSON goes
// to standard output: {"path": ..., "found": [{"text": ..., "format": ...}], "trouble": ...}. With
// --photos a picture is a JPEG or PNG and the line has it too, scaled down: "jpeg" in base64,
// "width", "height", and "sha256" of the file.
#include <sys/resource.h>

#include <QBuffer>
#include <QCoreApplication>
#include <QCryptographicHash>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QPainter>
#include <algorithm>
#include <cstdio>
#include <iostream>
#include <string>

#include "labels/picture_reader.h"

namespace {

using namespace flitch::pages;

/// No core files, and an end to a decoder that never comes back or eats all memory.
void limitThisProcess() {
  const auto limit = [](auto resource, rlim_t most) {
    const rlimit both{most, most};
    setrlimit(resource, &both);
  };
  limit(RLIMIT_CORE, 0);
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
  limit(RLIMIT_AS, readerMemory);  // a sanitizer's own address space is larger than any limit
#endif
  limit(RLIMIT_NOFILE, 64);
}

/// The clock of computing time starts anew for each picture: what is used so far and the allowance.
void limitNextPicture() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  const auto spent = static_cast<rlim_t>(used.ru_utime.tv_sec + used.ru_stime.tv_sec);
  rlimit cpu{};
  getrlimit(RLIMIT_CPU, &cpu);
  cpu.rlim_cur = spent + readerSeconds;
  setrlimit(RLIMIT_CPU, &cpu);
}

/// Whether a JPEG has come to its end. Markers up to the start of scan have a length; within scans
/// only the end of image is FF D9, since data bytes FF are stuffed (ITU-T T.81, annex B).
bool whole(const QByteArray& jpeg) {
  qsizetype at = 2;
  while (at + 4 <= jpeg.size() && static_cast<uchar>(jpeg[at]) == 0xff) {
    const auto marker = static_cast<uchar>(jpeg[at + 1]);
    if (marker == 0xda) return jpeg.indexOf("\xff\xd9", at) >= 0;
    if (marker == 0xff) {  // a fill byte
      ++at;
      continue;
    }
    at += 2 + (static_cast<uchar>(jpeg[at + 2]) << 8 | static_cast<uchar>(jpeg[at + 3]));
  }
  return false;
}

/// Empty when it could be read; else why not.
QString read(const QString& path, bool photo, QImage& image) {
  const QFileInfo file(path);
  if (!file.exists()) return QStringLiteral("There is no such file.");
  if (!file.isFile()) return QStringLiteral("This is not a file.");
  if (!file.isReadable()) return QStringLiteral("This file may not be read.");
  if (file.size() > mostPictureBytes)
    return QStringLiteral("This file is larger than %1 MB.").arg(mostPictureBytes / 1'000'000);
  QImageReader reader(path);
  reader.setDecideFormatFromContent(true);
  reader.setAutoTransform(true);
  QImageReader::setAllocationLimit(0);  // the limit on pixels below says it in words
  const QSize size = reader.size();
  if (!reader.canRead()) return QStringLiteral("This is not a picture (PNG, JPEG, BMP, PBM, GIF).");
  if (size.isValid() && static_cast<qint64>(size.width()) * size.height() > mostPicturePixels)
    return QStringLiteral("This picture has more than %1 megapixels.")
        .arg(mostPicturePixels / 1'000'000);
  const QByteArray format = reader.format();
  if (photo && format != "jpeg" && format != "png")
    return QStringLiteral("This picture is a %1; photos are JPEG or PNG.")
        .arg(QString::fromLatin1(format.toUpper()));
  if (format == "jpeg") {
    QFile bytes(path);
    // The decoder takes a cut file for whole and leaves the rest grey.
    if (bytes.open(QIODevice::ReadOnly) && !whole(bytes.readAll()))
      return QStringLiteral("This picture is damaged: it is cut off before its end.");
  }
  if (!reader.read(&image))
    return QStringLiteral("This picture is damaged: %1.").arg(reader.errorString());
  if (static_cast<qint64>(image.width()) * image.height() > mostPicturePixels)
    return QStringLiteral("This picture has more than %1 megapixels.")
        .arg(mostPicturePixels / 1'000'000);
  return {};
}

/// On white where it is clear, scaled down to what is kept, as JPEG.
QByteArray scaledDown(const QImage& image, QSize& size) {
  QImage kept = image;
  if (std::max(image.width(), image.height()) > photoSide)
    kept = image.scaled(photoSide, photoSide, Qt::KeepAspectRatio, Qt::SmoothTransformation);
  if (kept.hasAlphaChannel()) {
    QImage ground(kept.size(), QImage::Format_RGB32);
    ground.fill(Qt::white);
    QPainter(&ground).drawImage(0, 0, kept);
    kept = ground;
  }
  size = kept.size();
  QBuffer buffer;
  buffer.open(QIODevice::WriteOnly);
  constexpr int quality = 85;
  return kept.save(&buffer, "JPEG", quality) ? buffer.data() : QByteArray();
}

void addPhoto(const QString& path, const QImage& image, QJsonObject& answer) {
  QSize size;
  answer["jpeg"] = QString::fromLatin1(scaledDown(image, size).toBase64());
  answer["width"] = size.width();
  answer["height"] = size.height();
  QFile file(path);
  QCryptographicHash hash(QCryptographicHash::Sha256);
  if (file.open(QIODevice::ReadOnly) && hash.addData(&file))
    answer["sha256"] = QString::fromLatin1(hash.result().toHex());
}

QJsonObject answerFor(const QString& path, bool photo) {
  QImage image;
  const QString trouble = read(path, photo, image);
  QJsonArray found;
  if (trouble.isEmpty())
    for (const Found& symbol : decode(image))
      found.append(QJsonObject{{"text", QString::fromStdString(symbol.text)},
                               {"format", QString::fromStdString(symbol.format)}});
  QJsonObject answer{{"path", path}, {"found", found}, {"trouble", trouble}};
  if (photo && trouble.isEmpty()) addPhoto(path, image, answer);
  return answer;
}

}  // namespace

int main(int argc, char* argv[]) {
  limitThisProcess();
  const QCoreApplication application(argc, argv);
  const bool photos = argc > 1 && std::string(argv[1]) == "--photos";
  std::string line;
  while (std::getline(std::cin, line)) {
    limitNextPicture();
    const QJsonObject answer = answerFor(QString::fromStdString(line), photos);
    std::cout << QJsonDocument(answer).toJson(QJsonDocument::Compact).constData() << std::endl;
  }
  return 0;
}
