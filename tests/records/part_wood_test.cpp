#include "inventory/records/part_wood.h"

#include <catch2/catch.hpp>

#include "tests/records/bench.h"

using namespace flitch;
using bench::in;

namespace {

/// Wood Handbook ch. 13 (row MV01): white fir 9.15 in wide moves 0.067 in from 8 to 11 %.
constexpr Season handbook{8, 6, 11};

Part partOf(int line, Length width, const std::vector<std::string>& species) {
  Part part;
  part.line = line;
  part.length = in(24);
  part.width = width;
  part.thickness = in(1);
  part.species = species;
  return part;
}

}  // namespace

TEST_CASE("wide parts are those that move an 1/8 in over the year") {
  Job job;
  // 0.00245 x 5 points: 1/8 in is moved by 10.2 in.
  job.parts = {partOf(1, Length::micrometres(464'820), {"white fir"}),
               partOf(2, in(10), {"white fir"}), partOf(3, in(11), {"white fir"}),
               partOf(4, in(20), {"no such wood"})};
  const auto wide = movements(job, {}, handbook, Unit::inches);
  REQUIRE(wide.size() == 2);
  CHECK(wide[0].line == 1);
  CHECK(static_cast<double>(wide[0].toWettest.change.nm()) / 25.4e6 ==
        Approx(2 * 0.067).margin(0.001));
  CHECK(movementText(wide[0], Unit::inches) == "swells 5/32 in, shrinks 3/32 in");
  CHECK(yearlyMovement(wide[0], Unit::inches) == Length::sixtyFourths(16));  // 0.224 in
  // Half of each to an edge: 0.067 and 0.045.
  CHECK(wide[0].room.grows == Length::sixtyFourths(6));
  CHECK(wide[0].room.shrinks == Length::sixtyFourths(4));
  CHECK(wide[1].line == 3);
  CHECK(movementText(wide[1], Unit::millimetres) == "swells 2.5 mm, shrinks 1.5 mm");
}

TEST_CASE("a part of several species is taken at the one that moves most, own figures first") {
  Job job;
  job.parts = {partOf(1, in(20), {"cherry", "beech", "unknown"})};
  REQUIRE(movements(job, {}, handbook, Unit::inches).size() == 1);
  CHECK(movements(job, {}, handbook, Unit::inches)[0].species == "beech");
  Species own;
  own.name = "cherry";
  own.own = true;
  own.tangential = {500, false, "own calipers"};
  CHECK(movements(job, std::vector{own}, handbook, Unit::inches)[0].species == "cherry");
}

TEST_CASE("the finished piece weighs its parts at their moisture") {
  Job job;
  job.parts = {partOf(1, in(12), {"cherry"}), partOf(2, in(12), {"no such wood"})};
  job.parts[0].copies = 3;
  job.parts[0].spares = 2;
  // 2 board feet each; cherry 0.50 and a heavy wood 0.75 at 12 % (eq. 4-14: 1000 G 1.12).
  const double foot = 144 * 16.387064e-6;
  CHECK(finishedKilograms(job, {}, 12) == Approx(6 * foot * 560 + 2 * foot * 840).epsilon(1e-6));
  CHECK(finishedKilograms(job, {}, 8) < finishedKilograms(job, {}, 12));
  CHECK(finishedKilograms({}, {}, 8) == 0);
}
