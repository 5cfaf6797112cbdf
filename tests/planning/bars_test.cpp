#include "inventory/planning/bars.h"

#include <catch2/catch.hpp>
#include <map>

#include "inventory/records/refusal.h"
#include "tests/bench/instances.h"
#include "tests/records/bench.h"

using namespace flitch;
using namespace flitch::planning;
using namespace flitch::bench;

namespace {

BarPlan planned(const std::vector<BarSold>& sold, const std::vector<BarPieces>& pieces,
                Length kerf) {
  return cutBars("rail", sold, pieces, kerf);
}

/// Pieces of every way of cutting fit their bar with a kerf between, and add up to what is wanted.
void checkWhole(const BarPlan& plan, const std::vector<BarSold>& sold,
                const std::vector<BarPieces>& pieces, Length kerf) {
  std::vector<int> given(pieces.size(), 0);
  Money cost;
  for (const BarCut& cut : plan.cuts) {
    Length used;
    int count = 0;
    for (std::size_t kind = 0; kind < pieces.size(); ++kind) {
      used = used + pieces[kind].length * cut.copies[kind];
      count += cut.copies[kind];
      given[kind] += cut.copies[kind] * cut.times;
    }
    used = used + kerf * (count - 1);
    CHECK(used + cut.left == sold[cut.sold].length);
    CHECK(cut.left >= Length());
    cost += sold[cut.sold].price * cut.times;
  }
  CHECK(cost == plan.cost);
  for (std::size_t kind = 0; kind < pieces.size(); ++kind) CHECK(given[kind] >= pieces[kind].count);
}

}  // namespace

TEST_CASE("two lengths of bar, worked by hand") {
  // Of 96 in at $12 come three of 30 1/8 with two kerfs of 1/8 between (90 5/8); of 48 in at $7
  // comes one. Four pieces: one of each, $19; two long ones would be $24. Five: two long ones.
  const std::vector<BarSold> sold{{in(96), Money::units(12)}, {in(48), Money::units(7)}};
  const BarPlan four = planned(sold, {{in(30, 8), 4}}, in(0, 8));
  CHECK(four.cost == Money::units(19));
  CHECK(four.proved);
  CHECK(four.bars == std::vector<int>{1, 1});
  checkWhole(four, sold, {{in(30, 8), 4}}, in(0, 8));
  CHECK(planned(sold, {{in(30, 8), 5}}, in(0, 8)).cost == Money::units(24));
}

TEST_CASE("the kerf decides: two halves of a bar are a kerf too long") {
  const std::vector<BarSold> sold{{in(96), Money::units(12)}};
  CHECK(planned(sold, {{in(48), 2}}, Length()).cost == Money::units(12));
  CHECK(planned(sold, {{in(48), 2}}, in(0, 1)).cost == Money::units(24));
}

TEST_CASE("lengths without a common measure are rounded against us, and still fit") {
  const std::vector<BarSold> sold{{Length::nanometres(2'438'400'001), Money::units(12)}};
  const std::vector<BarPieces> pieces{{Length::nanometres(333'333'333), 7}};
  const BarPlan plan = planned(sold, pieces, Length::nanometres(3'175'003));
  checkWhole(plan, sold, pieces, Length::nanometres(3'175'003));
}

TEST_CASE("what cannot be cut is refused by name") {
  const auto refused = [](const std::vector<BarSold>& sold, const std::vector<BarPieces>& pieces) {
    try {
      (void)planned(sold, pieces, Length());
    } catch (const Refusal& refusal) {
      return refusal.code();
    }
    return std::string("taken");
  };
  CHECK(refused({}, {{in(4), 1}}) == "no-bar");
  CHECK(refused({{in(96), Money::units(1)}}, {}) == "no-cut");
  CHECK(refused({{in(96), Money::units(1)}}, {{in(97), 1}}) == "bar-too-short");
}

TEST_CASE("bars of published sets: fewest bars, proved") {
  // Values: proven optima of Falkenauer 1996, Scholl, Klein & Juergens 1997 and Schwerin & Waescher
  // 1997, as tests/bench/data/one_dimensional/expected.csv names row by row.
  const std::string folder = FLITCHBOOK_SOURCE "/tests/bench/data/one_dimensional";
  std::map<std::string, optimizer::Worth> known;
  for (const bench::Known& row : bench::readKnown(folder + "/expected.csv")) {
    known[row.instance] = row.value;
  }
  int met = 0;
  for (const bench::Instance& instance : bench::readSet(folder)) {
    const auto& name = instance.name;
    if (name != "u120_00" && name != "N1C1W4_A" && name != "N1C2W2_K" && name != "N2C1W4_P") {
      continue;
    }
    INFO(name);
    std::vector<BarPieces> pieces;
    for (const bench::Instance::Piece& piece : instance.pieces) {
      pieces.push_back({Length::millimetres(piece.l), static_cast<int>(piece.most)});
    }
    const std::vector<BarSold> sold{{Length::millimetres(instance.length), Money::units(1)}};
    const BarPlan plan = planned(sold, pieces, Length());
    CHECK(plan.cost == Money::units(known.at(name)));
    CHECK(plan.proved);
    checkWhole(plan, sold, pieces, Length());
    ++met;
  }
  CHECK(met == 4);
}
