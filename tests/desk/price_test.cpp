#include "inventory/desk/price.h"

#include <catch2/catch.hpp>

#include "inventory/desk/saw.h"
#include "tests/desk/life.h"

using namespace flitch;
using namespace flitch::desk;
using Catch::Contains;
using sample::in;

namespace {

Money ten(std::int64_t n) { return Money::tenThousandths(n); }

const std::string day = "2026-05-31";

void priceCherry(sample::Life& life, Money perFoot, const std::string& since) {
  setPrices(life.shop.book, {{"cherry", Nominal::quarters(4), "", {perFoot}, since, "the yard"}},
            day, life.shop.hand);
}

std::vector<JobLine> lines() {
  JobLine pulls{JobLineKind::hardware, "cup pull", 4000, "pcs", ten(32'500), {}, ""};
  JobLine rail{JobLineKind::bar, "brass rail", 1000, "", Money::units(12), in(96), ""};
  JobLine half{JobLineKind::bar, "brass rail", 1000, "", Money::units(7), in(48), ""};
  JobLine cut{JobLineKind::cut, "brass rail", 4000, "", std::nullopt, in(30, 8), ""};
  JobLine work{JobLineKind::hours, "joinery", 2500, "", std::nullopt, {}, ""};
  return {pulls, rail, half, cut, work};
}

}  // namespace

TEST_CASE("an estimate worked by hand, at what the board cost and at today's price") {
  sample::Life life;
  priceCherry(life, Money::units(9), "2026-05-01");
  setJobLines(life.shop.book, life.job, lines(), life.shop.hand);
  const Estimate e = estimate(life.shop.now(), life.job, day, Unit::inches);
  // The board: 8 in x 8 ft, surface measure 5 (5 1/3 counts 5): 5 bf, $30 as it cost at $6, $45
  // at $9. The offcut, 32 7/8 x 7 7/8 in (the reference edge off) of 96 x 8, keeps 0.4 of its
  // share by area: 0.4 x 258.890625 / 768 = 0.134838...: $4.0451 of $30, $6.0677 of $45.
  REQUIRE(e.wood.size() == 1);
  CHECK(e.wood[0].feet == Feet{5000});
  CHECK(e.wood[0].cost == TwoCosts{Money::units(30), Money::units(45)});
  CHECK(e.wood[0].since == "2026-05-01");
  CHECK(e.kept == TwoCosts{ten(40'451), ten(60'677)});
  // $5 to pull, 3 cuts to square, 3 more: a section, a blank, an offcut.
  CHECK(e.cutting == Money::units(11));
  CHECK(e.lumber == TwoCosts{ten(369'549), ten(499'323)});
  CHECK(e.lumber.landed == life.plan.plan.total());
  // Four pulls at $3.25 = $13. The rail: one bar of 96 in gives three, one of 48 in the fourth:
  // $19.
  REQUIRE(e.materials.size() == 2);
  CHECK(e.materials[0].cost == Money::units(13));
  CHECK(e.materials[1].cost == Money::units(19));
  CHECK_THAT(e.materials[1].what, Contains("1 of 96 in: 3 × 30 1/8 in"));
  // 2 1/2 h at $60.
  CHECK(e.allWork == Money::units(150));
  // 15 % of 36.9549 + 32 = 68.9549 is 10.343235; of 49.9323 + 32 = 81.9323 it is 12.289845.
  CHECK(e.markup == TwoCosts{ten(103'432), ten(122'898)});
  CHECK(e.sum == TwoCosts{ten(2'292'981), ten(2'442'221)});
  CHECK(askedPrice(e) == Money::units(244));
  REQUIRE(e.parts.size() == 1);
  CHECK(e.parts[0].cost.landed == e.lumber.landed - e.cutting);

  SECTION("sawn as planned it says the same, and the ledger posts its wood cost") {
    sawAsPlanned(life.shop.book, life.job, {}, life.shop.hand);
    CHECK(estimate(life.shop.now(), life.job, day, Unit::inches).sum == e.sum);
    Money posted;
    for (const store::LedgerSum& sum : life.shop.now().sawnSums(life.job)) {
      if (sum.target != AccountKind::board) posted += sum.cost;  // else an offcut's
    }
    CHECK(posted == e.lumber.landed - e.cutting);
  }
  SECTION("a day before the price, the landed cost stands in for it and is named") {
    const Estimate before = estimate(life.shop.now(), life.job, "2026-04-30", Unit::inches);
    CHECK(before.sum.today == before.sum.landed);
    REQUIRE(before.notes.size() == 1);
    CHECK_THAT(before.notes[0], Contains("cherry 4/4"));
  }
}

TEST_CASE("prices and bills are replaced by newer ones and come back when those are undone") {
  sample::Life life;
  priceCherry(life, Money::units(8), "2026-05-01");
  priceCherry(life, Money::units(9), "");
  CHECK(life.shop.now().prices().back().since == day);
  CHECK(priceTable(life.shop.now().prices(), day).rows.size() == 1);
  undo(life.shop.book, life.shop.hand);
  CHECK(life.shop.now().prices().size() == 1);

  setJobLines(life.shop.book, life.job, lines(), life.shop.hand);
  setJobLines(life.shop.book, life.job, {lines()[0]}, life.shop.hand);
  CHECK(life.shop.now().jobLines(life.job) == std::vector<JobLine>{lines()[0]});
  undo(life.shop.book, life.shop.hand);
  CHECK(life.shop.now().jobLines(life.job) == lines());
  CHECK(life.shop.faults().empty());
}

TEST_CASE("bars and pieces that do not go together leave the book as it was") {
  sample::Life life;
  const EntryId before = life.shop.now().lastEntry();
  const auto refused = [&](const std::vector<JobLine>& bad) {
    return life.code([&] { setJobLines(life.shop.book, life.job, bad, life.shop.hand); });
  };
  CHECK(refused({lines()[3]}) == "no-bar");
  CHECK(refused({lines()[1]}) == "no-cut");
  CHECK(refused({lines()[2], {JobLineKind::cut, "brass rail", 1000, "", {}, in(49), ""}}) ==
        "bar-too-short");
  CHECK(life.code([&] { setPrices(life.shop.book, {}, day, life.shop.hand); }) == "no-prices");
  const ReplacementPrice once{"cherry", Nominal::quarters(4), "", {Money::units(1)}, day, ""};
  CHECK(life.code([&] {
    setPrices(life.shop.book, {once, once}, day, life.shop.hand);
  }) == "twice");
  CHECK(life.shop.now().lastEntry() == before);
}

TEST_CASE("a quote is kept as it was given, with a number and a price without costs") {
  sample::Life life;
  Asked asked;
  asked.quote.job = life.job;
  asked.quote.givenOn = day;
  const Quote first = giveQuote(life.shop.book, asked, life.shop.hand);
  CHECK(first.number == "Q 26-001");
  CHECK(first.title == "Shelf");
  // 36.9549 of lumber and 15 % on it: 42.498.
  CHECK(first.price == Money::units(42));
  asked.price = true;
  asked.quote.price = Money::units(99);
  asked.quote.validUntil = "2026-05-30";
  CHECK(life.code([&] { giveQuote(life.shop.book, asked, life.shop.hand); }) == "bad-date");
  asked.quote.validUntil = "2026-06-30";
  CHECK(giveQuote(life.shop.book, asked, life.shop.hand).number == "Q 26-002");
  REQUIRE(life.shop.now().quotes(life.job).size() == 2);
  CHECK(life.shop.now().quotes(life.job)[0] == first);
  undo(life.shop.book, life.shop.hand);
  CHECK(life.shop.now().quotes(life.job).size() == 1);
}

TEST_CASE("without a whole plan there is no price to give, unless one is named") {
  sample::Shop shop;
  Job job;
  job.name = "Door";
  job.parts = {sample::part(1, 1, in(60), in(6))};
  Asked asked;
  asked.quote.job = addJob(shop.book, job, shop.hand);
  asked.quote.givenOn = day;
  CHECK_THROWS_AS(giveQuote(shop.book, asked, shop.hand), Refusal);
  asked.price = true;
  asked.quote.price = Money::units(500);
  CHECK(giveQuote(shop.book, asked, shop.hand).price == Money::units(500));
}

TEST_CASE("a job is copied, times so many, with another size, its bill goes with it") {
  sample::Life life;
  Job job;
  job.name = "Door";
  job.customer = "the mill";
  job.sizes = {{"width", "24", {}}, {"stile", "2 1/2", {}}};
  job.parts = {sample::part(1, 2, in(60), in(6))};
  job.parts[0].typed[0] = "width - 2*stile";
  const JobId door = addJob(life.shop.book, job, life.shop.hand);
  setJobLines(life.shop.book, door, {lines()[0]}, life.shop.hand);
  const JobId copied =
      copyJob(life.shop.book, door, {"Wide door", "", 3, {{"width", "30", {}}}}, life.shop.hand);
  const Job copy = life.shop.now().job(copied).value();
  CHECK(copy.parts[0].copies == 6);
  CHECK(copy.parts[0].length == in(25));
  CHECK(copy.customer == "the mill");
  CHECK(life.shop.now().job(door).value().parts[0].length == in(19));
  CHECK(life.shop.now().jobLines(copied)[0].thousandths == 12'000);
  CHECK(life.code([&] {
    copyJob(life.shop.book, door, {"Tall door", "", 1, {{"height", "80", {}}}}, life.shop.hand);
  }) == "unknown-size");
  CHECK(life.shop.faults().empty());
}
