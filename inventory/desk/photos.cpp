#include "inventory/desk/photos.h"

#include <algorithm>

#include "inventory/desk/names.h"
#include "inventory/desk/rack_work.h"
#include "inventory/store/writer.h"

namespace flitch::desk {

namespace {

/// As scaled down by the reader a photo takes well under a tenth of it.
constexpr std::size_t mostBytes = 8'000'000;

}  // namespace

Board boardSeen(const store::Snapshot& snapshot, const std::vector<std::string>& codes) {
  std::vector<Board> boards;
  for (const std::string& code : codes) {
    const TagReading reading = readTag(code);
    if (reading.verdict != TagReading::Verdict::right || reading.code.kind != TagKind::board) {
      continue;
    }
    const std::optional<Board> board = snapshot.boardByTag(reading.code);
    const bool another =
        board && std::none_of(boards.begin(), boards.end(),
                              [&](const Board& other) { return other.id == board->id; });
    if (another) boards.push_back(*board);
  }
  if (boards.size() == 1) return boards.front();
  std::string tags;
  for (const Board& board : boards) tags += (tags.empty() ? "" : ", ") + tagOf(board);
  if (boards.empty()) {
    throw Refusal("no-tag-seen",
                  Complaint{"", "no tag of a board of this book is seen in the photo", "",
                            "a photo with the tag on it, or name the board"});
  }
  throw Refusal("many-tags-seen",
                Complaint{"", "tags of several boards are seen in the photo: " + tags, tags,
                          "a photo with one tag on it, or name the board"});
}

PhotoAdded addPhoto(store::Book& book, const Photo& photo, const std::string& jpeg,
                    const store::Hand& hand) {
  const store::Snapshot now = book.read();
  if (const PhotoId same = now.photoOfFile(photo.sha256); same) {
    const Board board = now.board(now.photo(same).value().board).value();
    throw Refusal("photo-known",
                  Complaint{photo.fileName, "this photo is in the book already, of " + tagOf(board),
                            tagOf(board), "another photo"});
  }
  if (jpeg.empty() || jpeg.size() > mostBytes) {
    throw Refusal("bad-photo", Complaint{photo.fileName, "a photo of this size is not kept",
                                         std::to_string(jpeg.size()) + " bytes", "up to 8 MB"});
  }
  const Board board = now.board(photo.board).value();
  PhotoAdded added;
  added.entry =
      book.change({"photo added", {}, tagOf(board) + ", " + photo.fileName, {}}, hand,
                  [&](store::Writer& writer) { added.photo = writer.addPhoto(photo, jpeg); });
  return added;
}

EntryId placePhoto(store::Book& book, PhotoId photo, Face face, const PhotoCorners& corners,
                   const store::Hand& hand) {
  const store::Snapshot now = book.read();
  const std::optional<Photo> known = now.photo(photo);
  if (!known) {
    const std::string number = std::to_string(photo.value);
    throw Refusal("unknown-photo", Complaint{"", "there is no photo " + number, number,
                                             "a number that flitch photo --of TAG lists"});
  }
  validate(corners, face, known->width, known->height);
  const std::string tag = tagOf(now.board(known->board).value());
  return book.change({"photo placed", {}, tag + ", face " + (face == Face::a ? "A" : "B"), {}},
                     hand, [&](store::Writer& writer) { writer.placePhoto(photo, face, corners); });
}

}  // namespace flitch::desk
