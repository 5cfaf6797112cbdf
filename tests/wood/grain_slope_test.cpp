#include "inventory/wood/grain_slope.h"

#include <catch2/catch.hpp>

#include "inventory/wood/unreadable.h"

using namespace flitch;

TEST_CASE("a slope of the grain is read as it is said and told again") {
  CHECK(parseGrainSlope("1 in 12") == GrainSlope{120});
  CHECK(parseGrainSlope(" 1 IN 12.5 ") == GrainSlope{125});
  CHECK(parseGrainSlope("1:15") == GrainSlope{150});
  CHECK(parseGrainSlope("20") == GrainSlope{200});
  CHECK(parseGrainSlope("straight") == GrainSlope{});
  for (const int tenths : {0, 10, 15, 120, 125, 10'000}) {
    CHECK(parseGrainSlope(text(GrainSlope{tenths})) == GrainSlope{tenths});
  }
  for (const char* bad : {"", "1 in", "1 in 0", "0.9", "1 in 1000.1", "1001", "2 in 12", "12.55",
                          "-3", "1 in twelve", "12 in"}) {
    CAPTURE(bad);
    CHECK_THROWS_AS(parseGrainSlope(bad), Unreadable);
  }
}

TEST_CASE("the shorter its run the steeper the grain, and straight is steeper than nothing") {
  CHECK(steeper(GrainSlope{119}, GrainSlope{120}));
  CHECK_FALSE(steeper(GrainSlope{120}, GrainSlope{120}));
  CHECK_FALSE(steeper(GrainSlope{200}, GrainSlope{120}));
  CHECK_FALSE(steeper(GrainSlope{}, GrainSlope{120}));
  CHECK(steeper(GrainSlope{200}, GrainSlope{}));
  CHECK_FALSE(steeper(GrainSlope{}, GrainSlope{}));
}
