#include "inventory/wood/money.h"

#include <catch2/catch.hpp>
#include <limits>
#include <random>

#include "inventory/wood/unreadable.h"

using namespace flitch;

TEST_CASE("a price by the running foot counts fractions of a foot") {
  // 8 ft 6 in at 1.10; a foot is 304.8 mm, so 2438.4 mm is 8 ft.
  CHECK(costPerRunningFoot(Rate{Money::tenThousandths(11'000)}, Length::inches(102)) ==
        Money::tenThousandths(93'500));
  CHECK(costPerRunningFoot(Rate{Money::units(1)}, Length::micrometres(2'438'400)) ==
        Money::units(8));
}

TEST_CASE("amounts as written") {
  CHECK(parseMoney("8.20") == Money::tenThousandths(82'000));
  CHECK(parseMoney("$8.20") == Money::tenThousandths(82'000));
  CHECK(parseMoney("8.20 $") == Money::tenThousandths(82'000));
  CHECK(parseMoney("1,199.40") == Money::tenThousandths(11'994'000));
  CHECK(parseMoney("$ 1,234,567") == Money::units(1'234'567));
  CHECK(parseMoney("0.0001") == Money::tenThousandths(1));
  CHECK(parseMoney("8") == Money::units(8));
  CHECK(parseMoney("-0") == Money());
  CHECK(parseMoney("7.40 kr", "kr") == Money::tenThousandths(74'000));
  CHECK(parseMoney("\xE2\x82\xAC"
                   "7.40",
                   "\xE2\x82\xAC") == Money::tenThousandths(74'000));
  CHECK(parseMoney("-8.20", "$", true) == -Money::tenThousandths(82'000));
  CHECK(parseMoney("\xE2\x88\x92$8.20", "$", true) == -Money::tenThousandths(82'000));
  CHECK(parseMoney("$-8.20", "$", true) == -Money::tenThousandths(82'000));
}

TEST_CASE("what is no amount is refused") {
  const std::string bad = GENERATE("", "$", "7,40 kr", "7,40", "1,1", "1,19.40", ",199", "1,199,40",
                                   "8.20.1", "8.12345", "8.", "eight", "1e3", "-8.20", "8 20",
                                   "kr 8", "$$8", "=8", "9999999999999");
  CHECK_THROWS_AS(parseMoney(bad), Unreadable);
  try {
    (void)parseMoney("7,40 kr");
  } catch (const Unreadable& e) {
    CHECK(std::string(e.what()) == "`7,40 kr` is not an amount in $");
    CHECK(e.accepted == "8.20, $8.20, 1,199.40");
  }
}

TEST_CASE("amounts as shown") {
  CHECK(text(Money::tenThousandths(11'994'000)) == "$1,199.40");
  CHECK(text(Money::units(1'234'567)) == "$1,234,567.00");
  CHECK(text(Money::units(123)) == "$123.00");
  CHECK(text(Money::tenThousandths(50)) == "$0.01");
  CHECK(text(Money::tenThousandths(49)) == "$0.00");
  CHECK(text(Money::tenThousandths(-49)) == "$0.00");
  CHECK(text(Money::tenThousandths(-50)) == "\xE2\x88\x92$0.01");
  CHECK(text(Money::units(8), "kr ") == "kr 8.00");
  CHECK(wholeText(Money::tenThousandths(80'001)) == "$9");
  CHECK(wholeText(Money::units(8)) == "$8");
  CHECK(wholeText(Money::tenThousandths(-80'001)) == "\xE2\x88\x92$8");
  CHECK(wholeText(Money::units(1428)) == "$1,428");
  CHECK(exactText(Money::tenThousandths(11'994'000)) == "1199.4");
  CHECK(exactText(Money::tenThousandths(-1)) == "-0.0001");
  CHECK(exactText(Money::tenThousandths(std::numeric_limits<std::int64_t>::min())) ==
        "-922337203685477.5808");
  CHECK(text(Money::tenThousandths(std::numeric_limits<std::int64_t>::min())) ==
        "\xE2\x88\x92$922,337,203,685,477.58");
}

TEST_CASE("an amount in a file reads back to the same") {
  std::mt19937_64 random(11);
  for (int i = 0; i < 20'000; ++i) {
    const Money money = Money::tenThousandths(
        static_cast<std::int64_t>(random() % 2'000'000'000'000) - 1'000'000'000'000);
    if (parseMoney(exactText(money), "$", true) != money) FAIL(exactText(money));
  }
}

TEST_CASE("a rate times wood, halves up") {
  const Rate rate{parseMoney("8.20")};
  CHECK(cost(rate, parseFeet("7.375")) == parseMoney("60.475"));
  CHECK(cost(Rate{Money::tenThousandths(1)}, Feet{500}) == Money::tenThousandths(1));
  CHECK(cost(Rate{Money::tenThousandths(1)}, Feet{499}) == Money());
  // 27 x 180 x 2400 mm at 2450 a cubic metre.
  CHECK(costPerCubicMetre(Rate{Money::units(2450)}, CubicMillimetres{27 * 180 * 2400}) ==
        parseMoney("28.5768"));
  CHECK_THROWS_AS(
      cost(Rate{Money::tenThousandths(std::numeric_limits<std::int64_t>::max())}, Feet{2000}),
      std::overflow_error);
}
