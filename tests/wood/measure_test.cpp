#include "inventory/wood/measure.h"

#include <catch2/catch.hpp>
#include <set>

#include "inventory/wood/unreadable.h"
#include "tests/wood/published.h"

using namespace flitch;

namespace {

Length inches(const std::string& text) { return parseLength(text, Bare::inches); }

/// `4 in timber` and `2x4` are no quarters.
Nominal nominalOf(const std::string& text) {
  if (text == "4 in timber") return Nominal::quarters(16);
  if (text == "2x4") return Nominal::quarters(8);
  if (text == "3/4 in") return Nominal::quarters(3);
  if (text == "any") return Nominal::quarters(4);
  return parseNominal(text);
}

/// A published figure given to so many places, against ours.
void checkFeet(Feet ours, const std::string& expected) {
  const std::size_t point = expected.find('.');
  const std::size_t places = point == std::string::npos ? 0 : expected.size() - point - 1;
  const std::int64_t unit = places == 0 ? 1000 : places == 1 ? 100 : places == 2 ? 10 : 1;
  const std::int64_t rounded = (ours.thousandths + unit / 2) / unit * unit;
  CHECK(rounded == parseFeet(expected).thousandths);
  // Only repeating decimals are published rounded.
  if (expected != "9.33") CHECK(ours == parseFeet(expected));
}

std::string upTo(const std::string& text, const std::string& word) {
  return text.substr(0, text.find(word));
}

}  // namespace

