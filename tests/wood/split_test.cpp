#include "inventory/wood/split.h"

#include <catch2/catch.hpp>
#include <limits>
#include <numeric>
#include <random>
#include <stdexcept>

using namespace flitch;

namespace {

constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t least = std::numeric_limits<std::int64_t>::min();

using Parts = std::vector<std::int64_t>;

Parts splitOf(std::int64_t whole, const std::vector<Wide>& shares) { return split(whole, shares); }

/// Largest remainder by the book, for figures whose products fit.
Parts slowSplit(std::int64_t whole, const std::vector<Wide>& shares) {
  const bool negative = whole < 0;
  const Wide magnitude = negative ? -static_cast<Wide>(whole) : whole;
  const Wide total = std::accumulate(shares.begin(), shares.end(), Wide{0});
  Parts parts;
  std::vector<Wide> left;
  Wide given = 0;
  for (const Wide share : shares) {
    parts.push_back(static_cast<std::int64_t>(magnitude * share / total));
    left.push_back(magnitude * share % total);
    given += parts.back();
  }
  for (; given < magnitude; ++given) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < left.size(); ++i) {
      if (left[i] > left[best]) best = i;
    }
    ++parts[best];
    left[best] = -1;
  }
  for (std::int64_t& part : parts) part = negative ? -part : part;
  return parts;
}

}  // namespace

TEST_CASE("nothing is gained or lost, and equal remainders favour the earlier") {
  CHECK(splitOf(10, {1, 1, 1}) == Parts{4, 3, 3});
  CHECK(splitOf(11, {1, 1, 1}) == Parts{4, 4, 3});
  CHECK(splitOf(-10, {1, 1, 1}) == Parts{-4, -3, -3});
  CHECK(splitOf(1, {0, 3, 0, 3}) == Parts{0, 1, 0, 0});
  CHECK(splitOf(0, {0, 0}) == Parts{0, 0});
  CHECK(splitOf(0, {}) == Parts{});
  CHECK(splitOf(7, {5}) == Parts{7});
  // 100 by 1:2:4 is 14 2/7, 28 4/7, 57 1/7: the middle one has the largest remainder.
  CHECK(splitOf(100, {1, 2, 4}) == Parts{14, 29, 57});
}

TEST_CASE("splitting against the rule worked slowly") {
  std::mt19937_64 random(3);
  for (int round = 0; round < 4000; ++round) {
    std::vector<Wide> shares(1 + random() % 60);
    // Few different shares, so that equal remainders are common.
    for (Wide& share : shares)
      share = static_cast<Wide>(random() % (round % 2 == 0 ? 4 : 1'000'000));
    if (std::accumulate(shares.begin(), shares.end(), Wide{0}) == 0) shares[0] = 1;
    const std::int64_t whole = static_cast<std::int64_t>(random() % 2'000'001) - 1'000'000;
    if (split(whole, shares) != slowSplit(whole, shares)) FAIL("round " << round);
  }
}

TEST_CASE("the parts of huge figures still sum to the whole") {
  std::mt19937_64 random(5);
  const auto wide = [&random] {
    return (static_cast<Wide>(random() >> 8) << 60) + static_cast<Wide>(random() >> 4);
  };
  for (int round = 0; round < 2000; ++round) {
    std::vector<Wide> shares(1 + random() % 40);
    for (Wide& share : shares) share = random() % 5 == 0 ? 0 : wide();
    shares[0] += 1;
    const std::int64_t whole = round == 0   ? most
                               : round == 1 ? least
                                            : static_cast<std::int64_t>(random());
    const Parts parts = split(whole, shares);
    Wide sum = 0;
    bool fair = true;
    const Wide total = std::accumulate(shares.begin(), shares.end(), Wide{0});
    for (std::size_t i = 0; i < parts.size(); ++i) {
      sum += parts[i];
      if (shares[i] == 0 && parts[i] != 0) fair = false;
      if (whole > 0) {
        // Within one unit of the exact share: its floor or the next.
        const std::int64_t floor = mulDiv(whole, shares[i], total);
        if (parts[i] < floor || parts[i] - floor > 1) fair = false;
      }
    }
    if (sum != whole || !fair) FAIL("round " << round);
  }
}

TEST_CASE("what cannot be shared is refused") {
  CHECK_THROWS_AS(splitOf(1, {}), std::invalid_argument);
  CHECK_THROWS_AS(splitOf(1, {0, 0}), std::invalid_argument);
  CHECK_THROWS_AS(splitOf(1, {2, -1}), std::invalid_argument);
  const Wide half = static_cast<Wide>(1) << 125;
  CHECK_THROWS_AS(splitOf(1, {half, half}), std::invalid_argument);
  CHECK(splitOf(most, {half, half - 1}) == Parts{(most - 1) / 2 + 1, (most - 1) / 2});
}

TEST_CASE("a product over a divisor never overflows on the way") {
  CHECK(mulDiv(10, 10, 3) == 33);
  CHECK(mulDiv(0, static_cast<Wide>(1) << 125, 1) == 0);
  const Wide large = (static_cast<Wide>(1) << 126) - 1;
  CHECK(mulDiv(most, large, large) == most);
  CHECK(mulDiv(most, large - 1, large) == most - 1);
  CHECK_THROWS_AS(mulDiv(most, 2, 1), std::overflow_error);
  CHECK_THROWS_AS(mulDiv(most, large, 1), std::overflow_error);
  CHECK_THROWS_AS(mulDiv(1, 1, 0), std::invalid_argument);
  CHECK_THROWS_AS(mulDiv(-1, 1, 1), std::invalid_argument);
  std::mt19937_64 random(6);
  for (int i = 0; i < 20'000; ++i) {
    const auto a = static_cast<std::int64_t>(random() >> 1);
    const auto b = static_cast<Wide>(random() >> 2);
    const auto d = b + 1 + static_cast<Wide>(random() >> 2);
    if (mulDiv(a, b, d) != static_cast<std::int64_t>(static_cast<Wide>(a) * b / d)) FAIL("i " << i);
  }
}
