#include "inventory/planning/sizes.h"

#include <catch2/catch.hpp>

using namespace flitch;
using Catch::Contains;

namespace {

Job door(const std::vector<NamedSize>& sizes, const std::string& length, const std::string& width) {
  Job job;
  job.name = "Door";
  job.sizes = sizes;
  Part rail;
  rail.name = "rail";
  rail.line = 1;
  rail.thickness = Length::sixtyFourths(48);
  rail.typed = {length, width, ""};
  job.parts = {rail};
  return job;
}

std::string refused(Job job, Unit unit = Unit::inches) {
  try {
    planning::resolveSizes(job, unit);
  } catch (const Refusal& refusal) {
    CHECK(refusal.code() == "bad-size");
    return refusal.what();
  }
  return "taken";
}

}  // namespace

TEST_CASE("sizes are worked out after those they name, in whatever order they stand") {
  // stile = 5/2 = 2 1/2, opening = 24 - 2 x 2 1/2 = 19, rail = 19 + 2 x 3/8 = 19 3/4.
  Job job = door({{"opening", "width - 2*stile", {}},
                  {"stile", "heavy/2", {}},
                  {"width", "24", {}},
                  {"heavy", "5", {}}},
                 "opening + 2*3/8", "stile");
  planning::resolveSizes(job, Unit::inches);
  CHECK(job.parts[0].length == Length::sixtyFourths(19 * 64 + 48));
  CHECK(job.parts[0].width == Length::sixtyFourths(160));
  CHECK(job.parts[0].thickness == Length::sixtyFourths(48));
  CHECK(job.sizes[0].value == Length::inches(19));
}

TEST_CASE("a circle of sizes is named with all that stand in it, and no other") {
  const std::string said = refused(
      door({{"a", "b + 1", {}}, {"b", "c*2", {}}, {"c", "a - 1", {}}, {"d", "a", {}}}, "a", "4"));
  CHECK_THAT(said, Contains("in a circle"));
  CHECK_THAT(said, Contains("a = b + 1") && Contains("b = c*2") && Contains("c = a - 1"));
  CHECK_THAT(said, !Contains("d = a"));
  CHECK_THAT(refused(door({{"a", "a/2", {}}}, "a", "4")), Contains("in a circle: a = a/2"));
}

TEST_CASE("all that is wrong is said at once, with part and column") {
  const std::string said = refused(door({{"width", "24", {}}}, "hight - 2", "width*width"));
  CHECK_THAT(said, Contains("rail, length") && Contains("hight"));
  CHECK_THAT(said, Contains("rail, width") && Contains("a length by a length"));
  CHECK_THAT(refused(door({{"in", "24", {}}}, "3*2", "4")), Contains("no name of a size"));
  CHECK_THAT(refused(door({{"w", "24", {}}, {"w", "25", {}}}, "w", "w")), Contains("twice"));
  CHECK_THAT(refused(door({{"w", "800", {}}}, "w", "4+1")), Contains("720 in at most"));
}
