// Untagged shorts: they go to the bin of their species, carry wood and no money, and balance.
#include "inventory/desk/bins.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "inventory/desk/proof.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/saw_paper.h"
#include "inventory/store/writer.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::Life;

namespace {

struct WithBin : Life {
  WithBin() {
    addBin(shop.book, {{}, "Cherry shorts", "cherry", "under the bench", {}}, shop.hand);
  }
  [[nodiscard]] Bin bin() const { return binOf(shop.now(), "cherry"); }
  [[nodiscard]] bool sound() const { return shop.faults().empty() && prove(shop.book).empty(); }
};

std::vector<CellValue> rowOf(const Table& table, const std::string& name) {
  for (const auto& row : table.rows)
    if (std::get<std::string>(row[0]) == name) return row;
  return {};
}

}  // namespace

TEST_CASE("a bin is made for a species, once") {
  Life life;
  CHECK(life.shop.now().bins().empty());
  const auto make = [&](const std::string& name, const std::string& species) {
    return life.code([&] { addBin(life.shop.book, {{}, name, species, "", {}}, life.shop.hand); });
  };
  CHECK(make(" ", "cherry") == "no-name");
  CHECK(make("Shorts", "chalk") == "unknown-species");
  CHECK(make("Shorts", "cherry") == "");
  CHECK(make("Other", "cherry") == "bin-taken");
  CHECK(binNamed(life.shop.now(), "SHORTS").species == "cherry");
  CHECK(binNamed(life.shop.now(), "cherry").name == "Shorts");
  CHECK(life.code([&] { static_cast<void>(binNamed(life.shop.now(), "oak")); }) == "unknown-bin");
  CHECK(life.shop.faults() == "");
  undo(life.shop.book, life.shop.hand);
  CHECK(life.shop.now().bins().empty());
  CHECK(make("Shorts", "cherry") == "");
  CHECK(life.shop.faults() == "");
}

TEST_CASE("what the plan throws and is worth it goes to the bin, at no cost to the promise") {
  WithBin life;
  // Beside the blank 61 x 1 1/2 is thrown, 1 in thick: 91.5 in³, 0.635 bf. The sound knot in it may
  // stay. The offcut, 32 7/8 x 8, keeps its tag.
  const Sawn sawn = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand, {}, true);
  CHECK(sawn.offcuts.size() == 1);
  CHECK(sawn.woodCost == life.plan.plan.woodCost);
  const double cubicInch = 25.4 * 25.4 * 25.4;
  CHECK(static_cast<double>(life.bin().wood.value) == Approx(91.5 * cubicInch).margin(1));
  CHECK(sawn.binned == life.bin().wood);
  CHECK(estimatedFeet(life.bin().wood) == Feet{635});
  CHECK(life.sound());

  const Table waste = wasteReport(life.shop.now(), life.job);
  const auto bin = rowOf(waste, "bin");
  REQUIRE(bin.size() == 5);
  CHECK(std::get<CubicMillimetres>(bin[1]) == life.bin().wood);
  CHECK(std::get<Money>(bin[3]) == Money());
  // By plan area: 61 x 1 1/2 of the board's 96 x 8, of 5.333 bf.
  CHECK(std::get<Feet>(bin[2]).thousandths == Approx(5333 * 91.5 / 768).margin(1));
  CHECK(std::get<Money>(rowOf(waste, "offcuts")[3]) == sawn.offcuts[0].cost);
  CHECK(std::get<Money>(rowOf(waste, "unusable")[3]) == Money());

  undo(life.shop.book, life.shop.hand);
  CHECK(life.bin().wood == CubicMillimetres{});
  CHECK(life.sound());
}

TEST_CASE("without a bin of the species shorts are refused and the book is as it was") {
  Life life;
  const EntryId last = life.shop.now().lastEntry();
  CHECK(life.code([&] { sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand, {}, true); }) ==
        "no-bin");
  CHECK(life.shop.now().lastEntry() == last);
}

TEST_CASE("a short of a size is cut out of the remainder, one large enough for a tag is refused") {
  WithBin life;
  const auto enter = [&](const std::string& line) {
    return life.code([&] {
      const PaperLine read =
          readPaper(line, sample::cuttingOf(life.board.id), readingRules(life.shop.book));
      saw(life.shop.book, life.job,
          {turnOf(life.shop.now(), life.board.id, read, false, Unit::inches)}, life.shop.hand);
    });
  };
  CHECK(enter("bin 20 x 4") == "no-short");
  CHECK(enter("bin 61 x 2") == "no-room");
  CHECK(enter("bin 10 x 1, bin 8 x 1 1/2") == "");
  // 10 x 1 and 8 x 1 1/2, 1 in thick: 22 in³.
  CHECK(static_cast<double>(life.bin().wood.value) == Approx(22 * 25.4 * 25.4 * 25.4).margin(2));
  CHECK(life.sound());
}

TEST_CASE("a bin is filled, used, thrown out and estimated anew, never below nothing") {
  WithBin life;
  const auto work = [&](BinWork what, std::int64_t thousandths) {
    return life.code([&] {
      changeBin(life.shop.book, life.bin().id, what, Feet{thousandths}, life.job, "",
                life.shop.hand);
    });
  };
  CHECK(work(BinWork::used, 100) == "not-so-much");
  CHECK(work(BinWork::put, 4000) == "");
  CHECK(estimatedFeet(life.bin().wood) == Feet{4000});
  CHECK(life.bin().wood == CubicMillimetres{9'438'948});  // 4 x 144 x 25.4³ = 9 438 948.9
  CHECK(work(BinWork::used, 1500) == "");
  CHECK(work(BinWork::thrown, 500) == "");
  CHECK(estimatedFeet(life.bin().wood) == Feet{2000});
  CHECK(work(BinWork::thrown, 2500) == "not-so-much");
  CHECK(work(BinWork::put, 0) == "nothing");
  CHECK(work(BinWork::holds, 2000) == "nothing");
  CHECK(work(BinWork::holds, 3200) == "");
  CHECK(work(BinWork::holds, 700) == "");
  CHECK(estimatedFeet(life.bin().wood) == Feet{700});
  // A bin's wood was sawn before: what was used of it counts as no board used by hand.
  CHECK(life.shop.now().usedByHand(life.job).volume == CubicMillimetres{});
  CHECK(life.sound());
  for (int back = 0; back < 5; ++back) undo(life.shop.book, life.shop.hand);
  CHECK(life.bin().wood == CubicMillimetres{});
  CHECK(life.sound());
}

TEST_CASE("a sawing is not taken back once its shorts were used") {
  WithBin life;
  const Sawn sawn = sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand, {}, true);
  changeBin(life.shop.book, life.bin().id, BinWork::used, Feet{600}, {}, "shims", life.shop.hand);
  CHECK(life.code([&] {
    life.shop.book.change({"undone", {}, "", sawn.entry}, life.shop.hand,
                          [&](store::Writer& writer) { writer.reverse(sawn.entry); });
  }) == "stands-on-it");
  CHECK(life.sound());
}
