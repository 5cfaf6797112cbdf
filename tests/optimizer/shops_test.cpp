// The shops that planbench plans are what tests/bench/shops.h says.
#include "tests/bench/shops.h"

#include <catch2/catch.hpp>
#include <set>

#include "tests/bench/oak_shop.h"

using namespace flitch;
using namespace flitch::optimizer;

namespace {

/// Stock that takes the same items is of one species and thickness.
std::size_t kindsOfStock(const Problem& problem) {
  std::set<std::vector<int>> kinds;
  for (const Stock& stock : problem.stock) kinds.insert(stock.itemClass);
  return kinds.size();
}

}  // namespace

TEST_CASE("seeded shops have the boards, species and parts of their size") {
  for (const int boards : {15, 60, 300, 2000}) {
    const bench::ShopSize size = bench::ShopSize::of(boards);
    const Problem problem = bench::randomShop(size, 11);
    INFO(boards << " boards");
    CHECK_NOTHROW(validate(problem));
    CHECK(problem.stock.size() == static_cast<std::size_t>(boards));
    CHECK(problem.needs.size() == static_cast<std::size_t>(size.types));
    // Two thicknesses of two or four species; without thick parts a species has one.
    const std::size_t kinds = kindsOfStock(problem);
    CHECK(kinds >= (boards > 300 ? 5 : 2));
    CHECK(kinds <= (boards > 300 ? 8 : 4));
    for (const Stock& stock : problem.stock) {
      CHECK(stock.profile.length() >= 72 * bench::inch);
      CHECK(stock.profile.length() <= 144 * bench::inch);
      CHECK(stock.profile.width() >= 4 * bench::inch);
      CHECK(stock.profile.width() <= 14 * bench::inch);
      CHECK(stock.zones[0].size() <= 15);
      // 0.4 of what the wood cost, to a ten-thousandth a cell and more.
      const Worth wood = stock.cost - bench::dollar;
      const Worth worth = stock.offcuts.worth(stock.profile.length(), stock.profile.width());
      CHECK(std::abs(worth - wood * 4 / 10) < bench::dollar / 100);
    }
  }
}

TEST_CASE("shops of real boards take every graded board once at most") {
  const std::vector<bench::Instance> oak =
      bench::readSet(FLITCHBOOK_SOURCE "/tests/bench/data/red_oak_boards_1998");
  const Problem all = bench::oakShop(oak, bench::ShopSize::of(191), 1);
  CHECK_NOTHROW(validate(all));
  CHECK(all.stock.size() == 191);
  std::size_t marks = 0, expected = 0;
  for (const Stock& stock : all.stock) marks += stock.zones[0].size();
  for (const bench::Instance& board : oak)
    if (board.grade != "-") expected += board.defects.size();
  CHECK(marks == expected);
  CHECK_THROWS_AS(bench::oakShop(oak, bench::ShopSize::of(192), 1), std::invalid_argument);
}
