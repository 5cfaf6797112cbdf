#include "inventory/records/photo.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/records/refusal.h"

using namespace flitch;

namespace {

/// Tag end left, near edge at the foot: face A as it lies before the camera.
constexpr PhotoCorners faceA{
    {{100'000, 900'000}, {2'000'000, 880'000}, {1'990'000, 300'000}, {110'000, 280'000}}};

bool taken(const PhotoCorners& corners, Face face) {
  try {
    validate(corners, face, 2400, 1000);
    return true;
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "bad-corners");
    return false;
  }
}

}  // namespace

TEST_CASE("corners on a photo go round the face as it is seen") {
  CHECK(taken(faceA, Face::a));
  CHECK_FALSE(taken(faceA, Face::b));
  PhotoCorners faceB = faceA;
  std::swap(faceB[0], faceB[3]);
  std::swap(faceB[1], faceB[2]);
  CHECK(taken(faceB, Face::b));
  CHECK_FALSE(taken(faceB, Face::a));
  // However the camera was turned, it is the same board.
  PhotoCorners turned;
  for (std::size_t i = 0; i < 4; ++i) turned[i] = {faceA[i].y, 1'000'000 - faceA[i].x / 3};
  CHECK(taken(turned, Face::a));
}

TEST_CASE("corners off the photo, crossed or on one line are refused") {
  PhotoCorners corners = faceA;
  corners[1].x = 2'400'001;
  CHECK_FALSE(taken(corners, Face::a));
  corners = faceA;
  std::swap(corners[1], corners[2]);
  CHECK_FALSE(taken(corners, Face::a));
  CHECK_FALSE(taken(corners, Face::b));
  corners = faceA;
  corners[2] = {1'050'000, 890'000};  // on the near edge
  CHECK_FALSE(taken(corners, Face::a));
  corners.fill({5, 5});
  CHECK_FALSE(taken(corners, Face::a));
}
