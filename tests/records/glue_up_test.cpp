#include "inventory/records/glue_up.h"

#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;

// Every 6 to 8 in: common practice, no source.
TEST_CASE("joints are marked 3 in from their ends and every 6 to 8 in between") {
  // 24 in: 18 between, three steps of 6. 53 in: 47, seven steps of 6 5/7.
  CHECK(alignmentMarks(in(24), Unit::inches) == std::vector{in(3), in(9), in(15), in(21)});
  CHECK(alignmentMarks(in(53), Unit::inches).size() == 8);
  CHECK(alignmentMarks(in(7), Unit::inches) == std::vector{in(3, 32)});
  for (int length = 24; length < 200; ++length) {
    const std::vector<Length> marks = alignmentMarks(in(length), Unit::inches);
    INFO(length);
    CHECK(marks[1] - marks[0] >= in(6));
    CHECK(marks[1] - marks[0] <= in(8));
    CHECK(marks.back() == in(length)-in(3));
  }
}

TEST_CASE("clamps stand no more than 10 in apart, one near each end") {
  for (int length = 4; length < 120; ++length) {
    const std::vector<Length> clamps = clampPlaces(in(length), Unit::inches);
    INFO(length);
    REQUIRE(clamps.size() >= 2);
    CHECK(clamps[1] - clamps[0] <= in(10));
    CHECK(clamps.front() <= in(3));
  }
}
