#include "inventory/wood/tag_code.h"

#include <catch2/catch.hpp>
#include <limits>
#include <stdexcept>

#include "inventory/wood/unreadable.h"
#include "tests/wood/published.h"

using namespace flitch;
using Verdict = TagReading::Verdict;

namespace {

constexpr std::string_view keys = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ";

struct Slips {
  std::int64_t tried = 0;
  std::int64_t missed = 0;  ///< taken for a right tag
};

/// Every single wrong character and every swap of neighbours of every issued serial, as a symbol
/// holds them. `takes` says whether a text passes as a tag.
template <class Takes>
Slips slipsOf(TagKind kind, std::int64_t from, std::int64_t to, Takes&& takes) {
  Slips slips;
  const auto tryOne = [&](const std::string& text) {
    ++slips.tried;
    if (takes(text)) ++slips.missed;
  };
  for (std::int64_t serial = nextIssuable(kind, from - 1); serial <= to;
       serial = nextIssuable(kind, serial)) {
    std::string text = symbolText({kind, serial});
    for (std::size_t i = 0; i < text.size(); ++i) {
      const char right = text[i];
      for (const char wrong : keys) {
        if (wrong == right) continue;
        text[i] = wrong;
        tryOne(text);
      }
      text[i] = right;
      if (i + 1 < text.size() && text[i] != text[i + 1]) {
        std::swap(text[i], text[i + 1]);
        tryOne(text);
        std::swap(text[i], text[i + 1]);
      }
    }
  }
  return slips;
}

/// Right, or good enough to be asked about: neither may happen to a damaged symbol.
bool passes(const std::string& text) {
  const Verdict verdict = readTag(text).verdict;
  return verdict == Verdict::right || verdict == Verdict::noCheck;
}

void checkFiveFigures(TagKind kind) {
  const Slips slips = slipsOf(kind, 10'000, 99'999, passes);
  CHECK(slips.missed == 0);
  CHECK(slips.tried > 80'000 * 7 * 35);
}

}  // namespace

TEST_CASE("published check characters") {
  // iso7064_mod37_2, iso7064_values (S): ISO/IEC 7064:2003, Red Book annex 2.
  int rows = 0;
  for (const PublishedRow& row : published("iso7064_examples.csv")) {
    if (row.at("system") != "MOD 37,2") continue;
    DYNAMIC_SECTION(row.at("id") << ", " << row.at("where_seen")) {
      CHECK(checkCharacter(row.at("data")) == row.at("check_character").front());
    }
    ++rows;
  }
  CHECK(rows == 2);
  CHECK_THROWS_AS(checkCharacter("t0042"), Unreadable);
  CHECK_THROWS_AS(checkCharacter("T-0042"), Unreadable);
}

TEST_CASE("a tag code on paper and in a symbol") {
  const TagCode code{TagKind::board, 42};
  CHECK(text(code) == "T0042-F");
  CHECK(symbolText(code) == "T0042F");
  CHECK(text({TagKind::bay, 7}) == std::string("B0007-") + checkCharacter("B0007"));
  CHECK(text({TagKind::board, 12345}) == std::string("T12345-") + checkCharacter("T12345"));
  for (const char* written : {"T0042-F", "T0042F", "t0042-f", "  T0042f ", "\xC2\xA0T0042-F"}) {
    CAPTURE(written);
    const TagReading reading = readTag(written);
    CHECK(reading.verdict == Verdict::right);
    CHECK(reading.code == code);
  }
}

TEST_CASE("a wrong check character is named, nothing is guessed") {
  for (const char* written : {"T0042-G", "T0042G", "T0042-*", "T0143F", "B0042F"}) {
    CAPTURE(written);
    CHECK(readTag(written).verdict == Verdict::wrongCheck);
  }
  // Five figures after the letter without hyphen: the last one checks, right or wrong.
  CHECK(text({TagKind::board, 143}) == "T0143-5");
  CHECK(readTag("T01435").verdict == Verdict::right);
  CHECK(readTag("T01436").verdict == Verdict::wrongCheck);
}

TEST_CASE("a number without check character is to be confirmed") {
  for (const char* written : {"42", "0042", "T0042", "t42"}) {
    CAPTURE(written);
    const TagReading reading = readTag(written);
    CHECK(reading.verdict == Verdict::noCheck);
    CHECK(reading.code == TagCode{TagKind::board, 42});
  }
  CHECK(readTag("B12").code == TagCode{TagKind::bay, 12});
  // Longer ones may be a symbol whose letter was misread.
  CHECK(readTag("9999").verdict == Verdict::noCheck);
  CHECK(readTag("10000").verdict == Verdict::notATag);
}

TEST_CASE("anything else is no tag") {
  for (const char* written :
       {"", " ", "T", "T-F", "X0042-F", "T0042--F", "T0042-FF", "T-0042F", "0042-F", "T00042-F",
        "T0000", "0", "T1234567890-F", "cherry", "T0042-F T0043-D", "9780306406157", "T0042 F",
        "T0042-\xC3\xA9", "T00x2F"}) {
    CAPTURE(written);
    CHECK(readTag(written).verdict == Verdict::notATag);
  }
}

TEST_CASE("serials that cannot be copied by hand are never issued") {
  for (const TagKind kind : {TagKind::board, TagKind::bay, TagKind::piece}) {
    std::int64_t issued = 0;
    for (std::int64_t serial = 1; serial <= 9999; ++serial) {
      const char check = symbolText({kind, serial}).back();
      const bool poor = check == '*' || check == 'I' || check == 'O';
      if (issuable(kind, serial) == poor) FAIL(serial);
      issued += poor ? 0 : 1;
    }
    // 34 of 37 characters are good.
    CHECK(issued == Approx(9999.0 * 34 / 37).epsilon(0.001));
  }
  CHECK_FALSE(issuable(TagKind::board, 0));
  CHECK_FALSE(issuable(TagKind::board, -5));
  CHECK_FALSE(issuable(TagKind::board, 1'000'000'000));
  CHECK(nextIssuable(TagKind::board, -10) == nextIssuable(TagKind::board, 0));
  for (std::int64_t serial = 0; serial < 5000;) {
    const std::int64_t next = nextIssuable(TagKind::board, serial);
    for (std::int64_t between = serial + 1; between < next; ++between) {
      if (issuable(TagKind::board, between)) FAIL(between);
    }
    serial = next;
  }
  CHECK_THROWS_AS(nextIssuable(TagKind::board, 999'999'999), std::out_of_range);
}

TEST_CASE("every issued code of four and five figures reads back") {
  for (const TagKind kind : {TagKind::board, TagKind::bay, TagKind::piece}) {
    for (std::int64_t serial = nextIssuable(kind, 0); serial <= 99'999;
         serial = nextIssuable(kind, serial)) {
      const TagCode code{kind, serial};
      const TagReading paper = readTag(text(code));
      const TagReading symbol = readTag(symbolText(code));
      if (paper.verdict != Verdict::right || paper.code != code ||
          symbol.verdict != Verdict::right || symbol.code != code) {
        FAIL(text(code));
      }
    }
  }
}

TEST_CASE("every wrong character and every swap of neighbours is caught, four figures") {
  for (const TagKind kind : {TagKind::board, TagKind::bay, TagKind::piece}) {
    const Slips slips = slipsOf(kind, 1, 9999, passes);
    CHECK(slips.missed == 0);
    CHECK(slips.tried > 9000 * 6 * 35);
  }
}

// A case for each kind, so that they run side by side.
TEST_CASE("every wrong character and every swap is caught, boards of five figures") {
  checkFiveFigures(TagKind::board);
}
TEST_CASE("every wrong character and every swap is caught, bays of five figures") {
  checkFiveFigures(TagKind::bay);
}
TEST_CASE("every wrong character and every swap is caught, pieces of five figures") {
  checkFiveFigures(TagKind::piece);
}

TEST_CASE("a weaker check would be found out") {
  // The search itself can fail: were the check character a plain sum of the others, swaps pass.
  const auto bySum = [](const std::string& text) {
    std::size_t sum = 0;
    for (const char c : text) sum += keys.find(c);
    return sum % 36;
  };
  std::int64_t missed = 0;
  for (std::int64_t serial = 1; serial <= 999; ++serial) {
    const std::string right = symbolText({TagKind::board, serial});
    const std::size_t sum = bySum(right);
    missed += slipsOf(TagKind::board, serial, serial, [&](const std::string& text) {
                return bySum(text) == sum;
              }).missed;
  }
  CHECK(missed > 1000);
}