TEST_CASE("published boards measure as published") {
  std::set<std::string> done;
  for (const PublishedRow& row : published("board_measure_examples.csv")) {
    const std::string id = row.at("id");
    const std::string rule = row.at("rule");
    DYNAMIC_SECTION(id << ", " << row.at("rule") << ", " << row.at("source")) {
      if (id == "BM07") {
        CHECK(rule == "bundle tally");
        const BundleTally tally = bundleTally(inches(row.at("width")),
                                              parseLength(row.at("length"), Bare::feet), Half::up);
        CHECK(std::to_string(tally.inches) + " in and " + std::to_string(tally.feet) + " ft" ==
              row.at("expected"));
        CHECK(tally.half == Half::none);
      } else if (id == "BM16") {
        const Feet layer = volumeTally(Nominal::quarters(4), Length::inches(48), Length::feet(10));
        CHECK(Feet{12 * layer.thousandths} == parseFeet(row.at("expected")));
        CHECK(surfaceTally(surfaceMeasure(Length::inches(48), Length::feet(10), Half::up),
                           Nominal::quarters(4)) == Feet{40'000});
      } else if (id == "BM17") {
        for (const char* width : {"8 3/4 in", "9 1/4 in"}) {
          CHECK(surfaceMeasure(inches(width), Length::feet(12), Half::up).value == 9);
        }
      } else if (id == "BM18") {
        const SurfaceMeasure first = surfaceMeasure(inches("8 1/2"), Length::feet(12), Half::up);
        const SurfaceMeasure second = surfaceMeasure(inches("8 1/2"), Length::feet(12), Half::down);
        CHECK(first.value == 9);
        CHECK(first.half == Half::up);
        CHECK(second.value == 8);
        CHECK(second.half == Half::down);
      } else {
        const Nominal nominal = nominalOf(row.at("thickness"));
        const Length width = inches(upTo(row.at("width"), " nominal"));
        const Length length = parseLength(row.at("length"), Bare::feet);
        const std::string expected = row.at("expected");
        const SurfaceMeasure measure = surfaceMeasure(width, length, Half::up);
        const std::string unit = row.at("unit");
        if (unit == "SM") {
          CHECK(measure.value == std::stoi(expected));
          CHECK(measure.half == Half::none);
        } else if (unit == "SM, BF") {
          CHECK(measure.value == std::stoi(upTo(expected, " SM")));
          const std::size_t comma = expected.find(", ");
          checkFeet(surfaceTally(measure, nominal), upTo(expected.substr(comma + 2), " BF"));
        } else if (rule == "SM x thickness" || id == "BM19") {
          checkFeet(surfaceTally(measure, nominal), expected);
        } else {
          checkFeet(volumeTally(nominal, width, length), expected);
        }
      }
    }
    done.insert(id);
  }
  CHECK(done.size() == 23);
}

TEST_CASE("one board, two ways of counting") {
  // Reference row BM02: 8 by surface measure, 8.33 by volume.
  const Length width = inches("6 1/4");
  CHECK(surfaceTally(surfaceMeasure(width, Length::feet(8), Half::up), Nominal::quarters(8)) ==
        Feet{8000});
  CHECK(volumeTally(Nominal::quarters(8), width, Length::feet(8)) == Feet{8333});
}

TEST_CASE("length is cut down to whole feet before anything is rounded") {
  CHECK(surfaceMeasure(Length::inches(12), Length::feet(10) - Length::nanometres(1), Half::up)
            .value == 9);
  CHECK(surfaceMeasure(Length::inches(12), Length::feet(10), Half::up).value == 10);
  CHECK(surfaceMeasure(Length::inches(12), Length::inches(11), Half::up).value == 0);
}

TEST_CASE("a surface measure is the nearest whole number by brute force") {
  for (int n64 = 64; n64 <= 20 * 64; n64 += 7) {
    for (int feet = 1; feet <= 16; ++feet) {
      const Length width = Length::sixtyFourths(n64);
      const SurfaceMeasure up = surfaceMeasure(width, Length::feet(feet), Half::up);
      const SurfaceMeasure down = surfaceMeasure(width, Length::feet(feet), Half::down);
      const int raw = n64 * feet;  // over 768
      const int twiceOffUp = 2 * up.value * 768 - 2 * raw;
      if (twiceOffUp > 768 || twiceOffUp <= -768) FAIL(n64 << " x " << feet);
      const bool half = (2 * raw) % 768 == 0 && (2 * raw / 768) % 2 == 1;
      if ((up.half == Half::up) != half || up.value - down.value != (half ? 1 : 0)) {
        FAIL(n64 << " x " << feet);
      }
    }
  }
}

TEST_CASE("metric stock is counted at its thickness in inches, at least one") {
  CHECK(surfaceTally({10, Half::none}, Nominal::millimetres(20)) == Feet{10'000});
  // 27 mm is 1.0629921 in.
  CHECK(surfaceTally({10, Half::none}, Nominal::millimetres(27)) == Feet{10'630});
  CHECK(volumeTally(Nominal::millimetres(27), Length::millimetres(180),
                    Length::millimetres(2400)) == Feet{4943});
}

TEST_CASE("a board foot is 144 cubic inches") {
  CHECK(feetOf(CubicMillimetres{2'359'737}) == Feet{1000});
  CHECK(feetOf(CubicMillimetres{2'359'737'216}) == Feet{1'000'000});
  CHECK(feetOf(CubicMillimetres{0}) == Feet{0});
  // Half a thousandth is 1179.868608 mm³.
  CHECK(feetOf(CubicMillimetres{1179}) == Feet{0});
  CHECK(feetOf(CubicMillimetres{1180}) == Feet{1});
  CHECK(feetOf(CubicMillimetres{INT64_MAX / 2}).thousandths > 0);
}

TEST_CASE("volume is the mean of the faces times thickness") {
  const Area a = rectangle(Length::millimetres(1000), Length::millimetres(200));
  const Area b = rectangle(Length::millimetres(1000), Length::millimetres(100));
  CHECK(volume(a, b, Length::millimetres(20)) == CubicMillimetres{3'000'000});
  // Half a cubic millimetre goes up, a hair less goes down.
  const Area half = rectangle(Length::millimetres(1), Length::micrometres(500));
  CHECK(volume(half, half, Length::millimetres(1)) == CubicMillimetres{1});
  CHECK(volume(half, half, Length::millimetres(1) - Length::nanometres(1)) == CubicMillimetres{0});
  // The largest board there is: 60 ft x 5 ft x 16 in = 400 ft³ = 4800 board feet.
  const Area whole = rectangle(Length::feet(60), Length::feet(5));
  CHECK(feetOf(volume(whole, whole, Length::inches(16))) == Feet{4'800'000});
}

TEST_CASE("board feet as written") {
  CHECK(parseFeet("7") == Feet{7000});
  CHECK(parseFeet("7.4") == Feet{7400});
  CHECK(parseFeet("7.375 bf") == Feet{7375});
  CHECK(text(Feet{7375}) == "7.4");
  CHECK(text(Feet{7350}) == "7.4");
  CHECK(text(Feet{7349}) == "7.3");
  CHECK(text(Feet{7000}) == "7.0");
  CHECK(text(Feet{-7000}) ==
        "\xE2\x88\x92"
        "7.0");
  CHECK(exactText(Feet{7375}) == "7.375");
  CHECK(exactText(Feet{7000}) == "7");
  const std::string bad = GENERATE("", "seven", "-1", "7.1234", "7,4", "1e3", "2000000", "7.", ".");
  CHECK_THROWS_AS(parseFeet(bad), Unreadable);
}

TEST_CASE("nominal thickness as written") {
  CHECK(parseNominal("4") == Nominal::quarters(4));
  CHECK(parseNominal("4/4") == Nominal::quarters(4));
  CHECK(parseNominal(" 12/4 ") == Nominal::quarters(12));
  CHECK(parseNominal("27 mm") == Nominal::millimetres(27));
  CHECK(parseNominal("27MM") == Nominal::millimetres(27));
  CHECK(text(Nominal::quarters(8)) == "8/4");
  CHECK(text(Nominal::millimetres(27)) == "27 mm");
  CHECK(Nominal::quarters(5).length() == Length::sixtyFourths(80));
  const std::string bad =
      GENERATE("", "0", "33", "33/4", "4/8", "1 1/4", "-4", "4 mm", "201 mm", "27 cm", "FAS");
  CHECK_THROWS_AS(parseNominal(bad), Unreadable);
}

TEST_CASE("the bundle tally's exact half goes up and down in turn (AHEC, Measurement page)") {
  CHECK(bundleTally(inches("5 1/2"), Length::feet(8), Half::up).inches == 6);
  CHECK(bundleTally(inches("5 1/2"), Length::feet(8), Half::down).inches == 5);
  CHECK(bundleTally(inches("5 33/64"), Length::feet(8), Half::down).inches == 6);
  CHECK(bundleTally(inches("5 1/2"), Length::feet(8), Half::down).half == Half::down);
}

TEST_CASE("a pack's total is rounded once (goodwoodcorp.com sheet, R row pack_total)") {
  // 7 + 8 + 6 = 21 square feet of 5/4: 26.25, 26 board feet; board by board 8.75 + 10 + 7.5.
  CHECK(packTally(21, Nominal::quarters(5)) == Feet{26'000});
  CHECK(packTally(21, Nominal::quarters(3)) == Feet{21'000});
  CHECK(packTally(22, Nominal::quarters(5)) == Feet{28'000});  // 27.5
  CHECK(packTally(0, Nominal::quarters(8)) == Feet{});
}

TEST_CASE("a gross tally runs 6 to 7 % above the net one (R row gross_vs_net_tally)") {
  const NetFeet net = netOfGross(Feet{107'000});
  CHECK(net.least == Feet{100'000});
  CHECK(net.most == Feet{100'943});
  CHECK(netOfGross(Feet{106'000}).most == Feet{100'000});
}

TEST_CASE("a gross tally is expected in the middle of the 6 to 7 per cent above the net") {
  CHECK(grossOfNet(Feet{100'000}) == Feet{106'500});
  for (const std::int64_t net : {1000, 5333, 250'000}) {
    const NetFeet back = netOfGross(grossOfNet(Feet{net}));
    CHECK(back.least <= Feet{net});
    CHECK(back.most >= Feet{net});
  }
}

TEST_CASE("a width to the half inch, an exact quarter in turn, by brute force") {
  CHECK(toTenths(Feet{8333}) == Feet{8300});
  CHECK(toTenths(Feet{8350}) == Feet{8400});
  // 6 3/8 is 6 1/2, by 8 ft 11 in 4/4: 6.5 x 8 / 12.
  const HalfInchTally tally =
      halfInchTally(Nominal::quarters(4), inches("6 3/8"), Length::inches(107), Half::up);
  CHECK(tally.feet == Feet{4333});
  CHECK(tally.half == Half::none);
  for (int n64 = 64; n64 <= 20 * 64; ++n64) {
    const auto feetOf12 = [&](Half half) {
      // 12 ft of 4/4: the width in inches is the tally.
      return halfInchTally(Nominal::quarters(4), Length::sixtyFourths(n64), Length::feet(12), half);
    };
    const std::int64_t up = feetOf12(Half::up).feet.thousandths / 500;
    const std::int64_t down = feetOf12(Half::down).feet.thousandths / 500;
    const bool quarter = n64 % 32 == 16;
    if (up - down != (quarter ? 1 : 0) || (feetOf12(Half::up).half == Half::up) != quarter ||
        64 * up - 2 * n64 > 32 || 64 * up - 2 * n64 < -32 + (quarter ? 1 : 0)) {
      FAIL(n64);
    }
  }
}

TEST_CASE("a tapering board is measured a third from its narrow end (from memory)") {
  CHECK(tallyWidth(inches("9"), inches("6")) == inches("7"));
  CHECK(tallyWidth(inches("6"), inches("9")) == inches("7"));
  CHECK(tallyWidth(inches("6 1/2"), inches("6 1/2")) == inches("6 1/2"));
}
