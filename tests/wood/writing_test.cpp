#include "inventory/wood/writing.h"

#include <catch2/catch.hpp>
#include <limits>
#include <stdexcept>

using namespace flitch;

TEST_CASE("typographic signs come down to the typewriter's") {
  CHECK(plain("  10\xE2\x80\xB2  6\xC2\xBD\xE2\x80\xB3 ") == "10' 6 1/2\"");
  CHECK(plain("6''") == "6\"");
  CHECK(plain("A\tB\nC") == "a b c");
  CHECK(plain("\xE2\x88\x92"
              "3") == "-3");
  CHECK(plain("m\xC3\xBCller") == "m\xC3\xBCller");
  CHECK(plain("").empty());
}

TEST_CASE("a value in a message is short and on one line") {
  CHECK(inBackticks("7 3/") == "`7 3/`");
  CHECK(shortened("a\nb\tc") == "a b c");
  const std::string longText(61, 'x');
  CHECK(shortened(longText) == std::string(60, 'x') + "\xE2\x80\xA6");
  CHECK(shortened(std::string(60, 'x')) == std::string(60, 'x'));
  // Cut between characters, never inside one.
  std::string accents;
  for (int i = 0; i < 70; ++i) accents += "\xC3\xA9";
  CHECK(shortened(accents).size() == 60 * 2 + 3);
}

TEST_CASE("outer blanks go, also those that do not break") {
  CHECK(trimmed("\xC2\xA0 a b \xC2\xA0\t") == "a b");
  CHECK(trimmed(" ").empty());
}

TEST_CASE("decimals without trailing zeros") {
  CHECK(decimal(7375, 3, "-") == "7.375");
  CHECK(decimal(7000, 3, "-") == "7");
  CHECK(decimal(-5, 3, "-") == "-0.005");
  CHECK(decimal(0, 3, "-") == "0");
  CHECK(decimal(100, 0, "-") == "100");
  CHECK(decimal(std::numeric_limits<std::int64_t>::min(), 0, "-") == "-9223372036854775808");
}

TEST_CASE("the nearest whole number, halves up") {
  CHECK(nearest(5, 2) == 3);
  CHECK(nearest(-5, 2) == -2);
  CHECK(nearest(-7, 2) == -3);
  CHECK(nearest(7, 3) == 2);
  CHECK(nearest(8, 3) == 3);
  CHECK(narrow(std::numeric_limits<std::int64_t>::max()) ==
        std::numeric_limits<std::int64_t>::max());
  CHECK_THROWS_AS(narrow(static_cast<Wide>(std::numeric_limits<std::int64_t>::max()) + 1),
                  std::overflow_error);
}
