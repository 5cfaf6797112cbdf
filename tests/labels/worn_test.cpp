#include <catch2/catch.hpp>
#include <map>

#include "tests/labels/worn_pictures.h"

using namespace flitch;
using namespace flitch::test;

// tagbench does the same with 1,000 pictures and prints a rate for each kind of wear.
TEST_CASE("tags that were turned, blurred, faint or slanted are read, and none as another") {
  std::mt19937 random(71);
  std::map<Wear, int> read;
  int pictures = 0;
  for (const pages::LabelStock& stock : pages::labelStocks())
    for (const Wear wear : wears) {
      const WornPicture worn = wornPicture(random, stock, pictures % 2 == 0 ? 203 : 300, wear);
      ++pictures;
      const Outcome came = outcome(worn);
      INFO(worn.stock << " " << word(wear) << " " << worn.code);
      CHECK(came != Outcome::wrong);
      read[wear] += came == Outcome::read;
    }
  const int stocks = static_cast<int>(pages::labelStocks().size());
  CHECK(read[Wear::none] == stocks);
  CHECK(read[Wear::turned] == stocks);
}
