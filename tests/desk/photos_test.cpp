#include "inventory/desk/photos.h"

#include <catch2/catch.hpp>
#include <functional>

#include "inventory/desk/saw.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;

namespace {

std::vector<Board> boardsOf(sample::Shop& shop) {
  return shop
      .receive({sample::plank(Length::inches(96), Length::inches(8)),
                sample::plank(Length::inches(84), Length::inches(6))})
      .boards;
}

Photo photoOf(BoardId board) {
  Photo photo;
  photo.board = board;
  photo.face = Face::a;
  photo.takenOn = "2026-05-31";
  photo.fileName = "bench.jpg";
  photo.sha256 = "00ff";
  photo.width = 2400;
  photo.height = 1000;
  return photo;
}

constexpr PhotoCorners corners{
    {{100'000, 900'000}, {2'000'000, 880'000}, {1'990'000, 300'000}, {110'000, 280'000}}};

std::string codeOf(const std::function<void()>& work) {
  try {
    work();
  } catch (const Refusal& refusal) {
    return refusal.code();
  }
  return "";
}

}  // namespace

TEST_CASE("a photo is kept with its bytes, placed, and both are undone in turn") {
  sample::Shop shop;
  const Board board = boardsOf(shop).front();
  const std::string jpeg("\xff\xd8\0picture\xff\xd9", 12);
  const desk::PhotoAdded added = desk::addPhoto(shop.book, photoOf(board.id), jpeg, shop.hand);
  REQUIRE(shop.book.read().photos(board.id).size() == 1);
  CHECK(shop.book.read().photoBytes(added.photo) == jpeg);
  CHECK_FALSE(shop.book.read().photos(board.id)[0].corners);
  CHECK(codeOf([&] { desk::addPhoto(shop.book, photoOf(board.id), jpeg, shop.hand); }) ==
        "photo-known");
  CHECK(codeOf([&] { desk::placePhoto(shop.book, added.photo, Face::b, corners, shop.hand); }) ==
        "bad-corners");
  desk::placePhoto(shop.book, added.photo, Face::a, corners, shop.hand);
  CHECK(shop.book.read().photos(board.id)[0].corners == corners);
  desk::undo(shop.book, shop.hand);
  CHECK_FALSE(shop.book.read().photos(board.id)[0].corners);
  desk::undo(shop.book, shop.hand);
  CHECK(shop.book.read().photos(board.id).empty());
  CHECK(shop.book.read().photoBytes(added.photo).empty());
  CHECK(shop.faults() == "");
}

TEST_CASE("a photo without bytes, twice the same, or of no photo is refused") {
  sample::Shop shop;
  const BoardId board = boardsOf(shop).front().id;
  CHECK(codeOf([&] { desk::addPhoto(shop.book, photoOf(board), "", shop.hand); }) == "bad-photo");
  CHECK(codeOf([&] { desk::placePhoto(shop.book, PhotoId{7}, Face::a, corners, shop.hand); }) ==
        "unknown-photo");
  CHECK(shop.book.read().photos(board).empty());
}

TEST_CASE("the only tag seen in a photo says which board it is of") {
  sample::Shop shop;
  const std::vector<Board> rack = boardsOf(shop);
  REQUIRE(rack.size() >= 2);
  const std::string one = symbolText(*rack[0].tag), two = symbolText(*rack[1].tag);
  const store::Snapshot now = shop.book.read();
  CHECK(desk::boardSeen(now, {"http://example.org", one, one}).id == rack[0].id);
  CHECK(codeOf([&] { (void)desk::boardSeen(now, {one, two}); }) == "many-tags-seen");
  CHECK(codeOf([&] { (void)desk::boardSeen(now, {"T9999", "B0003X"}); }) == "no-tag-seen");
}
