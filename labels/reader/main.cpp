// flitch-reader: decodes the symbols of pictures in a process of its own, since the symbol library
// may abort on some pictures. Paths come one a line on standard input; for each a line of JSON goes
// to standard output: {"path": ..., "found": [{"text": ..., "format": ...}], "trouble": ...}.
#include <sys/resource.h>

#include <QCoreApplication>
#include <QFileInfo>
#include <QImageReader>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
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

/// Empty when it could be read; else why not.
QString read(const QString& path, QImage& image) {
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
  if (!reader.read(&image))
    return QStringLiteral("This picture is damaged: %1.").arg(reader.errorString());
  if (static_cast<qint64>(image.width()) * image.height() > mostPicturePixels)
    return QStringLiteral("This picture has more than %1 megapixels.")
        .arg(mostPicturePixels / 1'000'000);
  return {};
}

QJsonObject answerFor(const QString& path) {
  QImage image;
  const QString trouble = read(path, image);
  QJsonArray found;
  if (trouble.isEmpty())
    for (const Found& symbol : decode(image))
      found.append(QJsonObject{{"text", QString::fromStdString(symbol.text)},
                               {"format", QString::fromStdString(symbol.format)}});
  return {{"path", path}, {"found", found}, {"trouble", trouble}};
}

}  // namespace

int main(int argc, char* argv[]) {
  limitThisProcess();
  const QCoreApplication application(argc, argv);
  std::string line;
  while (std::getline(std::cin, line)) {
    limitNextPicture();
    const QJsonObject answer = answerFor(QString::fromStdString(line));
    std::cout << QJsonDocument(answer).toJson(QJsonDocument::Compact).constData() << std::endl;
  }
  return 0;
}
