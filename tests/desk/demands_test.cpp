#include "inventory/desk/demands.h"

#include <catch2/catch.hpp>

#include "inventory/exchange/csv.h"
#include "inventory/planning/planner.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using sample::in;

namespace {

std::vector<Demand> read(const sample::Shop& shop, const std::string& bytes) {
  return exchange::readDemands(exchange::readCsv(bytes, "d.csv"), readingRules(shop.book));
}

/// How many of a part of 40 x 6 in, clear on face A, come from a board with a knot of `size`
/// through its middle.
std::size_t cutWith(const std::string& table, Length size) {
  sample::Shop shop;
  setDemands(shop.book, read(shop, table), shop.hand);
  Board board = shop.receive({sample::plank(in(50), in(7))}).boards.front();
  board.defects = {{"sound knot", DefectFace::through, {in(24), in(3), size, in(0, 16)}}};
  survey(shop.book, board, shop.hand);
  Job job;
  job.name = "Shelf";
  job.parts = {sample::part(1, 1, in(40), in(6))};
  job.parts[0].faceA = "clear";
  const JobId id = addJob(shop.book, job, shop.hand);
  optimizer::Limits limits;
  limits.effort = 1'000'000;
  return planning::makePlan(request(shop.book, id, {}), limits).plan.cuttings.size();
}

const std::string pinsAllowed =
    "demand,sound knot,stain,unseen,outside_good\n"
    "clear,1/2,,,\nsound,any,any,,\nhidden,any,any,yes,yes\n";

}  // namespace

TEST_CASE("a pin knot may lie where a knot may not: the largest size allowed decides") {
  CHECK(cutWith(pinsAllowed, in(0, 32)) == 1);
  CHECK(cutWith(pinsAllowed, in(0, 33)) == 0);
}

TEST_CASE("the table written as CSV reads back as the table it was") {
  sample::Shop shop;
  std::vector<Demand> table = shop.now().shop().demands;
  table[1].limits = {{"sound knot", in(0, 48)}};
  table.push_back({"pins only", {"sound knot"}, false, false, {{"sound knot", in(0, 16)}}});
  setDemands(shop.book, table, shop.hand);
  const Table shown = demandTable(shop.now().shop(), shop.now().defectKinds());
  const std::vector<Demand> back = read(shop, exchange::writeCsv(shown));
  REQUIRE(back.size() == table.size());
  for (std::size_t i = 0; i < table.size(); ++i) {
    INFO(table[i].name);
    CHECK(back[i].name == table[i].name);
    CHECK(back[i].limits == table[i].limits);
    CHECK(back[i].unseen == table[i].unseen);
    CHECK(back[i].outsideGood == table[i].outsideGood);
    for (const DefectKind& kind : startingDefectKinds()) {
      INFO(kind.name);
      CHECK(allows(back[i], kind.name) == allows(table[i], kind.name));
    }
  }
}

TEST_CASE("a demand that a part asks for cannot go, and bad tables are refused whole") {
  sample::Life life;
  const EntryId before = life.shop.now().lastEntry();
  CHECK(life.code([&] {
    setDemands(life.shop.book, read(life.shop, "demand,sound knot\nhidden,any\n"), life.shop.hand);
  }) == "demand-used");
  const auto refused = [&](const std::string& bytes) {
    return life.code([&] { (void)read(life.shop, bytes); });
  };
  CHECK(refused("demand,sound nkot\nclear,any\n") == "bad-head");
  CHECK(refused("sound knot\nany\n") == "bad-head");
  CHECK(refused("demand,sound knot\nclear,large\n") == "bad-cell");
  CHECK(refused("demand,sound knot\nclear,any\nclear,1/2\n") == "bad-cell");
  CHECK(refused("demand,sound knot\n,any\n") == "bad-cell");
  CHECK(life.shop.now().lastEntry() == before);
}
