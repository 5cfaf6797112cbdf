// What went otherwise than planned: parts lost at the saw, spoiled later, boards used by hand.
#include <catch2/catch.hpp>

#include "inventory/desk/proof.h"
#include "inventory/desk/reports.h"
#include "inventory/desk/saw_otherwise.h"
#include "inventory/store/writer.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;
using sample::Life;

namespace {

/// Row of a waste report: volume, board feet, cost of a cause.
std::vector<CellValue> rowOf(const Table& table, const std::string& cause) {
  for (const auto& row : table.rows)
    if (std::get<std::string>(row[0]) == cause) return row;
  return {};
}

Money costOf(const Table& table, const std::string& cause) {
  const auto row = rowOf(table, cause);
  return row.empty() ? Money() : std::get<Money>(row[3]);
}

}  // namespace

TEST_CASE("a part spoiled weeks later is lost wood, wanted again, and undone like all else") {
  Life life;
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  const Table before = wasteReport(life.shop.now(), life.job);
  CHECK(life.shop.now().made(life.job).at(1) == std::set<int>{1});

  const Spoiled gone =
      spoil(life.shop.book, life.job, {"A1"}, "tear-out at the planer", life.shop.hand);
  REQUIRE(gone.pieces.size() == 1);
  CHECK(gone.pieces[0].reason == "tear-out at the planer");
  CHECK(gone.cost == costOf(before, "parts"));
  CHECK(life.shop.now().made(life.job).empty());
  CHECK(life.shop.faults() == "");
  CHECK(prove(life.shop.book).empty());
  const Table after = wasteReport(life.shop.now(), life.job);
  CHECK(after.totals == before.totals);
  CHECK(costOf(after, "spoiled") == costOf(before, "parts"));
  CHECK(costOf(after, "parts") == Money());
  CHECK(rowOf(after, "spoiled")[2] == rowOf(before, "parts")[2]);

  CHECK(life.code([&] { spoil(life.shop.book, life.job, {"A1"}, "", life.shop.hand); }) ==
        "spoiled-already");
  // The sawing stands under it.
  CHECK(undo(life.shop.book, life.shop.hand).reversed == gone.entry);
  CHECK(life.shop.now().made(life.job).at(1) == std::set<int>{1});
  CHECK(wasteReport(life.shop.now(), life.job).rows == before.rows);
  CHECK(life.shop.faults() == "");
  spoil(life.shop.book, life.job, {"A1"}, "", life.shop.hand);
  CHECK(life.shop.now().spoiled(life.job).size() == 1);
}

TEST_CASE("a plan kept since stands on what was spoiled before it") {
  Life life;
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  const Spoiled gone = spoil(life.shop.book, life.job, {"A1"}, "", life.shop.hand);
  const BoardId other = life.shop.receive({sample::plank(in(96), in(8))}).boards[0].id;
  Cutting again = sample::cuttingOf(other);
  keep(life.shop.book, life.shop.planned(life.job, {again}), false, life.shop.hand);
  CHECK(prove(life.shop.book).empty());
  CHECK(life.code([&] {
    life.shop.book.change({"undone", {}, "", gone.entry}, life.shop.hand,
                          [&](store::Writer& writer) { writer.reverse(gone.entry); });
  }) == "stands-on-it");
  sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
  CHECK(life.shop.now().made(life.job).at(1) == std::set<int>{1});
  CHECK(prove(life.shop.book).empty());
  // The one that stands is spoiled next, not the one that is gone already.
  const Spoiled second = spoil(life.shop.book, life.job, {"A1"}, "", life.shop.hand);
  CHECK(second.pieces[0].cutting != gone.pieces[0].cutting);
  CHECK(life.shop.faults() == "");
}

TEST_CASE("a blank lost at the saw is wanted again in the same entry") {
  Life life;
  const Sawn sawn =
      sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand, {{"A1"}, "a shake inside"});
  CHECK(sawn.woodCost == life.plan.plan.woodCost);
  CHECK(life.shop.now().made(life.job).empty());
  REQUIRE(life.shop.now().spoiled(life.job).size() == 1);
  CHECK(life.shop.now().spoiled(life.job)[0].entry == sawn.entry);
  CHECK(life.shop.faults() == "");
  undo(life.shop.book, life.shop.hand);
  CHECK(life.shop.now().spoiled(life.job).empty());
  CHECK(life.now(life.board.id).onRack());
  CHECK(life.shop.faults() == "");
}

TEST_CASE("marks that name nothing sawn are refused and the book is as it was") {
  Life life;
  const EntryId last = life.shop.now().lastEntry();
  const auto lost = [&](const std::vector<std::string>& marks) {
    return life.code([&] {
      sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand, {marks, ""});
    });
  };
  CHECK(lost({"A2"}) == "not-sawn");
  CHECK(lost({"A1", "Z9"}) == "not-sawn");
  const auto spoiling = [&](const std::vector<std::string>& marks) {
    return life.code([&] { spoil(life.shop.book, life.job, marks, "", life.shop.hand); });
  };
  CHECK(spoiling({"A1"}) == "not-sawn");
  CHECK(spoiling({}) == "no-mark");
  CHECK(spoiling({"A1", "A1"}) == "twice");
  CHECK(life.shop.now().lastEntry() == last);
}

TEST_CASE("a board used up by hand balances, and what is left of it goes back to the rack") {
  Life life;
  const Money landed = life.board.cost;
  // Of 96 in 24 are left at the tag end: a quarter of the wood, at 40 % of its share of $30, the
  // reference edge of 1/8 in off the 8 in it is counted on: 0.4 x 30 x 24 x 7.875 / 768.
  const UsedByHand used =
      useByHand(life.shop.book, life.board.id, life.job, in(24), "shims", life.shop.hand);
  REQUIRE(used.left);
  CHECK(used.left->cost == Money::tenThousandths(29'531));
  CHECK(used.cost == landed - used.left->cost);
  CHECK(used.left->length() == in(24));
  CHECK(used.left->parent == life.board.id);
  CHECK(used.left->tag == life.board.tag);  // it hangs there still
  CHECK_FALSE(life.now(life.board.id).onRack());
  CHECK(life.shop.faults() == "");
  CHECK(life.code([&] { useByHand(life.shop.book, life.board.id, {}, {}, "", life.shop.hand); }) ==
        "not-on-rack");
  undo(life.shop.book, life.shop.hand);
  CHECK(life.now(life.board.id).onRack());
  CHECK(life.now(life.board.id).cost == landed);
  CHECK(life.shop.faults() == "");
  CHECK(life.code([&] {
    useByHand(life.shop.book, life.board.id, {}, in(96), "", life.shop.hand);
  }) == "not-shorter");
  const UsedByHand all = useByHand(life.shop.book, life.board.id, {}, {}, "", life.shop.hand);
  CHECK_FALSE(all.left);
  CHECK(all.cost == landed);
  CHECK(life.shop.faults() == "");
}

TEST_CASE("a board held for one job is not used by hand for another") {
  Life life(true);
  Job other;
  other.name = "Stool";
  other.parts = {sample::part(1, 1, in(10), in(2))};
  const JobId stool = addJob(life.shop.book, other, life.shop.hand);
  CHECK(life.code([&] {
    useByHand(life.shop.book, life.board.id, stool, {}, "", life.shop.hand);
  }) == "reserved");
  const UsedByHand used =
      useByHand(life.shop.book, life.board.id, life.job, {}, "", life.shop.hand);
  CHECK(used.cost == life.board.cost);
  CHECK(life.shop.faults() == "");
}
