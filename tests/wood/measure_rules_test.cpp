#include <catch2/catch.hpp>

#include "inventory/wood/measure.h"
#include "tests/wood/published.h"

using namespace flitch;

// Rows of board_measure_rules.csv, by their names; each gives its source.

namespace {

Length inches(double n) { return Length::nanometres(static_cast<std::int64_t>(n * 25'400'000)); }

int surface(Length width, Length length, Half half = Half::up) {
  return surfaceMeasure(width, length, half).value;
}

PublishedRow rule(const std::string& item) {
  for (const PublishedRow& row : published("board_measure_rules.csv")) {
    if (row.at("item") == item) return row;
  }
  FAIL(item);
  return {};
}

}  // namespace

TEST_CASE("a board foot is 1 in x 12 in x 12 in: US Navy Engineering Aid Basic ch. 6 (S)") {
  // board_foot_definition: 144 cubic inches.
  CHECK(std::stoi(rule("board_foot_definition").at("value")) == 1 * 12 * 12);
  CHECK(volumeTally(Nominal::quarters(4), inches(12), inches(12)) == Feet{1000});
  const std::int64_t cubicInches = std::stoi(rule("board_foot_definition").at("value"));
  for (const int inch : {1, 2, 3, 4}) {
    CHECK(feetOf(volume(rectangle(inches(12), inches(12)), rectangle(inches(12), inches(12)),
                        inches(inch))) == Feet{1000 * inch * 144 / cubicInches});
  }
}

TEST_CASE("board feet are W in x L ft x T in / 12: AHEC, Measurement page (S)") {
  // board_foot_formula, against the count by volume for whole sizes.
  for (const int quarters : {4, 5, 6, 8, 12, 16}) {
    for (int width = 3; width <= 14; ++width) {
      for (int feet = 4; feet <= 16; ++feet) {
        const double printed = width * feet * (quarters / 4.0) / 12;
        const Feet counted =
            volumeTally(Nominal::quarters(quarters), inches(width), Length::feet(feet));
        if (std::abs(static_cast<double>(counted.thousandths) - 1000 * printed) > 0.5 + 1e-9) {
          FAIL(quarters << "/4, " << width << " in, " << feet << " ft");
        }
      }
    }
  }
}

TEST_CASE("stock under an inch counts as an inch: US Navy Engineering Aid Basic ch. 6 (S)") {
  // thickness_below_1_in, in every way of counting.
  for (const int quarters : {1, 2, 3}) {
    const Nominal thin = Nominal::quarters(quarters), inch = Nominal::quarters(4);
    CHECK(volumeTally(thin, inches(6), Length::feet(8)) ==
          volumeTally(inch, inches(6), Length::feet(8)));
    CHECK(surfaceTally({4, Half::none}, thin) == surfaceTally({4, Half::none}, inch));
    CHECK(packTally(40, thin) == packTally(40, inch));
  }
  CHECK(volumeTally(Nominal::quarters(5), inches(6), Length::feet(8)) == Feet{5000});
}

TEST_CASE("surface measure: AHEC, Measurement page (S)") {
  SECTION("surface_measure_formula: W with its fraction x whole feet / 12") {
    CHECK(surface(inches(6.25), Length::feet(8)) == 4);            // 4.17
    CHECK(surface(inches(9.125), Length::feet(10)) == 8);          // 7.60: the fraction counts
    CHECK(surface(inches(9), Length::feet(10), Half::down) == 7);  // 7.5
  }
  SECTION("surface_measure_rounding: per board, before the thickness is counted") {
    // 7.6 square feet of 8/4 are 16 board feet, not 15.2.
    CHECK(surfaceTally(surfaceMeasure(inches(9.125), Length::feet(10), Half::up),
                       Nominal::quarters(8)) == Feet{16'000});
  }
  SECTION("length_rounding: cut down to whole feet, never up") {
    for (int inch = 96; inch < 108; ++inch) CHECK(surface(inches(12), inches(inch)) == 8);
    CHECK(surface(inches(12), inches(108)) == 9);
  }
  SECTION("board_feet_from_sm: SM x nominal thickness, fractions of a foot stay") {
    CHECK(surfaceTally({7, Half::none}, Nominal::quarters(5)) == Feet{8750});
    CHECK(surfaceTally({5, Half::none}, Nominal::quarters(6)) == Feet{7500});
  }
}

TEST_CASE("an exact half goes up, then down: C. A. King, Elements of Woodwork (1911) (S)") {
  // surface_measure_exact_half: 6 in x 9 ft is 4 1/2.
  const SurfaceMeasure first = surfaceMeasure(inches(6), Length::feet(9), Half::up);
  CHECK(first.value == 5);
  CHECK(first.half == Half::up);
  CHECK(surface(inches(6), Length::feet(9), Half::down) == 4);
}

TEST_CASE("the export bundle's tally: AHEC, Measurement page (S)") {
  // bundle_tally_width_rounding: nearest whole inch. bundle_tally_length_rounding: down.
  for (const double width : {5.75, 6.0, 6.25}) {
    CHECK(bundleTally(inches(width), inches(107.75), Half::up).inches == 6);
    CHECK(bundleTally(inches(width), inches(107.75), Half::up).feet == 8);
  }
}
