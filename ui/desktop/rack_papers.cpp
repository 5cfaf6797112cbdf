#include <QDate>
#include <QFileInfo>
#include <algorithm>

#include "inventory/desk/photos.h"
#include "labels/picture_reader.h"
#include "ui/desktop/laid_photos.h"
#include "ui/desktop/rack_place.h"

namespace flitch::desktop {

void RackPlace::showPhotos() {
  const std::optional<Board>& board = view_.board();
  view_.setPhotos(board ? laidPhotos(session_.book().read(), *board) : std::array<QImage, 2>{});
}

void RackPlace::keepPhotos(const QStringList& paths) {
  if (!view_.board()) return;
  const Board board = *view_.board();
  int kept = 0;
  session_.attempt([&] {
    std::vector<std::string> files;
    for (const QString& path : paths) files.push_back(path.toStdString());
    for (const pages::PhotoReading& read : pages::readPhotos(files)) {
      const std::string name = QFileInfo(q(read.reading.path)).fileName().toStdString();
      if (!read.reading.trouble.empty())
        throw Refusal("bad-photo", Complaint{name, read.reading.trouble, name, "JPEG or PNG"});
      Photo photo;
      photo.board = board.id;
      photo.takenOn = QDate::currentDate().toString(Qt::ISODate).toStdString();
      photo.fileName = name;
      photo.sha256 = read.sha256;
      photo.width = read.width;
      photo.height = read.height;
      desk::addPhoto(session_.book(), photo, read.jpeg, session_.hand());
      ++kept;
    }
  });
  if (kept > 0) {
    session_.look();
    emit said(QString(kept == 1 ? "%1 photo of %2 kept" : "%1 photos of %2 kept")
                  .arg(kept)
                  .arg(tagText(board)),
              false);
  }
}

void RackPlace::pullCorners(bool open) {
  pulling_ = false;
  if (open && view_.board()) {
    const store::Snapshot now = session_.book().read();
    const std::vector<Photo> photos = now.photos(view_.board()->id);
    if (!photos.empty()) {
      pulling_ = true;
      corners_.setPhoto(
          photos.back(),
          QImage::fromData(QByteArray::fromStdString(now.photoBytes(photos.back().id)), "JPEG"));
    }
  }
  lay();
  (pulling_ ? static_cast<QWidget*>(&corners_) : &view_)->setFocus(Qt::OtherFocusReason);
}

void RackPlace::keepCorners(PhotoId photo, Face face, const PhotoCorners& corners) {
  const bool done = session_.attempt(
      [&] { desk::placePhoto(session_.book(), photo, face, corners, session_.hand()); });
  if (!done) return;
  pullCorners(false);
  session_.look();
  emit said("The photo lies to scale under the marks", false);
}

std::vector<Board> RackPlace::shown() const {
  std::vector<Board> boards;
  for (int row = 0; row < model_.rowCount(); ++row) boards.push_back(model_.at(row));
  return boards;
}

void RackPlace::askToPrint(std::vector<Board> boards) {
  TagPrint print(session_, look_, std::move(boards), paper_, this);
  print.exec();
  paper_ = print.paper();
  if (print.printed()) emit said("The tags are printed", false);
}

void RackPlace::writeTags(const QString& path) {
  TagPrint print(session_, look_, shown(), paper_, this);
  print.writePdf(path);
  paper_ = print.paper();
  if (print.printed()) {
    emit said(QString("%1 tags written to %2").arg(model_.rowCount()).arg(path), false);
  }
}

}  // namespace flitch::desktop
