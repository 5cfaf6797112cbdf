#include "inventory/desk/lost_tag.h"

#include <catch2/catch.hpp>

#include "inventory/desk/count.h"
#include "inventory/desk/rack_work.h"
#include "tests/desk/shop.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;

TEST_CASE("a board without its tag: the missing one of its size comes first") {
  sample::Shop shop;
  const std::vector<Board> boards =
      shop.receive({sample::plank(in(96), in(8)), sample::plank(in(97), in(8)),
                    sample::plank(in(96), in(6)), sample::plank(in(60), in(8))})
          .boards;
  moveTo(shop.book, boards, "B3", shop.hand);
  // The second was not there when the bay was counted.
  count(shop.book, "B3", {text(*boards[0].tag), text(*boards[2].tag), text(*boards[3].tag)}, 0,
        true, shop.hand);
  const auto likely = likelyBoards(shop.now(), "cherry 4/4", Unit::inches, in(96), in(7, 56));
  REQUIRE(likely.size() == 2);
  CHECK(likely[0].board.id == boards[1].id);
  CHECK(likely[0].missing);
  CHECK(likely[0].lengthOff == in(1));
  CHECK(likely[1].board.id == boards[0].id);
  CHECK_FALSE(likely[1].missing);
  CHECK(likelyBoards(shop.now(), "ash", Unit::inches, in(96), in(8)).empty());
  CHECK(likelyTable(likely, Unit::inches).rows.size() == 2);
}
