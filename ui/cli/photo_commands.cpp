#include <QDir>
#include <QFileInfo>
#include <QImage>
#include <algorithm>
#include <charconv>
#include <chrono>
#include <cmath>
#include <csignal>
#include <iostream>
#include <optional>
#include <sstream>
#include <thread>

#include "inventory/desk/names.h"
#include "inventory/desk/photos.h"
#include "inventory/wood/unreadable.h"
#include "labels/photo.h"
#include "labels/photo_folder.h"
#include "labels/picture_reader.h"
#include "ui/cli/commands.h"
#include "ui/cli/reading.h"

namespace flitch::cli {
namespace {

volatile std::sig_atomic_t watchEnds = 0;

std::optional<Face> faceOf(const std::string& word) {
  if (word.empty()) return std::nullopt;
  return word == "A" ? Face::a : Face::b;
}

std::string fileName(const std::string& path) {
  return QFileInfo(QString::fromStdString(path)).fileName().toStdString();
}

/// Takes one photo in; returns its line. Throws Refusal with what is wrong with it.
std::string take(store::Book& book, const pages::PhotoReading& read, const Photos& command,
                 const Session& session) {
  if (!read.reading.trouble.empty()) {
    throw Refusal("bad-photo", Complaint{"", read.reading.trouble, read.reading.path,
                                         "a whole JPEG or PNG picture"});
  }
  const store::Snapshot now = book.read();
  std::vector<std::string> codes;
  for (const pages::Found& found : read.reading.found) codes.push_back(found.text);
  const Board board = command.board.empty() ? desk::boardSeen(now, codes)
                                            : desk::boardToChange(now, command.board, session.sure,
                                                                  book.facts().unit);
  Photo photo;
  photo.board = board.id;
  photo.face = faceOf(command.face);
  photo.takenOn = dayOf(command.on);
  photo.fileName = fileName(read.reading.path);
  photo.sha256 = read.sha256;
  photo.width = read.width;
  photo.height = read.height;
  const desk::PhotoAdded added = desk::addPhoto(book, photo, read.jpeg, session.hand);
  return "Photo " + std::to_string(added.photo.value) + " of " + board.tagText() + ": " +
         photo.fileName;
}

/// Each photo stands for itself: one that is refused is told and the next is taken.
void takeAll(store::Book& book, const std::vector<std::string>& paths, const Photos& command,
             const Session& session, Answer& answer, Table& taken) {
  for (const pages::PhotoReading& read : pages::readPhotos(paths)) {
    try {
      const std::string line = take(book, read, command, session);
      answer.say(line);
      taken.rows.push_back({fileName(read.reading.path), line});
    } catch (const Refusal& refusal) {
      answer.warn(fileName(read.reading.path) + ": " + refusal.complaints().front().sentence);
      answer.exitCode = 1;
    }
  }
}

/// Until Ctrl+C; what is taken is said at once, since nobody waits for the end.
void watch(store::Book& book, const Photos& command, const Session& session, Answer& answer,
           Table& taken) {
  pages::PhotoFolder folder(command.folder);
  if (command.once) return takeAll(book, folder.lookOnce(), command, session, answer, taken);
  std::signal(SIGINT, [](int) { watchEnds = 1; });
  while (watchEnds == 0) {
    Answer now = answerOf(book);
    takeAll(book, folder.look(), command, session, now, taken);
    std::cout << now.text() << std::flush;
    for (const std::string& line : now.warnings()) std::cerr << line << "\n";
    std::this_thread::sleep_for(std::chrono::milliseconds(500));
  }
}

/// "120" or "120.5" as thousandths of a pixel.
std::int64_t pixels(const std::string& figure) {
  double value = -1;
  const auto [end, error] = std::from_chars(figure.data(), figure.data() + figure.size(), value);
  if (error != std::errc() || end != figure.data() + figure.size() || value < 0 || value > 1e6)
    throw Unreadable("`" + figure + "` is no place on a photo", figure, "120,940");
  return std::llround(value * 1000);
}

/// "120,940 2200,930 2210,520 118,530".
PhotoCorners cornersOf(const std::string& written) {
  return argument("--corners", [&] {
    const auto refuse = [&] {
      throw Unreadable("`" + written + "` is not four places", written,
                       "120,940 2200,930 2210,520 118,530");
    };
    PhotoCorners corners;
    std::istringstream words(written);
    std::string word;
    std::size_t n = 0;
    while (words >> word) {
      const std::size_t comma = word.find(',');
      if (n == corners.size() || comma == std::string::npos) refuse();
      corners[n++] = {pixels(word.substr(0, comma)), pixels(word.substr(comma + 1))};
    }
    if (n != corners.size()) refuse();
    return corners;
  });
}

/// A placed photo at 12 pixels an inch of board, others as they are.
QImage shown(const store::Snapshot& now, const Photo& photo, const Board& board) {
  const QImage image =
      QImage::fromData(QByteArray::fromStdString(now.photoBytes(photo.id)), "JPEG");
  if (!photo.corners || !photo.face) return image;
  const Rect all = boundsOf(board);
  const auto dots = [](Length length) {
    return std::max(1,
                    static_cast<int>(std::lround(static_cast<double>(length.nm()) * 12 / 25.4e6)));
  };
  return pages::rectified(image, *photo.corners, *photo.face, {dots(all.dx), dots(all.dy)});
}

void save(const QImage& image, const std::string& folder, PhotoId id) {
  const QDir dir(QString::fromStdString(folder));
  const QString file = dir.filePath(QString("photo-%1.jpg").arg(id.value));
  if (QDir().mkpath(dir.path()) && image.save(file, "JPEG", 90)) return;
  throw Refusal("cannot-write", Complaint{"--save", "the picture cannot be written",
                                          file.toStdString(), "a folder to write in"});
}

Answer list(const Photos& command, const Session& session) {
  const store::Book book = session.toRead();
  const store::Snapshot now = book.read();
  const Board board = desk::boardNamed(now, command.board);
  Answer answer = answerOf(book);
  Table table;
  table.columns = {{"number", "number", true}, {"board", "board", false}, {"face", "face", false},
                   {"taken", "taken", false},  {"size", "pixels", false}, {"placed", "lies", false},
                   {"file", "file", false}};
  // What was taken of the boards it was sawn from shows the same wood.
  for (std::optional<Board> of = board; of; of = of->parent ? now.board(of->parent) : std::nullopt)
    for (const Photo& photo : now.photos(of->id)) {
      const std::string face = !photo.face ? "" : *photo.face == Face::a ? "A" : "B";
      table.rows.push_back({photo.id.value, of->tagText() + (of->id == board.id ? "" : ", sawn"),
                            face, photo.takenOn,
                            std::to_string(photo.width) + " × " + std::to_string(photo.height),
                            std::string(photo.corners ? "to scale" : ""), photo.fileName});
      if (!command.save.empty()) save(shown(now, photo, *of), command.save, photo.id);
    }
  answer.put("board", board.tagText());
  if (table.rows.empty()) answer.say("There is no photo of " + board.tagText() + ".");
  if (table.rows.empty()) {
    answer.put("photos", table);
  } else {
    answer.show("photos", table);
  }
  return answer;
}

Answer place(const Photos& command, const Session& session) {
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  const EntryId entry = desk::placePhoto(book, PhotoId{command.number}, *faceOf(command.face),
                                         cornersOf(command.corners), session.hand);
  answer.say("Photo " + std::to_string(command.number) + " lies to scale on face " + command.face +
             ".");
  answer.put("entry", entry.value);
  return answer;
}

}  // namespace

Answer run(const Photos& command, const Session& session) {
  if (command.what == Photos::What::list) return list(command, session);
  if (command.what == Photos::What::place) return place(command, session);
  store::Book book = session.toWrite();
  Answer answer = answerOf(book);
  Table taken;
  taken.columns = {{"file", "file", false}, {"photo", "photo", false}};
  if (command.what == Photos::What::watch) {
    watch(book, command, session, answer, taken);
  } else {
    takeAll(book, command.files, command, session, answer, taken);
  }
  answer.put("photos", taken);
  return answer;
}

}  // namespace flitch::cli
