#include "inventory/wood/air.h"

#include <catch2/catch.hpp>

#include "inventory/wood/unreadable.h"

using namespace flitch;

TEST_CASE("temperatures as written") {
  for (const char* written : {"70F", "70 f",
                              " 70 \xC2\xB0"
                              "F",
                              "21.1 C"}) {
    CAPTURE(written);
    CHECK(parseCelsius(written, Unit::inches) == Approx(21.1).margin(0.02));
  }
  CHECK(parseCelsius("70", Unit::inches) == Approx(21.11).margin(0.01));
  CHECK(parseCelsius("21", Unit::millimetres) == 21);
  CHECK(parseCelsius("-4F", Unit::millimetres) == Approx(-20));
  CHECK(parseCelsius("135 C", Unit::inches) == 135);
  const std::string bad =
      GENERATE("", "F", "warm", "70 K", "70 F 50", "-5F", "276 F", "136C", "1e1", "nan", "70,5 F");
  CHECK_THROWS_AS(parseCelsius(bad, Unit::inches), Unreadable);
}

TEST_CASE("air as written") {
  for (const char* written : {"20 C 65 %", "20C, 65", "68F 65%", "68, 65"}) {
    CAPTURE(written);
    const Air air = parseAir(written, Unit::inches);
    CHECK(air.celsius == Approx(20).margin(0.01));
    CHECK(air.humidity == 65);
  }
  CHECK(parseAir("20 65", Unit::millimetres).celsius == 20);
  const std::string bad = GENERATE("", "20 C", "20 C damp", "20 C 101", "20 C -1", "20 C 50 % 3");
  CHECK_THROWS_AS(parseAir(bad, Unit::inches), Unreadable);
}

TEST_CASE("air as shown, and read back") {
  CHECK(temperatureText(21.11, Unit::inches) == "70 F");
  CHECK(temperatureText(-0.4, Unit::millimetres) ==
        "0 \xC2\xB0"
        "C");
  CHECK(airText({20, 65}, Unit::inches) == "68 F, 65 %");
  CHECK(percentText(8) == "8 %");
  CHECK(percentText(9.24) == "9.2 %");
  for (const Unit unit : {Unit::inches, Unit::millimetres}) {
    const Air air = parseAir(airText({21, 35}, unit), unit);
    CHECK(air.celsius == Approx(21).margin(0.3));
    CHECK(air.humidity == 35);
  }
}
