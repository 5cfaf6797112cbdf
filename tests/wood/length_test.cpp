#include "inventory/wood/length.h"

#include <catch2/catch.hpp>
#include <random>

#include "inventory/wood/unreadable.h"

using namespace flitch;

namespace {

constexpr Bare allBare[] = {Bare::feet, Bare::inches, Bare::millimetres};

std::string why(std::string_view text, Bare bare) {
  try {
    return "read as " + exactText(parseLength(text, bare));
  } catch (const Unreadable& e) {
    return e.what();
  }
}

}  // namespace

TEST_CASE("a length with its unit reads alike in every column") {
  struct Form {
    const char* written;
    Length meant;
  };
  const Form form = GENERATE(
      Form{"37 1/2 in", Length::sixtyFourths(37 * 64 + 32)},
      Form{"37-1/2\"", Length::sixtyFourths(37 * 64 + 32)},
      Form{"37-1/2 inches", Length::sixtyFourths(37 * 64 + 32)},
      Form{"3' 1-1/2\"", Length::sixtyFourths(37 * 64 + 32)},
      Form{"3'1 1/2", Length::sixtyFourths(37 * 64 + 32)},
      Form{"3' - 1 1/2\"", Length::sixtyFourths(37 * 64 + 32)},
      Form{"3'-1-1/2\"", Length::sixtyFourths(37 * 64 + 32)},
      Form{"952.5 mm", Length::sixtyFourths(37 * 64 + 32)},
      Form{"95.25cm", Length::sixtyFourths(37 * 64 + 32)},
      Form{"0.9525 m", Length::sixtyFourths(37 * 64 + 32)}, Form{"1.2m", Length::millimetres(1200)},
      Form{"10'6", Length::inches(126)}, Form{"10' 6\"", Length::inches(126)},
      Form{"10 ft 6 in", Length::inches(126)}, Form{"10 FT 6", Length::inches(126)},
      Form{"10ft. 6in.", Length::inches(126)}, Form{"10 feet", Length::feet(10)},
      Form{"10'", Length::feet(10)}, Form{"8 1/2 ft", Length::inches(102)},
      Form{"10.5'", Length::inches(126)}, Form{"7.375\"", Length::sixtyFourths(7 * 64 + 24)},
      Form{"3/8 in", Length::sixtyFourths(24)}, Form{"1/64 in", Length::sixtyFourths(1)},
      Form{".5 in", Length::sixtyFourths(32)}, Form{"  7 in  ", Length::inches(7)},
      // Typographic signs, as a phone or a word processor writes them.
      Form{"10\xE2\x80\xB2 6\xE2\x80\xB3", Length::inches(126)},
      Form{"10\xE2\x80\x99 6\xE2\x80\x9D", Length::inches(126)},
      Form{"10'\xC2\xA0"
           "6''",
           Length::inches(126)},
      Form{"7\xC2\xBD in", Length::sixtyFourths(7 * 64 + 32)},
      Form{"7 \xE2\x85\x9C\"", Length::sixtyFourths(7 * 64 + 24)},
      Form{"7 3\xE2\x81\x84"
           "8 in",
           Length::sixtyFourths(7 * 64 + 24)},
      Form{"37\xE2\x80\x93"
           "1/2 in",
           Length::sixtyFourths(37 * 64 + 32)},
      Form{"0 mm", Length()}, Form{"100 m", Length::millimetres(100'000)});
  CAPTURE(form.written);
  for (const Bare bare : allBare) CHECK(parseLength(form.written, bare).nm() == form.meant.nm());
}

TEST_CASE("a bare figure takes the unit of its column") {
  CHECK(parseLength("10-6", Bare::feet) == Length::inches(126));
  CHECK(parseLength("10-6 1/2", Bare::feet) == Length::sixtyFourths(126 * 64 + 32));
  CHECK(parseLength("10-6-1/2", Bare::feet) == Length::sixtyFourths(126 * 64 + 32));
  CHECK(parseLength("10-6\"", Bare::feet) == Length::inches(126));
  CHECK(parseLength("10", Bare::feet) == Length::feet(10));
  CHECK(parseLength("7.5", Bare::feet) == Length::inches(90));
  // A fraction belongs to the figure before it: 10 1/2 ft, as in "8 1/2 ft".
  CHECK(parseLength("10-1/2", Bare::feet) == Length::inches(126));
  CHECK(parseLength("1-1/2", Bare::inches) == Length::sixtyFourths(96));
  CHECK(parseLength("7 3/8", Bare::inches) == Length::sixtyFourths(7 * 64 + 24));
  CHECK(parseLength("7.375", Bare::inches) == Length::sixtyFourths(7 * 64 + 24));
  CHECK(parseLength("187.5", Bare::millimetres) == Length::micrometres(187'500));
}

TEST_CASE("decimals round to the nanometre, halves away from zero") {
  CHECK(parseLength("0.0000014 mm", Bare::inches).nm() == 1);
  CHECK(parseLength("0.0000015 mm", Bare::inches).nm() == 2);
  CHECK(parseLength("0.00000149999999 mm", Bare::inches).nm() == 1);
  CHECK(parseLength("0.333333333333333 in", Bare::inches).nm() == 8'466'667);
}

TEST_CASE("what is no length is refused with a sentence that helps") {
  CHECK(why("7 3/", Bare::inches) == "`7 3/` has no bottom figure");
  CHECK(why("10-6", Bare::inches) ==
        "`10-6` looks like feet and inches, which are written with ' here");
  CHECK(why("10,5", Bare::inches) == "`10,5` has a comma; decimals are written with a point");
  CHECK(why("-3", Bare::inches) == "`-3` is below zero");
  CHECK(why("\xE2\x88\x92"
            "3 in",
            Bare::feet) ==
        "`\xE2\x88\x92"
        "3 in` is below zero");
  CHECK(why("1//2", Bare::inches) == "`1//2` has no bottom figure");
  CHECK(why("1/3", Bare::inches) == "`1/3` has a bottom figure that is not 2, 4, 8, 16, 32 or 64");
  CHECK(why("1/128", Bare::inches) ==
        "`1/128` has a bottom figure that is not 2, 4, 8, 16, 32 or 64");
  CHECK(why("1/0", Bare::inches) == "`1/0` has a bottom figure that is not 2, 4, 8, 16, 32 or 64");
  CHECK(why("5/4", Bare::inches) == "`5/4` has a top figure that is not below its bottom figure");
  CHECK(why("1/2", Bare::millimetres) ==
        "`1/2` has a fraction; metric sizes are written with a point");
  CHECK(why("10' 14", Bare::feet) == "`10' 14` has 12 inches or more after the feet");
  CHECK(why("10.5' 6", Bare::feet) == "`10.5' 6` has inches after a part of a foot");
  CHECK(why("10'-", Bare::feet) == "`10'-` ends too early");
  CHECK(why("7.", Bare::inches) == "`7.` has no figure after the point");
  CHECK(why("", Bare::inches) == "an empty cell is not a length");
  CHECK(why("100.001 m", Bare::inches) == "`100.001 m` is longer than 100 m");
  CHECK(why("99999999999999999999", Bare::inches) ==
        "`99999999999999999999` has more figures than any length");
  const std::string noLength = GENERATE("ten", "1e5", "10 6", "0x10", "=1+2", "7 in 3", "7 mm mm",
                                        "10'6'", "'", "\"", "/", "1/2/4", "1.2.3", "7 3 8");
  for (const Bare bare : allBare) {
    CHECK(why(noLength, bare) == "`" + noLength + "` is not a length");
  }
}

TEST_CASE("a refused length says what would have been taken") {
  for (const Bare bare : allBare) {
    try {
      (void)parseLength("x", bare);
      FAIL("read");
    } catch (const Unreadable& e) {
      // Every form offered is itself read.
      std::string rest = e.accepted;
      int forms = 0;
      while (!rest.empty()) {
        const std::size_t comma = rest.find(", ");
        CHECK_NOTHROW(parseLength(rest.substr(0, comma), bare));
        rest = comma == std::string::npos ? "" : rest.substr(comma + 2);
        ++forms;
      }
      CHECK(forms >= 3);
      CHECK(e.value == "x");
    }
  }
}

TEST_CASE("lengths are shown in lowest terms") {
  CHECK(text(Length::sixtyFourths(37 * 64 + 32), LengthStyle::inches) == "37 1/2");
  CHECK(text(Length::sixtyFourths(24), LengthStyle::inches) == "3/8");
  CHECK(text(Length(), LengthStyle::inches) == "0");
  CHECK(text(Length::inches(126), LengthStyle::feetInches) == "10' 6\"");
  CHECK(text(Length::sixtyFourths(113 * 64 + 24), LengthStyle::feetInches) == "9' 5 3/8\"");
  CHECK(text(Length::sixtyFourths(7 * 64 + 32), LengthStyle::feetInches) == "7 1/2\"");
  CHECK(text(Length::feet(10), LengthStyle::feetInches) == "10'");
  CHECK(text(Length(), LengthStyle::feetInches) == "0\"");
  CHECK(text(Length::micrometres(952'500), LengthStyle::millimetres) == "952.5");
  CHECK(text(Length::millimetres(2400), LengthStyle::millimetres) == "2400");
  CHECK(text(-Length::inches(3), LengthStyle::inches) ==
        "\xE2\x88\x92"
        "3");
  // Rounded to the nearest 1/64 in and tenth of a millimetre; what rounds to nothing has no sign.
  CHECK(text(Length::nanometres(198'437), LengthStyle::inches) == "0");
  CHECK(text(Length::nanometres(198'438), LengthStyle::inches) == "1/64");
  CHECK(text(Length::nanometres(-100), LengthStyle::inches) == "0");
  CHECK(text(Length::micrometres(950), LengthStyle::millimetres) == "1");
  CHECK(text(Length::feet(1) - Length::nanometres(1), LengthStyle::feetInches) == "1'");
}

TEST_CASE("what a file holds reads back to the same length") {
  std::mt19937_64 random(7);
  for (int i = 0; i < 20'000; ++i) {
    const Length length =
        i % 2 == 0 ? Length::sixtyFourths(static_cast<std::int64_t>(random() % 100'000))
                   : Length::nanometres(static_cast<std::int64_t>(random() % 100'000'000'000));
    const Length back = parseLength(exactText(length), allBare[i % 3]);
    if (back != length) FAIL(exactText(length) << " read back as " << exactText(back));
  }
  CHECK(exactText(Length::sixtyFourths(37 * 64 + 32)) == "37 1/2 in");
  CHECK(exactText(Length::millimetres(187)) == "187 mm");
  CHECK(exactText(Length::nanometres(1)) == "0.000001 mm");
  CHECK(exactText(-Length::inches(2)) == "-2 in");
}

TEST_CASE("what is shown in inches reads back within half a 64th") {
  std::mt19937_64 random(8);
  for (int i = 0; i < 20'000; ++i) {
    const Length length = Length::nanometres(static_cast<std::int64_t>(random() % 18'000'000'000));
    for (const LengthStyle style : {LengthStyle::inches, LengthStyle::feetInches}) {
      const Length back = parseLength(text(length, style), Bare::inches);
      const std::int64_t off = (back - length).nm();
      if (off > 198'438 || off < -198'438)
        FAIL(exactText(length) << " shown " << text(length, style));
    }
  }
}

TEST_CASE("no text of the keyboard makes the reader stumble") {
  std::mt19937_64 random(9);
  const std::string keys = "0123456789 '\"-/.,mcftin\xC2\xA0\xE2\x80\xB2=";
  int read = 0;
  for (int i = 0; i < 50'000; ++i) {
    std::string text;
    for (std::size_t n = random() % 9; n > 0; --n) text += keys[random() % keys.size()];
    try {
      const Length length = parseLength(text, allBare[i % 3]);
      if (length < Length() || length > Length::millimetres(100'000)) FAIL(text);
      ++read;
    } catch (const Unreadable&) {
    }
  }
  CHECK(read > 1000);
}

TEST_CASE("whole steps round down and up, below zero too") {
  const Length step = Length::sixtyFourths(8);
  for (const std::int64_t n : {-3, -1, 0, 1, 5}) {
    const Length on = n * step;
    const Length past = on + Length::nanometres(1);
    CHECK(stepsDown(on, step) == n);
    CHECK(stepsUp(on, step) == n);
    CHECK(stepsDown(past, step) == n);
    CHECK(stepsUp(past, step) == n + 1);
  }
  CHECK(lengthText(Length::sixtyFourths(37 * 64 + 32), Unit::inches) == "37 1/2 in");
  CHECK(lengthText(Length::sixtyFourths(37 * 64 + 32), Unit::millimetres) == "952.5 mm");
}
