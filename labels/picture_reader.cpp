#include "labels/picture_reader.h"

#include <QCoreApplication>
#include <QDir>
#include <QFileInfo>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <optional>
#include <utility>

#include "inventory/records/refusal.h"

namespace flitch::pages {
namespace {

/// The child; started when first needed, and anew after it died.
class Reader {
 public:
  Reader(const std::string& program, QStringList arguments)
      : arguments_(std::move(arguments)),
        program_(program.empty()
                     ? QDir(QCoreApplication::applicationDirPath()).filePath("flitch-reader")
                     : QString::fromStdString(program)) {
    if (!QFileInfo(program_).isExecutable())
      throw Refusal("no-reader", {"",
                                  "The program that reads pictures is not installed beside this "
                                  "one.",
                                  program_.toStdString(), ""});
  }
  Reader(const Reader&) = delete;
  Reader& operator=(const Reader&) = delete;
  ~Reader() {
    if (child_.state() == QProcess::NotRunning) return;
    child_.closeWriteChannel();
    if (!child_.waitForFinished(2'000)) end();
  }

  /// The child's line for a picture; none when it died or took too long.
  std::optional<QJsonObject> ask(const QString& path) {
    if (child_.state() == QProcess::NotRunning) {
      child_.setProcessChannelMode(QProcess::SeparateChannels);
      child_.start(program_, arguments_);
      if (!child_.waitForStarted()) return std::nullopt;
    }
    child_.write(path.toUtf8() + '\n');
    while (!child_.canReadLine()) {
      // Computing time is limited in the child; waiting longer than that means it hangs.
      constexpr int patience = 1'000 * (static_cast<int>(readerSeconds) + 10);
      if (child_.waitForReadyRead(patience)) continue;
      if (child_.canReadLine()) break;
      end();
      return std::nullopt;
    }
    const QJsonDocument answer = QJsonDocument::fromJson(child_.readLine());
    if (!answer.isObject()) {
      end();
      return std::nullopt;
    }
    return answer.object();
  }

 private:
  void end() {
    child_.kill();
    child_.waitForFinished(2'000);
  }

  QStringList arguments_;
  QString program_;
  QProcess child_;
};

/// One picture's answer, and what the child said beside it.
PictureReading readOne(Reader& reader, const std::string& path, QJsonObject& said) {
  PictureReading reading;
  reading.path = path;
  if (path.find('\n') != std::string::npos) {
    reading.trouble = "A file name with a line break is not taken.";
    return reading;
  }
  const auto answer = reader.ask(QString::fromStdString(path));
  if (!answer) {
    reading.trouble = "This picture could not be read: the reader came to an end over it.";
    return reading;
  }
  said = *answer;
  reading.trouble = said["trouble"].toString().toStdString();
  for (const QJsonValue& found : said["found"].toArray())
    reading.found.push_back(
        {found["text"].toString().toStdString(), found["format"].toString().toStdString()});
  return reading;
}

}  // namespace

std::vector<PictureReading> readPictures(const std::vector<std::string>& paths,
                                         const std::string& program) {
  Reader reader(program, {});
  std::vector<PictureReading> readings;
  QJsonObject said;
  for (const std::string& path : paths) readings.push_back(readOne(reader, path, said));
  return readings;
}

std::vector<PhotoReading> readPhotos(const std::vector<std::string>& paths,
                                     const std::string& program) {
  Reader reader(program, {"--photos"});
  std::vector<PhotoReading> readings;
  for (const std::string& path : paths) {
    PhotoReading& photo = readings.emplace_back();
    QJsonObject said;
    photo.reading = readOne(reader, path, said);
    photo.jpeg = QByteArray::fromBase64(said["jpeg"].toString().toLatin1()).toStdString();
    photo.width = said["width"].toInt();
    photo.height = said["height"].toInt();
    photo.sha256 = said["sha256"].toString().toStdString();
    if (photo.reading.trouble.empty() && photo.jpeg.empty())
      photo.reading.trouble = "This picture could not be read: the reader gave no picture.";
  }
  return readings;
}

}  // namespace flitch::pages
