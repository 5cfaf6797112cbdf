#include "inventory/store/photo_rows.h"

#include "inventory/store/board_rows.h"

namespace flitch::store {

namespace {

/// The newest corners that stand, joined; they name the face they are of.
const std::string photoColumns =
    "SELECT p.id, p.board, p.taken_on, p.file_name, p.sha256, p.width, p.height, "
    "coalesce(c.face, p.face), c.id, c.x1, c.y1, c.x2, c.y2, c.x3, c.y3, c.x4, c.y4 "
    "FROM photos p LEFT JOIN photo_corners c ON c.id = (SELECT max(id) FROM photo_corners n "
    "WHERE n.photo = p.id AND n.withdrawn = 0) WHERE p.withdrawn = 0 AND ";

Photo photoOf(Row& row) {
  Photo photo;
  row >> photo.id >> photo.board >> photo.takenOn >> photo.fileName >> photo.sha256 >>
      photo.width >> photo.height;
  photo.face = row.next<std::optional<Face>>();
  if (!row.next<std::optional<std::int64_t>>()) return photo;
  PhotoCorners corners;
  for (PhotoPoint& corner : corners) row >> corner.x >> corner.y;
  photo.corners = corners;
  return photo;
}

}  // namespace

std::vector<Photo> readPhotos(Database& database, BoardId board) {
  std::vector<Photo> photos;
  database.each(
      photoColumns + "p.board = ? ORDER BY p.id", [&](Row& row) { photos.push_back(photoOf(row)); },
      board);
  return photos;
}

std::optional<Photo> readPhoto(Database& database, PhotoId id) {
  std::optional<Photo> photo;
  database.each(
      photoColumns + "p.id = ?", [&](Row& row) { photo = photoOf(row); }, id);
  return photo;
}

std::string readPhotoBytes(Database& database, PhotoId id) {
  const auto bytes =
      database.maybe<Bytes>("SELECT jpeg FROM photos WHERE id = ? AND withdrawn = 0", id);
  return bytes ? bytes->value : std::string();
}

PhotoId photoOfFile(Database& database, const std::string& sha256) {
  return database
      .maybe<PhotoId>("SELECT min(id) FROM photos WHERE sha256 = ? AND withdrawn = 0", sha256)
      .value_or(PhotoId());
}

PhotoId insertPhoto(Database& database, const Photo& photo, const std::string& jpeg,
                    EntryId entry) {
  const PhotoId id{nextNumber(database, "photo")};
  database.run(
      "INSERT INTO photos (id, board, face, taken_on, file_name, sha256, width, height, jpeg, "
      "version) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      id, photo.board, photo.face, photo.takenOn, photo.fileName, photo.sha256, photo.width,
      photo.height, Bytes{jpeg}, entry);
  return id;
}

std::int64_t insertCorners(Database& database, PhotoId photo, Face face,
                           const PhotoCorners& corners, EntryId entry) {
  const std::int64_t id = nextNumber(database, "photo corners");
  database.run(
      "INSERT INTO photo_corners (id, photo, face, x1, y1, x2, y2, x3, y3, x4, y4, version) "
      "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
      id, photo, face, corners[0].x, corners[0].y, corners[1].x, corners[1].y, corners[2].x,
      corners[2].y, corners[3].x, corners[3].y, entry);
  return id;
}

}  // namespace flitch::store
