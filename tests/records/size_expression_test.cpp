#include "inventory/records/size_expression.h"

#include <catch2/catch.hpp>

#include "inventory/wood/unreadable.h"

using namespace flitch;
using Catch::Contains;

namespace {

/// width 24 in, stile 2 1/2 in, rail 60 mm, 3 drawers.
Quantities known() {
  Quantities all;
  all["width"] = namedQuantity("24", Bare::inches, {});
  all["stile"] = namedQuantity("2 1/2", Bare::inches, all);
  all["rail"] = namedQuantity("60 mm", Bare::inches, all);
  all["drawers"] = namedQuantity("3 pcs", Bare::inches, all);
  return all;
}

std::string comesTo(const std::string& expression, Bare bare = Bare::inches) {
  const Length size = lengthOf(evaluate(expression, bare, known()), expression, bare);
  return exactText(size);
}

std::string refused(const std::string& expression) {
  try {
    return comesTo(expression);
  } catch (const Unreadable& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("arithmetic over named sizes, each worked by hand") {
  CHECK(comesTo("width - 2*stile") == "19 in");
  CHECK(comesTo("(width - 2*stile)/2") == "9 1/2 in");
  CHECK(comesTo("width/drawers") == "8 in");
  // 24 less two gaps of 1/2 in, in three: 23/3 in, which is 194.7333... mm and no 64th.
  CHECK(comesTo("(width - (drawers - 1)*1/2)/drawers") == "194.733333 mm");
  CHECK(comesTo("width + 3/4") == "24 3/4 in");
  CHECK(comesTo("3/4 in + stile") == "3 1/4 in");
  CHECK(comesTo("stile - -1 1/2") == "4 in");
  CHECK(comesTo("WIDTH*1.5") == "36 in");
  CHECK(comesTo("2 * 3") == "6 in");
  CHECK(comesTo("1' + 1\"") == "13 in");
  CHECK(comesTo("10 cm - 5 mm") == "95 mm");
  CHECK(comesTo("2*rail") == "120 mm");
  CHECK(comesTo("rail + 5", Bare::millimetres) == "65 mm");
  CHECK(comesTo("rail/rail", Bare::millimetres) == "1 mm");
}

TEST_CASE("an exact third is kept until the end: three of them make the whole") {
  CHECK(comesTo("width/7*7") == "24 in");
  CHECK(comesTo("1/3 + 1/3 + 1/3 + stile - stile") == "1 in");
}

TEST_CASE("what has no meaning is named") {
  CHECK_THAT(refused("width*stile"), Contains("a length by a length"));
  CHECK_THAT(refused("2/width"), Contains("a number by a length"));
  CHECK_THAT(refused("width - 24"), Contains("nothing or less"));
  CHECK_THAT(refused("stile - width"), Contains("nothing or less"));
  CHECK_THAT(refused("width/(stile - stile)"), Contains("divides by nothing"));
  CHECK_THAT(refused("height/2"), Contains("names height"));
  CHECK_THAT(refused("(width - 1"), Contains("does not close"));
  CHECK_THAT(refused("width -"), Contains("ends before"));
  CHECK_THAT(refused("width 3"), Contains("from `3`"));
  CHECK_THAT(refused("width + 1-1/2"), Contains("write 1 1/2 or 1 - 1/2"));
  CHECK_THAT(refused("width*9999999"), Contains("more than 100 m"));
  std::string huge = "1";
  for (int i = 0; i < 20; ++i) huge += "*999999999";
  CHECK_THAT(refused(huge), Contains("too large"));
}

TEST_CASE("names are found in order, and plain sizes are no arithmetic") {
  CHECK(namesIn("b - 2*a + b/(c)") == std::vector<std::string>{"b", "a", "c"});
  CHECK(namesIn("a/a2") == std::vector<std::string>{"a", "a2"});
  CHECK_THROWS_AS(namesIn("37 1/2 1/2"), Unreadable);
  for (const char* plainSize : {"37 1/2", "952.5 mm", "3' 1-1/2\"", "10 ft 6 in", "1.2m"}) {
    INFO(plainSize);
    CHECK_FALSE(isArithmetic(plainSize));
  }
  CHECK(isArithmetic("width"));
  CHECK(isArithmetic("2*3"));
  CHECK(isSizeName("rail_2"));
  CHECK_FALSE(isSizeName("mm"));
  CHECK_FALSE(isSizeName("2nd"));
}
